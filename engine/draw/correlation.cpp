#include "engine/draw/correlation.hpp"

#include <Eigen/Eigenvalues>
#include <cmath>
#include <numbers>

namespace engine {
namespace {

constexpr int terms = 100;

bool gaussian(const Marginal& m) {
  return m.window.whole() && (m.shape == Shape::normal || m.shape == Shape::lognormal);
}

/// Coefficients of x(z) in Hermite polynomials orthonormal under the normal density, from the first on, normed by their
/// length: trapezoids from −16 to 16, which for a smooth x are as good as exact.
Eigen::VectorXd expansion(const Marginal& m) {
  constexpr int points = 8192;
  constexpr double reach = 16, step = 2 * reach / points;
  const double middle = m.median();
  Eigen::VectorXd sums = Eigen::VectorXd::Zero(terms + 1);
  double squares = 0;
  for (int i = 0; i <= points; ++i) {
    const double z = -reach + step * i;
    const double weight = step * std::exp(-z * z / 2) / std::sqrt(2 * std::numbers::pi);
    const double x = m.quantile(normal_distribution(z), normal_distribution(-z)) - middle;
    squares += weight * x * x;
    double before = 0, now = 1;
    for (int k = 0; k <= terms; ++k) {
      sums[k] += weight * x * now;
      const double next = (z * now - std::sqrt(static_cast<double>(k)) * before) / std::sqrt(k + 1.0);
      before = now;
      now = next;
    }
  }
  return sums.tail(terms) / std::sqrt(squares - sums[0] * sums[0]);
}

Eigen::MatrixXd floored(const Eigen::MatrixXd& matrix, double least) {
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver(matrix);
  return solver.eigenvectors() * solver.eigenvalues().cwiseMax(least).asDiagonal() * solver.eigenvectors().transpose();
}

}  // namespace

Nataf::Nataf(const Marginal& one, const Marginal& other) : one_(one), other_(other) {
  if (gaussian(one) && gaussian(other)) return;
  product_ = expansion(one).cwiseProduct(expansion(other));
}

double Nataf::of_values(double underlying) const {
  if (product_.size() > 0) {
    double sum = 0;
    for (Eigen::Index k = product_.size(); k-- > 0;) sum = (sum + product_[k]) * underlying;
    return sum;
  }
  const double s = one_.b, t = other_.b;
  const bool log_one = one_.shape == Shape::lognormal, log_other = other_.shape == Shape::lognormal;
  if (log_one && log_other) return std::expm1(underlying * s * t) / std::sqrt(std::expm1(s * s) * std::expm1(t * t));
  if (log_one) return underlying * s / std::sqrt(std::expm1(s * s));
  if (log_other) return underlying * t / std::sqrt(std::expm1(t * t));
  return underlying;
}

std::optional<double> Nataf::underlying(double wanted) const {
  if (!(wanted >= least() && wanted <= most())) return std::nullopt;
  double low = -most_underlying, high = most_underlying;
  for (int step = 0; step < 60; ++step) {
    const double middle = (low + high) / 2;
    (of_values(middle) < wanted ? low : high) = middle;
  }
  return (low + high) / 2;
}

double smallest_eigenvalue(const Eigen::MatrixXd& matrix) {
  return Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd>(matrix, Eigen::EigenvaluesOnly).eigenvalues()[0];
}

Eigen::MatrixXd nearest_correlation(const Eigen::MatrixXd& matrix, double least) {
  Eigen::MatrixXd with_diagonal = matrix, correction = Eigen::MatrixXd::Zero(matrix.rows(), matrix.cols());
  for (int step = 0; step < 1000; ++step) {
    const Eigen::MatrixXd corrected = with_diagonal - correction;
    const Eigen::MatrixXd valid = floored(corrected, least);
    correction = valid - corrected;
    const Eigen::MatrixXd next = valid - Eigen::MatrixXd((valid.diagonal().array() - 1).matrix().asDiagonal());
    const double moved = (next - with_diagonal).norm();
    with_diagonal = next;
    if (moved < 1e-10) break;
  }
  // What the last projection left of eigenvalues below the least goes by drawing every correlation in a little.
  const double lowest = smallest_eigenvalue(with_diagonal);
  if (lowest >= least) return with_diagonal;
  const double share = (1 - least) / (1 - lowest);
  return share * with_diagonal + (1 - share) * Eigen::MatrixXd::Identity(matrix.rows(), matrix.cols());
}

}  // namespace engine
