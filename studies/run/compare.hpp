#pragma once
/// Says what changed between results files.
#include <atomic>

#include "studies/run/options.hpp"

namespace studies {

/// @return exit code
int compare(const Options& options, const std::atomic<bool>& interrupted);

}  // namespace studies
