#pragma once
/// What --help prints.
#include <string>

#include "studies/manual/command.hpp"

namespace studies::manual {

/// Of the program: the verbs, general examples, exit codes.
std::string help_text(const Program& program);
/// Of one verb: its call, options, examples and exit codes.
std::string help_text(const Verb& verb);

}  // namespace studies::manual
