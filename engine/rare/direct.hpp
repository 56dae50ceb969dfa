#pragma once
/// Crude Monte Carlo: the check that assumes nothing, where failures are common enough to be counted.
#include <cstdint>

#include "engine/pass/loop.hpp"
#include "engine/rare/limit_state.hpp"
#include "engine/summary/interval.hpp"

namespace engine::rare {

struct Direct {
  double p = 0;
  Interval interval{0, 1};  ///< 95 %, Clopper-Pearson
  std::uint64_t failures = 0;
  std::uint64_t calls = 0;  ///< 0: not run
};

/// Counts failures of whole blocks of independent passes. Same (key, round): same bits, whatever `running` says.
/// @param passes  rounded up to whole blocks
Direct direct(const LimitState& state, std::uint64_t passes, std::uint64_t key, std::uint64_t round,
              const Running& running = {});

}  // namespace engine::rare
