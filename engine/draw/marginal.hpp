#pragma once
/// Distributions of one scattered quantity, by inverse distribution function only.
#include <string>

namespace engine {

enum class Shape { fixed, normal, lognormal, uniform, triangular, student };

/// One distribution; the parameters' meaning follows the shape. Valid by construction (see the makers below).
struct Marginal {
  Shape shape = Shape::fixed;
  double a =
      0;  ///< fixed: the value · normal: mean · lognormal: mean of ln x · uniform, triangular: low · student: location
  double b = 0;  ///< normal: spread · lognormal: spread of ln x · uniform, triangular: high · student: scale
  double c = 0;  ///< triangular: mode · student: degrees of freedom

  double mean() const;  ///< infinite-variance cases included: the location
  double median() const;
  double spread() const;            ///< one standard deviation; NaN for a student with fewer than 3 degrees of freedom
  double quantile(double u) const;  ///< u in (0, 1)
  double distribution(double x) const;  ///< P(X ≤ x)
};

Marginal fixed_at(double value);
/// @throws std::invalid_argument (a sentence) when the parameters make no distribution; so do all below
Marginal normal(double mean, double spread);
/// @param mean, spread  of x itself, > 0
Marginal lognormal(double mean, double spread);
Marginal uniform(double low, double high);
Marginal triangular(double low, double mode, double high);
/// Location-scale Student: location + scale·t(dof).
Marginal student(double location, double scale, double dof);
/// A lognormal (normal, uniform, triangular: symmetric) with `low` and `high` at its (1 ± inside)/2 points.
/// @param inside  share between the two, in (0, 1)
Marginal range_of_practice(double low, double high, double inside, Shape shape = Shape::lognormal);

/// What shape names a study may type, and back.
std::string name(Shape shape);

/// Standard normal distribution function and its inverse.
/// @return normal_quantile: relative error below 1e-15 over (0, 1)
/// @source Wichura, Algorithm AS 241, Applied Statistics 37 (1988)
double normal_distribution(double z);
double normal_quantile(double u);

}  // namespace engine
