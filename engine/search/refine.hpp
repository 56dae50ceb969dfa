#pragma once
/// An optimum on passes, with what the passes leave uncertain of it: independent replicates, more passes until they
/// agree.
#include <cstdint>
#include <functional>
#include <vector>

#include "engine/search/nlopt_once.hpp"
#include "engine/summary/interval.hpp"

namespace engine {

/// A problem that is judged on random passes.
struct SampledProblem {
  /// Which passes: those of replicates `first` … `first + count − 1` together, `passes` each.
  struct Draw {
    std::uint64_t passes, first, count;
  };
  /// Replicates must be independent of one another.
  /// @param near  where the optimum is expected: where to look for rare failures, say
  std::function<BoxProblem(const Draw& draw, const std::vector<double>& near)> on;
  /// Whether the passes depend on `near`, so that a search is begun anew with passes about its own answer.
  bool follows = false;
};

struct RefineOptions {
  BoxOptions local;              ///< of each search
  std::uint64_t first = 8192;    ///< passes of a replicate at first; four times as many each time they disagree
  std::uint64_t most = 131072;   ///< cap on them; raise when the answer has not settled
  std::uint64_t replicates = 8;  ///< ≥ 2
  double settled = 1e-3;         ///< half-width of the objective's bounds asked for, as a share of it
};

struct RefineStep {
  std::uint64_t passes = 0;  ///< of a replicate
  double mean = 0;           ///< of the replicates' least objectives
  double error = 0;          ///< standard error of that mean
  std::size_t holding = 0;   ///< replicates that found a point that holds
  std::vector<double> x;     ///< of the best place of the replicates together, once sought; else the first's
};

struct RefinedMinimum {
  BoxMinimum best;  ///< on the passes of all replicates together
  Interval
      objective;  ///< 95 %: Student's t over the replicates about `best`; covers sampling error, not a missed minimum
  bool settled = false;
  std::vector<RefineStep> steps;
  std::uint64_t calls = 0;         ///< points judged
  std::uint64_t model_passes = 0;  ///< points times passes
};

/// Every replicate's optimum, sought from `start`; passes are added until the bounds are as narrow as asked, or the
/// cap. The answer is sought on all replicates' passes together, so its own error is near that of the replicates' mean.
/// @throws whatever the problem throws; std::invalid_argument for fewer than two replicates
/// @source sample average approximation with replicates: Mak, Morton & Wood, Oper. Res. Letters 24 (1999), from memory
RefinedMinimum refine(const SampledProblem& problem, const std::vector<double>& start,
                      const RefineOptions& options = {});

}  // namespace engine
