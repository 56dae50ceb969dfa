#include "engine/rare/subset.hpp"

#include <algorithm>
#include <cmath>

#include "engine/rare/subset_run.hpp"

namespace engine::rare {
namespace {

/// Mean, standard error and interval of the runs' answers.
void sum_up(Subset& all) {
  const auto n = static_cast<double>(all.runs.size());
  for (const double p : all.runs) all.p += p / n;
  double squares = 0;
  for (const double p : all.runs) squares += (p - all.p) * (p - all.p);
  all.spread = std::sqrt(squares / (n * (n - 1)));
  if (!(all.p > 0)) return;
  const double stretch = std::exp(student_975(n - 1) * all.spread / all.p);
  all.interval = {all.p / stretch, std::min(1.0, all.p * stretch)};
}

}  // namespace

Subset subset(const LimitState& state, const SubsetOptions& options, std::uint64_t key, std::uint64_t round,
              const Running& running) {
  const std::size_t runs = std::max<std::size_t>(2, options.runs);
  Subset all;
  run_chunks(
      runs, running,
      [&](std::uint64_t r) { return subset_run(state, options, key, round * 1000 + r, options.keep / runs); },
      [&](SubsetRun& run) {
        all.runs.push_back(run.p);
        all.levels = std::max(all.levels, run.levels);
        all.stuck += run.stuck;
        all.calls += run.calls;
        std::move(run.failures.begin(), run.failures.end(), std::back_inserter(all.failures));
      });
  sum_up(all);
  return all;
}

}  // namespace engine::rare
