#pragma once
/// Which mixture to draw from: what is known of the failures, turned into bumps.
#include "engine/rare/design_point.hpp"
#include "engine/rare/mixture.hpp"

namespace engine::rare {

/// Bumps at every design point, bumps fitted to each cluster of known failures, one broad bump fitted to all of them,
/// and a defensive one at the origin that reaches as far as the nearest failure. The mixture serves whenever one of the
/// four does: a weight is never above that of the best of them alone over its share of the draws.
/// @param failures  of any number; may be empty
/// @source Hesterberg, Technometrics 37 (1995) (defensive mixture), from memory
Mixture proposal(const FirstOrder& first_order, const std::vector<Point>& failures, std::size_t dimension);

}  // namespace engine::rare
