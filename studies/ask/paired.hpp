#pragma once
/// 95 % bounds of a difference of two screws that were put through the same passes.
#include <cstdint>
#include <vector>

#include "studies/ask/answer.hpp"

namespace studies {

/// By Student's t over the differences of the nets.
/// @param nets  of each net, one less the other; at least two
Bounded paired(double estimate, const std::vector<double>& nets);

/// The same of how many of 100 passes fall short. Where most nets hold only a handful of passes that fall short of one
/// screw and not of the other, which is no normal sum, the two shares have Clopper-Pearson bounds, each as sure as
/// makes both together 95 % sure. A net knows a share no finer than a pass.
/// @param more, fewer  of each net, the passes that fall short only of the second screw, or only of the first
/// @param net_size     passes a net
Bounded paired_shortfall(const std::vector<std::uint64_t>& more, const std::vector<std::uint64_t>& fewer,
                         std::uint64_t net_size);

}  // namespace studies
