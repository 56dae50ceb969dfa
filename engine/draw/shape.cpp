#include "engine/draw/shape.hpp"

#include <algorithm>
#include <boost/math/constants/constants.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/special_functions/beta.hpp>
#include <boost/math/special_functions/gamma.hpp>
#include <cmath>
#include <limits>
#include <numeric>

#include "engine/lanes/point_math.hpp"

namespace engine {
namespace {

using boost::math::constants::euler;
using boost::math::constants::pi;

/// In doubles throughout: the same on machines whose long double differs, and faster.
using InDoubles = boost::math::policies::policy<boost::math::policies::promote_double<false>>;

Share triangular_share(const Marginal& m, double x) {
  if (x <= m.a) return {0, 1};
  if (x >= m.b) return {1, 0};
  const double width = m.b - m.a;
  if (x < m.c) {
    const double below = (x - m.a) * (x - m.a) / (width * (m.c - m.a));
    return {below, 1 - below};
  }
  const double above = (m.b - x) * (m.b - x) / (width * (m.b - m.c));
  return {1 - above, above};
}

boost::math::students_t_distribution<double> student_of(const Marginal& m) {
  return boost::math::students_t_distribution<double>(m.c);
}

double student_quantile(const Marginal& m, Share u) {
  const auto t = student_of(m);
  return m.a + m.b * (u.below <= u.above ? boost::math::quantile(t, u.below)
                                         : boost::math::quantile(boost::math::complement(t, u.above)));
}

double beta_quantile(const Marginal& m, Share u) {
  double other = 0;  // 1 − x, as good as x
  const double x = u.below <= u.above ? boost::math::ibeta_inv(m.c, m.d, u.below, &other, InDoubles())
                                      : boost::math::ibetac_inv(m.c, m.d, u.above, &other, InDoubles());
  return x <= other ? m.a + (m.b - m.a) * x : m.b - (m.b - m.a) * other;
}

Share beta_share(const Marginal& m, double x) {
  if (x <= m.a) return {0, 1};
  if (x >= m.b) return {1, 0};
  const double left = (x - m.a) / (m.b - m.a), right = (m.b - x) / (m.b - m.a);
  if (left <= right)
    return {boost::math::ibeta(m.c, m.d, left, InDoubles()), boost::math::ibetac(m.c, m.d, left, InDoubles())};
  return {boost::math::ibetac(m.d, m.c, right, InDoubles()), boost::math::ibeta(m.d, m.c, right, InDoubles())};
}

/// −ln of a share that may lie near 0 or near 1.
double minus_log(double share, double rest) { return share <= rest ? -std::log(share) : -std::log1p(-rest); }

double gamma_of(double x) { return std::tgamma(1 + x); }

}  // namespace

double whole_quantile(const Marginal& m, Share u) {
  const auto z = [&] { return u.below <= u.above ? normal_quantile(u.below) : -normal_quantile(u.above); };
  switch (m.shape) {
    case Shape::fixed:
      return m.a;
    case Shape::normal:
      return m.a + m.b * z();
    case Shape::lognormal:
      return exponential(m.a + m.b * z());
    case Shape::uniform:
      return uniform_at(u.below, u.above, m.a, m.b);
    case Shape::triangular:
      return triangular_at(u.below, u.above, m.a, m.c, m.b);
    case Shape::beta:
      return beta_quantile(m, u);
    case Shape::weibull:
      return m.a + m.b * std::pow(minus_log(u.above, u.below), 1 / m.c);
    case Shape::gumbel:
      return m.a - m.b * std::log(minus_log(u.below, u.above));
    case Shape::student:
      return student_quantile(m, u);
    case Shape::draws: {
      const auto n = static_cast<double>(m.column->sorted.size());
      return m.column->sorted[static_cast<std::size_t>(std::min(std::floor(u.below * n), n - 1))];
    }
  }
  return m.a;
}

Share whole_share(const Marginal& m, double x) {
  const auto normal_share = [](double z) { return Share{normal_distribution(z), normal_distribution(-z)}; };
  switch (m.shape) {
    case Shape::fixed:
      return x >= m.a ? Share{1, 0} : Share{0, 1};
    case Shape::normal:
      return normal_share((x - m.a) / m.b);
    case Shape::lognormal:
      return x <= 0 ? Share{0, 1} : normal_share((std::log(x) - m.a) / m.b);
    case Shape::uniform: {
      const double width = m.b - m.a;
      return x <= m.a ? Share{0, 1} : x >= m.b ? Share{1, 0} : Share{(x - m.a) / width, (m.b - x) / width};
    }
    case Shape::triangular:
      return triangular_share(m, x);
    case Shape::beta:
      return beta_share(m, x);
    case Shape::weibull: {
      if (x <= m.a) return {0, 1};
      const double power = std::pow((x - m.a) / m.b, m.c);
      return {-std::expm1(-power), std::exp(-power)};
    }
    case Shape::gumbel: {
      const double power = std::exp(-(x - m.a) / m.b);
      return {std::exp(-power), -std::expm1(-power)};
    }
    case Shape::student: {
      if (std::isinf(x)) return x > 0 ? Share{1, 0} : Share{0, 1};
      const double t = (x - m.a) / m.b;
      return {boost::math::cdf(student_of(m), t), boost::math::cdf(boost::math::complement(student_of(m), t))};
    }
    case Shape::draws: {
      const std::vector<double>& sorted = m.column->sorted;
      const auto n = static_cast<double>(sorted.size());
      const auto below = static_cast<double>(std::upper_bound(sorted.begin(), sorted.end(), x) - sorted.begin());
      return {below / n, (n - below) / n};
    }
  }
  return {};
}

double whole_mean(const Marginal& m) {
  switch (m.shape) {
    case Shape::lognormal:
      return std::exp(m.a + m.b * m.b / 2);
    case Shape::uniform:
      return (m.a + m.b) / 2;
    case Shape::triangular:
      return (m.a + m.b + m.c) / 3;
    case Shape::beta:
      return m.a + (m.b - m.a) * m.c / (m.c + m.d);
    case Shape::weibull:
      return m.a + m.b * gamma_of(1 / m.c);
    case Shape::gumbel:
      return m.a + m.b * euler<double>();
    case Shape::draws: {
      const std::vector<double>& values = m.column->values;
      return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
    }
    default:
      return m.a;
  }
}

double whole_spread(const Marginal& m) {
  const double a = m.a, b = m.b, c = m.c, d = m.d;
  switch (m.shape) {
    case Shape::fixed:
      return 0;
    case Shape::normal:
      return b;
    case Shape::lognormal:
      return whole_mean(m) * std::sqrt(std::expm1(b * b));
    case Shape::uniform:
      return (b - a) / std::sqrt(12.0);
    case Shape::triangular:
      return std::sqrt((a * a + b * b + c * c - a * b - a * c - b * c) / 18);
    case Shape::beta:
      return (b - a) / (c + d) * std::sqrt(c * d / (c + d + 1));
    case Shape::weibull: {
      const double one = std::log1p(boost::math::tgamma1pm1(1 / c)), two = std::log1p(boost::math::tgamma1pm1(2 / c));
      return b * std::exp(one) * std::sqrt(std::expm1(two - 2 * one));
    }
    case Shape::gumbel:
      return b * pi<double>() / std::sqrt(6.0);
    case Shape::student:
      return c > 2 ? b * std::sqrt(c / (c - 2)) : std::numeric_limits<double>::quiet_NaN();
    case Shape::draws: {
      const double mean = whole_mean(m);
      double squares = 0;
      for (const double value : m.column->values) squares += (value - mean) * (value - mean);
      return std::sqrt(squares / static_cast<double>(m.column->values.size()));
    }
  }
  return 0;
}

}  // namespace engine
