#pragma once
/// Counts of one chunk in the bins of a histogram, small enough that those of all outputs stay close to the processor.
#include <array>
#include <cassert>

#include "engine/summary/block_counts.hpp"
#include "engine/summary/histogram.hpp"

namespace engine {

class Tally {
public:
  /// Most values that a tally holds.
  static constexpr std::size_t most = 65535;

  void clear() { counts_.fill(0); }
  /// @param passes  at most 1024; all calls since clear() together at most `most`
  void add(const Histogram& bins, const double* x, std::size_t passes) {
    std::uint32_t bin[1024];
    bins.find_bins(x, passes, bin);
    for (std::size_t i = 0; i < passes; ++i) ++counts_[bin[i]];
  }
  /// The same value `passes` times.
  void add_same(const Histogram& bins, double x, std::size_t passes) {
    counts_[bins.bin(x)] = static_cast<std::uint16_t>(counts_[bins.bin(x)] + passes);
  }
  std::uint16_t count(std::size_t bin) const { return counts_[bin]; }

private:
  std::array<std::uint16_t, Histogram::bins + 3> counts_{};  // the last: not a number
};

}  // namespace engine
