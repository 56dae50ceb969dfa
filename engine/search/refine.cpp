#include "engine/search/refine.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace engine {
namespace {

using Status = BoxMinimum::Status;
using Draw = SampledProblem::Draw;

constexpr int most_follows = 5;
constexpr double stays = 1e-3;  ///< of a side: a search that ends so near its start has passes about its own answer

bool moved(const BoxProblem& box, const std::vector<double>& a, const std::vector<double>& b) {
  for (std::size_t d = 0; d < a.size(); ++d)
    if (std::abs(a[d] - b[d]) > stays * (box.upper[d] - box.lower[d])) return true;
  return false;
}

/// The optimum on a draw, with passes that follow it where they are to.
BoxMinimum sought(const SampledProblem& problem, const Draw& draw, std::vector<double> start,
                  const RefineOptions& options, RefinedMinimum& refined) {
  BoxMinimum found;
  for (int round = 0; round < most_follows; ++round) {
    const BoxProblem box = problem.on(draw, start);
    found = minimise(box, start, options.local);
    refined.calls += static_cast<std::uint64_t>(found.calls);
    refined.model_passes += static_cast<std::uint64_t>(found.calls) * draw.passes * draw.count;
    if (found.x.empty() || cut_short(found.status)) return found;
    const bool there = !moved(box, start, found.x);
    start = found.x;
    if (!problem.follows || there) break;
  }
  return found;
}

RefineStep step_of(const std::vector<BoxMinimum>& found, std::uint64_t passes) {
  RefineStep step;
  step.passes = passes;
  for (const BoxMinimum& f : found) step.holding += f.holds, step.mean += f.objective;
  const auto n = static_cast<double>(found.size());
  step.mean /= n;
  double squares = 0;
  for (const BoxMinimum& f : found) squares += std::pow(f.objective - step.mean, 2);
  step.error = std::sqrt(squares / (n * (n - 1)));
  step.x = found.front().x;
  return step;
}

}  // namespace

RefinedMinimum refine(const SampledProblem& problem, const std::vector<double>& start, const RefineOptions& options) {
  if (options.replicates < 2) throw std::invalid_argument("sampling error needs two replicates or more");
  const double t = student_975(static_cast<double>(options.replicates - 1));
  RefinedMinimum refined;
  std::vector<double> x = start;
  for (std::uint64_t passes = options.first;; passes *= 4) {
    std::vector<BoxMinimum> found;
    for (std::uint64_t r = 0; r < options.replicates; ++r) {
      found.push_back(sought(problem, {passes, r, 1}, x, options, refined));
      if (cut_short(found.back().status)) return refined.best = found.back(), refined;
    }
    refined.steps.push_back(step_of(found, passes));
    const RefineStep& step = refined.steps.back();
    x = step.x;
    refined.settled = step.holding == options.replicates && t * step.error <= options.settled * std::abs(step.mean);
    if (refined.settled || 4 * passes > options.most) {
      refined.best = sought(problem, {passes, 0, options.replicates}, x, options, refined);
      refined.steps.back().x = refined.best.x;
      refined.settled = refined.settled && refined.best.holds;
      refined.objective = {refined.best.objective - t * step.error, refined.best.objective + t * step.error};
      return refined;
    }
  }
}

}  // namespace engine
