#pragma once
/// The verb that answers one line of typing.
#include <atomic>

#include "studies/run/options.hpp"

namespace studies {

/// Answers what was typed and prints it; no file is written, and none is read but the program's own tables.
/// @return the exit code, as of `rate`
int reckon(const Options& options, const std::atomic<bool>& interrupted);

}  // namespace studies
