#pragma once
/// Values of a distribution far out in its tails.
#include "engine/draw/marginal.hpp"

namespace engine {

/// x with P(X ≤ x) = Φ(z). Nothing is lost where Φ(z) rounds to 1: the upper tail is reckoned from Φ(−z).
/// @param z  any finite number; beyond |z| = 37 the shapes without a formula in z stay where they are there
double tail_value(const Marginal& m, double z);

}  // namespace engine
