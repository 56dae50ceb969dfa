#pragma once
/// Distributions of one scattered quantity, by inverse distribution function only.
#include <limits>
#include <memory>
#include <string>
#include <vector>

namespace engine {

enum class Shape { fixed, normal, lognormal, uniform, triangular, beta, weibull, gumbel, student, draws };

/// A column of a table of draws. Inputs that take columns of one table share its rows, and with them their correlation.
struct Column {
  std::string table;           ///< which table, whatever tells it from others
  std::vector<double> values;  ///< row by row, at least one
  std::vector<double> sorted;  ///< the same in order
  /// The value of a row drawn by a uniform, every row as likely.
  double at(double u) const;
};

/// A share and what is left of it to 1, both to full relative accuracy: so that neither tail cancels.
struct Share {
  double below = 0, above = 1;
};

/// The part of a distribution that is kept: values strictly between two ends.
struct Window {
  double least = -std::numeric_limits<double>::infinity(), most = std::numeric_limits<double>::infinity();
  double lost_below = 0, kept = 1, lost_above = 0;  ///< shares of the whole distribution; together 1
  bool whole() const { return kept == 1; }
};

/// One distribution; the parameters' meaning follows the shape. Valid by construction (see the makers below).
struct Marginal {
  Shape shape = Shape::fixed;
  double a = 0;  ///< fixed: the value · normal: mean · lognormal: mean of ln x · uniform, triangular, beta, weibull:
                 ///< low · gumbel: mode · student: location
  double b = 0;  ///< normal: spread · lognormal: spread of ln x · uniform, triangular, beta: high · weibull, gumbel,
                 ///< student: scale
  double c = 0;  ///< triangular: mode · beta: α · weibull: its shape k · student: degrees of freedom
  double d = 0;  ///< beta: β
  Window window = {};
  std::shared_ptr<const Column> column = {};  ///< of draws only

  /// Of a window too (by quadrature there); a student without a mean has its location.
  double mean() const;
  double median() const;
  double spread() const;                         ///< one standard deviation; NaN for a student with 2 degrees or fewer
  double quantile(double u) const;               ///< u in (0, 1)
  double quantile(double u, double rest) const;  ///< rest = 1 − u, where that is known better than by subtraction
  double distribution(double x) const;           ///< P(X ≤ x)
};

Marginal fixed_at(double value);
/// @throws std::invalid_argument (a sentence) when the parameters make no distribution; so do all below
Marginal normal(double mean, double spread);
/// @param mean, spread  of x itself, > 0
Marginal lognormal(double mean, double spread);
Marginal uniform(double low, double high);
Marginal triangular(double low, double mode, double high);
/// Beta stretched from low to high, by the mean and spread of x itself: with m and s as shares of the width,
/// α + β = m(1 − m)/s² − 1 and α = m(α + β).
Marginal beta(double mean, double spread, double low, double high);
/// Weibull above a threshold: F = 1 − exp(−((x − low)/scale)^k), with k solved for from the mean and spread of x.
/// @param spread  0.0001 to 15 times mean − low
Marginal weibull(double mean, double spread, double low = 0);
/// Gumbel of largest values: F = exp(−exp(−(x − mode)/scale)), scale = spread·√6/π, mode = mean − 0.5772… scale.
Marginal gumbel(double mean, double spread);
/// Location-scale Student: location + scale·t(dof).
Marginal student(double location, double scale, double dof);
/// A lognormal (normal, uniform, triangular: symmetric) with `low` and `high` at its (1 ± inside)/2 points.
/// @param inside  share between the two, in (0, 1)
Marginal range_of_practice(double low, double high, double inside, Shape shape = Shape::lognormal);
/// Draws of a table, every row as likely.
Marginal draws(std::string table, std::vector<double> values);
/// The same distribution given that its value lies strictly between two ends, either of which may be infinite. Exact:
/// the uniform is squeezed into the kept share, nothing is drawn anew.
Marginal between(const Marginal& whole, double least, double most);

/// The distribution of x·factor; the same uniform draws factor times the value, to rounding. Draws keep their table.
/// @param factor  above 0
Marginal scaled(const Marginal& marginal, double factor);

/// What shape names a study may type, and back.
std::string name(Shape shape);

/// Standard normal distribution function and its inverse.
/// @return normal_quantile: relative error below 1e-15 over (0, 1)
/// @source Wichura, Algorithm AS 241, Applied Statistics 37 (1988)
double normal_distribution(double z);
double normal_quantile(double u);

}  // namespace engine
