#pragma once
/// Whole-number counts in equal bins: order of arrival does not matter, and merging is exact.
#include <cstddef>
#include <cstdint>
#include <vector>

#include "engine/summary/block_counts.hpp"

namespace engine {

/// Equal bins from low to high, with a bin below and one above; values that are not a number are not counted.
class Histogram {
public:
  static constexpr std::size_t bins = 4096;

  Histogram(double low, double high) : low_(low), scale_(high > low ? bins / (high - low) : 0), counts_(bins + 2) {}

  /// 0: below low, 1 … bins, bins + 1: at or above high.
  std::size_t bin(double x) const {
    if (scale_ == 0) return x < low_ ? 0 : x > low_ ? bins + 1 : 1;
    const double at = (x - low_) * scale_;
    return at >= bins ? bins + 1 : at >= 0 ? static_cast<std::size_t>(at) + 1 : 0;
  }
  /// The bins of many, bins + 2 for what is not a number.
  void find_bins(const double* x, std::size_t passes, std::uint32_t* bin) const {
    if (scale_ > 0) return block_counts().find_bins(x, low_, scale_, bins, bin, passes);
    for (std::size_t i = 0; i < passes; ++i)
      bin[i] = static_cast<std::uint32_t>(x[i] == x[i] ? this->bin(x[i]) : bins + 2);
  }
  void add(const double* x, std::size_t passes) {
    for (std::size_t i = 0; i < passes; ++i)
      if (x[i] == x[i]) ++counts_[bin(x[i])];
  }
  /// @param counts  anything with count(bin)
  template <class Counts>
  void merge_counts(const Counts& counts) {
    for (std::size_t b = 0; b < counts_.size(); ++b) counts_[b] += counts.count(b);
  }
  void merge(const Histogram& other) { merge_counts(other); }

  std::uint64_t count(std::size_t b) const { return counts_[b]; }
  std::uint64_t total() const {
    std::uint64_t sum = 0;
    for (const std::uint64_t c : counts_) sum += c;
    return sum;
  }
  /// The bin that holds the value of a rank (from 1), and how many values lie in the bins before it.
  struct Found {
    std::size_t bin = 0;
    std::uint64_t before = 0;
  };
  Found find(std::uint64_t rank) const {
    Found found;
    while (found.bin < bins + 1 && found.before + counts_[found.bin] < rank) found.before += counts_[found.bin++];
    return found;
  }
  double low() const { return low_; }
  double high() const { return scale_ > 0 ? low_ + bins / scale_ : low_; }

private:
  double low_, scale_;
  std::vector<std::uint64_t> counts_;
};

}  // namespace engine
