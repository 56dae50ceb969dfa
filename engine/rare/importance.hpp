#pragma once
/// Importance sampling: draws where failures are, each weighed by how likely it was.
#include <cstdint>

#include "engine/pass/loop.hpp"
#include "engine/rare/limit_state.hpp"
#include "engine/rare/mixture.hpp"
#include "engine/summary/interval.hpp"

namespace engine::rare {

struct ImportanceOptions {
  double relative = 0.03;          ///< half-width of the bounds asked for, as a share of p
  std::uint64_t calls = 1u << 20;  ///< cap on passes; raise when `reached` is false
};

struct Importance {
  double p = 0;
  /// Student's t bounds (95 %, 15 degrees of freedom), half again as wide: the draws cannot show what the mixture all
  /// but misses, nor that stopping was their own doing. Over known examples they hold the truth in 99 of 100.
  Interval interval{0, 1};
  double spread = 0;           ///< standard error of p: the larger of that over 16 replicates and that over all draws
  double effective = 0;        ///< effective number of failures, (Σw)²/Σw²
  double largest = 1;          ///< share of the heaviest single draw in the estimate
  std::uint64_t failures = 0;  ///< draws that failed
  std::uint64_t calls = 0;
  bool reached = false;  ///< the half-width asked for
};

/// Draws twice as many until the interval is as narrow as asked, or the cap.
/// Same (key, round): same bits, whatever `running` says.
/// @param mixture  must not come from these very draws; it may miss failures, and then so does the estimate
Importance importance(const LimitState& state, const Mixture& mixture, const ImportanceOptions& options,
                      std::uint64_t key, std::uint64_t round, const Running& running = {});

}  // namespace engine::rare
