#pragma once
/// 95 % bounds of odds and of ranks.
#include <cstdint>
#include <vector>

namespace engine {

struct Interval {
  double low = 0, high = 1;
};

/// Central Clopper-Pearson interval of a share: `hits` of `n` independent passes.
/// @param confidence  in (0, 1)
/// @source Clopper & Pearson, Biometrika 26 (1934)
Interval clopper_pearson(double hits, double n, double confidence = 0.95);

/// 95 % interval of the share of hits over independent nets of equal size: Student's t over the nets, kept in [0, 1];
/// Clopper-Pearson on all passes where the nets all agree or hold fewer than five of the rarer outcome each, since a
/// handful of hits is no normal sum. Nets that differ by one hit at most, as they do where one input alone decides,
/// know the share no finer than a hit: the interval then reaches from the fewer to the more. Finite-sample betting
/// intervals of the 16 means (Waudby-Smith & Ramdas 2024) were tried: they always cover, but are 8 to 1000 times as
/// wide, since 16 bets cannot refuse a mean that is near.
/// @param hits  of each net; one net means plain passes, and Clopper-Pearson
Interval share_interval(const std::vector<std::uint64_t>& hits, std::uint64_t net_size);

/// The value that Student's t stays below with a probability.
double student_point(double dof, double probability);
inline double student_975(double dof) { return student_point(dof, 0.975); }

}  // namespace engine
