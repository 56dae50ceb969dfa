#pragma once
/// Which of the sorted values bound a coverage interval, a quantile, or a share of all that there will ever be.
#include <cstdint>
#include <vector>

#include "engine/summary/histogram.hpp"

namespace engine {

/// Two ranks of n sorted values, from 1.
struct RankPair {
  std::uint64_t low = 1, high = 1;
};

/// How many ranks apart the ends of an interval lie that covers a share of n values: q = share·n, rounded half up.
/// @source JCGM 101:2008, 7.7.1 (rounding from memory)
std::uint64_t coverage_span(std::uint64_t n, double share);

/// The interval with as many values below it as above.
/// @source JCGM 101:2008, 7.7.2: r = (n − q)/2, or (n − q + 1)/2 rounded down
RankPair symmetric_ranks(std::uint64_t n, double share);

/// The shortest interval; the lowest where several are.
/// @param sorted  rising, not empty
/// @source JCGM 101:2008, 7.7.3
RankPair shortest_ranks(const std::vector<double>& sorted, double share);

/// The same as far as a histogram tells, whose values are taken as evenly spread within a bin: its length exceeds that
/// of the shortest by two bins at most where no end lies in the outer bins. It covers its share exactly all the same.
RankPair shortest_ranks(const Histogram& histogram, double share);

/// Value of a rank as far as a histogram tells.
double roughly(const Histogram& histogram, std::uint64_t rank);

/// Ranks between which the quantile lies, `confidence` sure at least, whatever the distribution: no more of that on
/// either side than half. A rank 0 or n + 1 is an open end. With confidence 2c − 1 each end alone is a bound that is c
/// sure: at least that share of all values lies at or below `high` (Wilks).
/// @param share  of the values at or below the quantile, in (0, 1)
/// @source Conover, Practical Nonparametric Statistics, 3rd ed., 3.2; Wilks, Ann. Math. Statist. 12 (1941)
RankPair quantile_ranks(std::uint64_t n, double share, double confidence);

/// The probability that the quantile lies between values of those ranks, for a continuous distribution.
double quantile_confidence(std::uint64_t n, double share, RankPair ranks);

}  // namespace engine
