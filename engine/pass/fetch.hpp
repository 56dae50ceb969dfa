#pragma once
/// The second sweep: exact values of ranks, fetched from the histogram bins that hold them.
#include <vector>

#include "engine/pass/count.hpp"

namespace engine {

/// A rank asked for, its bounds' ranks, and the values found for the three.
struct Wanted {
  std::size_t output = 0;
  std::uint64_t ranks[3] = {1, 1, 1};  ///< low, estimate, high; from 1; a bound's is 0 or passes + 1 where it has none
  double values[3] = {};
};

/// A rank with the ranks of its 95 % bounds: Clopper-Pearson for plain passes and rare ranks, else by how the nets
/// disagree about the share below the estimate.
/// @source Woodruff, J. Amer. Statist. Assoc. 47 (1952), for bounds of a quantile by those of the share below it
Wanted wanted(const Counts& counts, std::size_t output, std::uint64_t rank, std::uint64_t passes);

/// Fills the values of all that are wanted.
void fetch(std::vector<Wanted>& all, const Counts& counts, const Passed& passed, const Running& running);

}  // namespace engine
