#pragma once
/// The formulas of each shape, without window; for the room's own use.
#include "engine/draw/marginal.hpp"

namespace engine {

/// x with P(X ≤ x) = u, from whichever of u and 1 − u is the smaller and so the better known.
double whole_quantile(const Marginal& m, Share u);
/// P(X ≤ x) and P(X > x), each to full relative accuracy.
Share whole_share(const Marginal& m, double x);
double whole_mean(const Marginal& m);
double whole_spread(const Marginal& m);

}  // namespace engine
