#pragma once
/// Subset simulation: a rare failure as a chain of failures ten times likelier each.
#include <cstdint>
#include <vector>

#include "engine/pass/loop.hpp"
#include "engine/rare/limit_state.hpp"
#include "engine/summary/interval.hpp"

namespace engine::rare {

using Point = std::vector<double>;

struct SubsetOptions {
  std::size_t chains = 400;  ///< Markov chains of a level, 10 passes each; ≤ block_size; raise when the runs disagree
  std::size_t runs = 16;     ///< independent runs, ≥ 2; their disagreement makes the interval
  double least = 1e-20;      ///< odds below which a run gives up and says 0
  std::size_t keep = 4000;   ///< failed points held on to, all runs together; lower when memory is short
};

struct Subset {
  double p = 0;                 ///< mean over the runs
  Interval interval{0, 1};      ///< 95 %, Student's t over the runs on a logarithmic scale (never reaches 0)
  double spread = 0;            ///< standard error of p
  std::vector<double> runs;     ///< each run's own answer; 0 where it gave up
  std::size_t levels = 0;       ///< most levels a run took
  std::size_t stuck = 0;        ///< runs that gave up because the margin could not be lowered
  std::uint64_t calls = 0;      ///< passes through the limit state
  std::vector<Point> failures;  ///< failed points, spread as failures are
};

/// Probability of failure by independent runs. Levels hold the tenth of the passes with the least margins; chains move
/// by v = √(1 − σ²) u + σ ξ, kept where g(v) is within the level, σ adapted to an acceptance of 0.44. A level on which
/// the margin cannot be lowered further ends a run with 0: such a failure is impossible or hidden. Same (key, round):
/// same bits, whatever `running` says.
/// @source Au & Beck, Probabilistic Engineering Mechanics 16 (2001); Papaioannou, Betz, Zwirglmaier & Straub, ibid. 41
///         (2015), for the move and its adaptation (target 0.44), from memory
/// @throws Interrupted; whatever the limit state throws
Subset subset(const LimitState& state, const SubsetOptions& options, std::uint64_t key, std::uint64_t round,
              const Running& running = {});

}  // namespace engine::rare
