#pragma once
/// Writes the sheets of results files.
#include <atomic>

#include "studies/run/options.hpp"

namespace studies {

/// @return exit code
int write_sheets(const Options& options, const std::atomic<bool>& interrupted);

}  // namespace studies
