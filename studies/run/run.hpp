#pragma once
/// Carrying out a command line: several studies one after the other, a bad one never stopping the rest.
#include <atomic>
#include <string>
#include <vector>

#include "studies/run/options.hpp"

namespace studies {

/// The studies that the arguments name: files as typed; of a folder its *.toml files by name.
/// @throws Refusal (files) for a folder without studies
std::vector<std::string> study_files(const std::vector<std::string>& arguments);

/// Runs the verb over all studies and prints what it comes to.
/// @param interrupted  set from outside to stop; nothing half-written is left
/// @return the exit code: of several studies the largest
int run(const Options& options, const std::atomic<bool>& interrupted);

}  // namespace studies
