#pragma once
/// Bounds of quantiles as ranks, from the first sweep's counts.
#include <map>

#include "engine/pass/count.hpp"
#include "engine/summary/coverage.hpp"

namespace engine {

/// The ranks that bound a quantile: those of the binomial for plain passes and for rare ranks, else by how the nets
/// disagree about the share below the estimate.
/// @source Woodruff, J. Amer. Statist. Assoc. 47 (1952), for bounds of a quantile by those of the share below it
class BoundRanks {
public:
  BoundRanks(const Counts& counts, std::uint64_t passes) : counts_(counts), passes_(passes) {}

  /// @param share       of all values at or below the quantile
  /// @param rank        of its estimate
  /// @param confidence  two-sided
  /// @return a bound's rank is 0 or passes + 1 where it has none
  RankPair operator()(std::size_t output, double share, std::uint64_t rank, double confidence = 0.95);

private:
  const Counts& counts_;
  std::uint64_t passes_;
  std::map<std::pair<double, double>, RankPair> binomial_;  ///< the same for every output
};

}  // namespace engine
