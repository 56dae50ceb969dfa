#pragma once
/// Correlations: of values by those of the normals underneath (Nataf), and what makes a matrix of them valid.
#include <Eigen/Core>
#include <optional>

#include "engine/draw/marginal.hpp"

namespace engine {

/// Two marginals joined by underlying normals: which correlation of values belongs to which of the normals.
/// Normals and lognormals by their closed forms, others by their expansion in Hermite polynomials, Σ a_k b_k ρ^k.
/// @source Liu & Der Kiureghian, Probabilistic Engineering Mechanics 1 (1986); Cario & Nelson, Operations Research
///         Letters 19 (1996), for the rise of the one with the other
class Nataf {
public:
  /// @pre both have a finite spread above 0 (no draws, nothing fixed, no student of 2 degrees or fewer)
  Nataf(const Marginal& one, const Marginal& other);

  /// Correlation of the values. @param underlying  of the normals, −1 … 1
  double of_values(double underlying) const;
  /// The correlation of the normals that gives the values this one; none beyond what can be reached.
  std::optional<double> underlying(double of_values) const;
  /// Least and greatest correlation of values that can be had, at ∓0.9999 of the normals.
  double least() const { return of_values(-most_underlying); }
  double most() const { return of_values(most_underlying); }

private:
  static constexpr double most_underlying = 0.9999;
  Marginal one_, other_;
  Eigen::VectorXd product_;  ///< a_k b_k / k!, normed; empty where a closed form serves
};

/// The smallest eigenvalue of a symmetric matrix.
double smallest_eigenvalue(const Eigen::MatrixXd& matrix);
/// The nearest matrix (Frobenius) with a unit diagonal and no eigenvalue below `least`.
/// @param least  in (0, 1)
/// @source Higham, IMA J. Numer. Anal. 22 (2002): alternating projections with Dykstra's correction
Eigen::MatrixXd nearest_correlation(const Eigen::MatrixXd& matrix, double least);

}  // namespace engine
