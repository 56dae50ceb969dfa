#pragma once
/// How a verb that computes runs: threads, interruption, progress, colour.
#include <atomic>

#include "studies/ask/question.hpp"
#include "studies/run/options.hpp"
#include "studies/say/progress.hpp"

namespace studies {

/// @param interrupted, progress  must outlive the asking
Asking asking(const Options& options, const std::atomic<bool>& interrupted, Progress& progress);

/// Whether standard output is a terminal that may be coloured.
bool colour();

}  // namespace studies
