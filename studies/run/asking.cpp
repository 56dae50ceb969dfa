#include "studies/run/asking.hpp"

#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <thread>

namespace studies {

Asking asking(const Options& options, const std::atomic<bool>& interrupted, Progress& progress) {
  Asking ask;
  ask.running.threads = options.threads.value_or(std::max(1u, std::thread::hardware_concurrency()));
  ask.running.interrupted = &interrupted;
  ask.running.progress = [&](double share) { progress.report(share); };
  ask.scan = options.scan;
  return ask;
}

bool colour() { return isatty(STDOUT_FILENO) && !std::getenv("NO_COLOR"); }

}  // namespace studies
