#pragma once
/// Design problems under odds, with exact probabilities where they can be had by other means.
#include <array>

#include "engine/search/under_odds.hpp"

namespace optimisation {

/// Least d1 + d2 with X_i ~ N(d_i, 0.3) and P(G_k < 0) ≤ `allowed` of G1 = X1²X2/20 − 1, G2 = (X1+X2−5)²/30 +
/// (X1−X2−12)²/120 − 1 and G3 = 80/(X1²+8X2+5) − 1.
/// @source Yang & Gu, Struct. Multidisc. Optim. 26 (2004); Youn & Choi, J. Mech. Design 126 (2004); from memory
engine::OddsProblem two_variables(double allowed);
/// P(G1 < 0) and P(G2 < 0) at (d1, d2), by Simpson's rule over X1 of the exact probability over X2. P(G3 < 0) is below
/// 1e-20 near the optimum.
std::array<double, 2> two_variable_odds(double d1, double d2);
/// The d at which both odds are `allowed`, by Newton's method; the optimum when both multipliers come out above 0.
struct Vertex {
  double d1, d2, cost;
  std::array<double, 2> multipliers;
};
Vertex two_variable_vertex(double allowed);

/// The welded beam in SI units (N, mm, MPa), its four sizes scattered normally; margins are shear, bending, weld
/// against bar, deflection and buckling.
/// @source Lee & Lee (2005); Cho & Lee, J. Mech. Design 133 (2011); from memory
engine::OddsProblem scattered_beam(double allowed);
/// The same beam without scatter.
engine::BoxProblem exact_beam();

}  // namespace optimisation
