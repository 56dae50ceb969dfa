#pragma once
/// One search for a design point; for the room's own use.
#include <optional>

#include "engine/rare/design_point.hpp"

namespace engine::rare {

/// What a search knows of a place.
struct Slope {
  double g = 0;
  Point gradient;
};

/// Margin and central differences at a point, 2·dimension + 1 passes in blocks. A difference over a margin that is not
/// finite is taken from the side that is, or is 0.
Slope slope(const LimitState& state, const Point& u, std::uint64_t& calls);

/// From a start to the design point it leads to; nothing when the search does not settle on one.
/// @param scale  a margin to measure others by, > 0
std::optional<DesignPoint> descend(const LimitState& state, Point start, double scale, std::uint64_t& calls);

}  // namespace engine::rare
