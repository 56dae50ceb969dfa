#pragma once
/// Optimisation problems whose minima are published, each with where the number comes from. Constraints are relative
/// (a load over its limit, less 1), so that a violation is a share.
#include <string>
#include <vector>

#include "engine/search/mixed.hpp"

namespace optimisation {

struct Known {
  std::string name;
  engine::BoxProblem problem;
  double least = 0;        ///< recomputed minimum
  std::vector<double> at;  ///< recomputed point
  std::string source;
};

/// How the torsional stiffness J of the welded beam is written: the papers differ.
enum class BeamJ {
  standard,     ///< J = 2[√2 h l (l²/12 + ((h + t)/2)²)]
  l_over_four,  ///< J = 2[√2 h l (l²/4 + ((h + t)/2)²)]
  h_over_root   ///< J = 2[h l/√2 (l²/12 + ((h + t)/2)²)]
};

engine::BoxProblem welded_beam(BeamJ j);
/// The weight of a speed reducer with as many teeth, and its eleven constraints, over x1, x2, x4 … x7.
engine::BoxProblem speed_reducer(double teeth, double least_x5);
/// Hock and Schittkowski's 71 with its equality as the inequality Σx² ≤ 40, which is active at the minimum.
engine::BoxProblem hock_schittkowski_71();
engine::BoxProblem tutorial();
engine::BoxProblem spring();

/// Problems that are continuous throughout.
std::vector<Known> continuous();

struct KnownMixed {
  std::string name;
  engine::MixedProblem problem;
  double least = 0;
  std::vector<double> chosen, at;
  std::string source;
};

/// Least cost of a pressure vessel of given wall thicknesses; R and L are what is left.
engine::BoxProblem vessel(double shell, double head, double longest);
KnownMixed pressure_vessel(double longest);
KnownMixed speed_reducer_mixed(double least_x5);
std::vector<KnownMixed> mixed();

}  // namespace optimisation
