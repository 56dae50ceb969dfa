#include <cmath>
#include <limits>

#include "engine/draw/marginal.hpp"

namespace engine {
namespace {

/// Horner's rule, coefficients from the highest power down.
template <std::size_t n>
double polynomial(const double (&coefficients)[n], double x) {
  double sum = coefficients[0];
  for (std::size_t i = 1; i < n; ++i) sum = sum * x + coefficients[i];
  return sum;
}

constexpr double centre_top[] = {2509.0809287301226727, 33430.575583588128105, 67265.770927008700853,
                                 45921.953931549871457, 13731.693765509461125, 1971.5909503065514427,
                                 133.14166789178437745, 3.387132872796366608};
constexpr double centre_bottom[] = {
    5226.495278852545925,  28729.085735721942674, 39307.89580009271061,  21213.794301586595867,
    5394.1960214247511077, 687.1870074920579083,  42.313330701600911252, 1.0};
constexpr double tail_top[] = {7.7454501427834140764e-4, 0.0227238449892691845833, 0.24178072517745061177,
                               1.27045825245236838258,   3.64784832476320460504,   5.7694972214606914055,
                               4.6303378461565452959,    1.42343711074968357734};
constexpr double tail_bottom[] = {
    1.05075007164441684324e-9, 5.475938084995344946e-4, 0.0151986665636164571966, 0.14810397642748007459,
    0.68976733498510000455,    1.6763848301838038494,   2.05319162663775882187,   1.0};
constexpr double far_top[] = {2.01033439929228813265e-7, 2.71155556874348757815e-5, 0.0012426609473880784386,
                              0.026532189526576123093,   0.29656057182850489123,    1.7848265399172913358,
                              5.4637849111641143699,     6.6579046435011037772};
constexpr double far_bottom[] = {
    2.04426310338993978564e-15, 1.4215117583164458887e-7, 1.8463183175100546818e-5, 7.868691311456132591e-4,
    0.0148753612908506148525,   0.13692988092273580531,   0.59983220655588793769,   1.0};

}  // namespace

double normal_distribution(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

double normal_quantile(double u) {
  if (!(u > 0)) return -std::numeric_limits<double>::infinity();
  if (!(u < 1)) return std::numeric_limits<double>::infinity();
  const double q = u - 0.5;
  if (std::abs(q) <= 0.425) {
    const double r = 0.180625 - q * q;
    return q * polynomial(centre_top, r) / polynomial(centre_bottom, r);
  }
  const double r = std::sqrt(-std::log(q < 0 ? u : 1 - u));
  const double z = r <= 5 ? polynomial(tail_top, r - 1.6) / polynomial(tail_bottom, r - 1.6)
                          : polynomial(far_top, r - 5) / polynomial(far_bottom, r - 5);
  return q < 0 ? -z : z;
}

}  // namespace engine
