#pragma once
/// The loops of a summary over a block, vectorised; the same bits on every instruction set.
#include <cstddef>
#include <cstdint>

namespace engine {

/// Moments of a block: sums run in 32 fixed lanes that are added in halves, whatever the machine's width.
struct BlockMoments {
  double mean, squares, least, most;  ///< of the finite values; mean 0, least +infinity where there are none
  std::uint64_t finite, missing;      ///< how many are finite, how many are not a number
};

struct BlockCounts {
  /// @param n  at most 1024
  BlockMoments (*moments)(const double* x, std::size_t n);
  /// Bins of a histogram: 0 below low, 1 … bins, bins + 1 from high on, bins + 2 for what is not a number.
  void (*find_bins)(const double* x, double low, double scale, std::uint32_t bins, std::uint32_t* bin, std::size_t n);
  /// How many are at least this.
  std::uint64_t (*reach)(const double* x, double least, std::size_t n);
};

/// Of the instruction set in use.
const BlockCounts& block_counts();

}  // namespace engine
