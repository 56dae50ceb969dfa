#pragma once
/// What the shells need to complete a command line.
#include <string>
#include <vector>

#include "studies/manual/command.hpp"

namespace studies::manual {

/// Scripts for the three shells.
/// @param materials  names that a material may have
std::string bash_completion(const Program& program, const std::vector<std::string>& materials);
std::string zsh_completion(const Program& program, const std::vector<std::string>& materials);
std::string fish_completion(const Program& program, const std::vector<std::string>& materials);

/// The words that may stand in a place; empty where anything or a file may.
const std::vector<std::string>& words_of(Fills fills, const std::vector<std::string>& words,
                                         const std::vector<std::string>& materials);
/// The endings of the files that may stand there: "toml", "h5"; empty where no file may.
std::vector<std::string> endings_of(Fills fills);

}  // namespace studies::manual
