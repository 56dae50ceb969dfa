#pragma once
/// Least objective under odds: a coarse global search, then refinement; odds too small to count are drawn for.
#include "engine/search/margin_passes.hpp"
#include "engine/search/multistart.hpp"
#include "engine/search/refine.hpp"

namespace engine {

struct OddsOptions {
  StartOptions coarse;  ///< of the global search; its key is the key of everything
  std::uint64_t coarse_passes = 2048;
  RefineOptions refined;
  /// Allowed odds below this are judged on draws about their design points, weighed; Φ(−3.5): above it they are
  /// counted.
  double rare = 2.326e-4;
};

struct OddsMinimum {
  GlobalMinimum coarse;    ///< odds too small to count are allowed 8 passes there
  RefinedMinimum refined;  ///< the coarse answer, not settled and without steps, where that was cut short
};

/// The passes of a refinement: scrambled Sobol' nets for odds that can be counted, and for each rarer margin draws from
/// a mixture about its design points at `near`. The problem must outlive it.
SampledProblem sampled(const OddsProblem& problem, std::uint64_t key, double rare);

/// Same problem and options: same bits.
/// @throws std::invalid_argument for allowed odds outside (0, 1), or no normals; whatever the problem throws
OddsMinimum minimise_under_odds(const OddsProblem& problem, const OddsOptions& options = {});

}  // namespace engine
