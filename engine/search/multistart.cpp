#include "engine/search/multistart.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <stdexcept>

#include "engine/draw/sobol.hpp"
#include "engine/pass/loop.hpp"
#include "engine/search/minima.hpp"
#include "engine/search/watch.hpp"

namespace engine {
namespace {

using Status = BoxMinimum::Status;
using Clock = std::chrono::steady_clock;

/// Gain of a search begun anew at its own end, as a share of the objective, below which it has settled.
constexpr double settled = 1e-9;

/// Time left of a cap for all searches.
class Deadline {
public:
  explicit Deadline(double seconds) : seconds_(seconds), started_(Clock::now()) {}
  /// For `BoxOptions::seconds`: 0 where there is no cap, and never 0 where there is one.
  double left() const {
    const double spent = std::chrono::duration<double>(Clock::now() - started_).count();
    return seconds_ > 0 ? std::max(1e-9, seconds_ - spent) : 0;
  }

private:
  double seconds_;
  Clock::time_point started_;
};

BoxMinimum looked_at(const BoxProblem& problem, const std::vector<double>& x, double feasible) {
  BoxOptions once;
  once.evaluations = 1;
  once.feasible = feasible;
  Watch watch(problem, once);
  try {
    watch.at(x);
  } catch (const StopSearch&) {
  }
  return watch.answer(Status::converged);
}

/// The best of `tried` points to start from.
BoxMinimum started(const BoxProblem& problem, const StartOptions& options, std::size_t k) {
  const std::size_t tried = std::max<std::size_t>(1, options.tried);
  BoxMinimum start;
  int calls = 0;
  for (const std::vector<double>& x : sobol_starts(problem, options.key, k * tried, tried)) {
    BoxMinimum at;
    at.x = x;
    if (tried > 1) at = looked_at(problem, x, options.local.feasible);
    calls += at.calls;
    if (better(at, start)) start = std::move(at);
  }
  start.calls = calls;
  return start;
}

/// The search from start `k`, finished at its own end while that gains.
BoxMinimum searched(const BoxProblem& problem, const StartOptions& options, std::size_t k, const Deadline& deadline) {
  const BoxMinimum start = started(problem, options, k);
  BoxOptions local = options.local;
  local.seconds = deadline.left();
  local.key = threefry({k, 1}, {options.key, static_cast<std::uint64_t>(Stream::starts)})[0];
  BoxMinimum found = minimise(problem, start.x, local);
  int calls = start.calls + found.calls;
  local.method = options.finish;
  for (int again = 0; again < options.again && !found.x.empty() && !cut_short(found.status); ++again) {
    local.seconds = deadline.left();
    const BoxMinimum next = minimise(problem, found.x, local);
    calls += next.calls;
    const bool gains = !found.holds || next.objective < found.objective - settled * std::abs(found.objective);
    if (better(next, found))
      found = next;
    else if (cut_short(next.status))
      found.status = next.status;
    if (!gains) break;
  }
  found.calls = calls;
  return found;
}

/// Whether the expected number of minima is below what was seen and a half.
bool enough(double seen, double searches) {
  return seen > 0 && searches > seen + 2 && seen * (searches - 1) / (searches - seen - 2) < seen + 0.5;
}

}  // namespace

std::vector<std::vector<double>> sobol_starts(const BoxProblem& problem, std::uint64_t key, std::size_t first,
                                              std::size_t count) {
  const std::size_t sides = problem.lower.size();
  const SobolNet net(sobol_directions(sides), key, Stream::starts, 0);
  std::vector<std::vector<double>> all(count, std::vector<double>(sides));
  std::vector<double> column(count);
  for (std::size_t s = 0; s < sides; ++s) {
    const double from = problem.lower[s], side = problem.upper[s] - from;
    if (!std::isfinite(side)) throw std::invalid_argument("starts need a finite box");
    net.fill(s, first, count, column.data());
    for (std::size_t i = 0; i < count; ++i) all[i][s] = from + side * column[i];
  }
  return all;
}

GlobalMinimum minimise_globally(const BoxProblem& problem, const StartOptions& options) {
  const Deadline deadline(options.local.seconds);
  const std::size_t most = std::max<std::size_t>(1, options.most);
  GlobalMinimum global;
  Minima minima(problem, options.alike);
  Status ended = Status::capped;
  Running running;
  running.threads = options.threads;
  std::size_t wanted = std::clamp<std::size_t>(options.least, 1, most);
  while (global.searches < wanted && !cut_short(ended)) {
    const std::size_t first = global.searches;
    run_chunks(
        wanted - first, running, [&](std::uint64_t k) { return searched(problem, options, first + k, deadline); },
        [&](const BoxMinimum& found) {
          ++global.searches;
          global.calls += found.calls;
          if (cut_short(found.status)) ended = found.status;
          if (found.holds) minima.add(found), ++global.holding;
          if (better(found, global.best)) global.best = found;
        });
    const auto n = static_cast<double>(global.searches);
    if (cut_short(ended)) break;
    if (enough(static_cast<double>(minima.size()), n))
      ended = Status::converged;
    else
      wanted = std::min(most, 2 * wanted);
  }
  const auto w = static_cast<double>(minima.size()), n = static_cast<double>(global.searches);
  global.minima = minima.size();
  global.unseen = w > 0 && n > 1 ? std::min(1.0, w * (w + 1) / (n * (n - 1))) : 1;
  global.agreeing = global.best.holds ? minima.agreeing(global.best) : 0;
  global.best.status = !global.best.holds && !cut_short(ended) ? Status::nothing_feasible : ended;
  return global;
}

}  // namespace engine
