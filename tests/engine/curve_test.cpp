/// Shapes drawn by tables, against Boost.Math's distributions: another source of the same quantiles.
#include "engine/draw/curve.hpp"

#include <algorithm>
#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/extreme_value.hpp>
#include <boost/math/distributions/lognormal.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/distributions/weibull.hpp>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <limits>

#include "engine/draw/law.hpp"
#include "engine/draw/tail.hpp"

using namespace engine;

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// A uniform with its rest to 1, exactly.
struct At {
  double below, above;
};

/// Uniforms of 53 bits over the whole range: 40 places in each octave of u and of 1 − u, down to 2⁻⁵³.
std::vector<At> places() {
  std::vector<At> all;
  for (int octave = 1; octave <= 53; ++octave)
    for (int i = 0; i < 40; ++i) {
      const double at = std::ldexp(1 + (i + 0.37) / 40, -octave - 1),
                   tail = std::max(std::round(at * 0x1p53), 1.0) * 0x1p-53;
      all.push_back({tail, 1 - tail});
      all.push_back({1 - tail, tail});
    }
  return all;
}

/// A distribution of ours and its quantile function by Boost, both tails kept.
struct Known {
  const char* name;
  Marginal ours;
  std::function<double(double u, double rest)> quantile;
};

template <class Distribution>
std::function<double(double, double)> of(Distribution d, double from = 0, double scale = 1) {
  return
      [=](double u, double rest) { return from + scale * (u < rest ? quantile(d, u) : quantile(complement(d, rest))); };
}

std::vector<Known> all_known() {
  namespace bm = boost::math;
  std::vector<Known> all;
  const auto add_beta = [&](const char* name, double mean, double spread) {
    const Marginal m = beta(mean, spread, 0, 1);
    all.push_back({name, m, of(bm::beta_distribution<double>(m.c, m.d))});
  };
  add_beta("beta", 0.4, 0.1);
  add_beta("beta, below 1 at one end", 0.2, 0.2);
  add_beta("beta, all but two values", 0.5, 0.49);
  add_beta("beta, rarely anything but its low end", 0.001, 0.02);
  add_beta("beta, narrow", 0.5, 1e-3);
  for (const double ratio : {0.05, 0.5, 1.5, 10.0}) {
    const Marginal m = weibull(1, ratio);
    all.push_back({"weibull", m, of(bm::weibull_distribution<double>(m.c, m.b))});
  }
  const Marginal g = gumbel(10, 2);
  all.push_back({"gumbel", g, of(bm::extreme_value_distribution<double>(g.a, g.b))});
  for (const double dof : {1.0, 1.5, 2.0, 3.0, 7.0, 200.0})
    all.push_back({"student", student(5, 2, dof), of(bm::students_t_distribution<double>(dof), 5, 2)});
  // A cut normal: the uniform squeezed into the share that is kept.
  const bm::normal_distribution<double> z;
  all.push_back({"normal", normal(0, 1), of(z)});
  for (const double sigma : {0.1, 2.5})
    all.push_back(
        {"lognormal", Marginal{Shape::lognormal, 1, sigma, 0}, of(bm::lognormal_distribution<double>(1, sigma))});
  const double lost = cdf(z, -1.0), over = cdf(complement(z, 2.5)), kept = 1 - lost - over;
  all.push_back({"cut normal", between(normal(0, 1), -1, 2.5), [=](double u, double rest) {
                   const double below = lost + kept * u, above = over + kept * rest;
                   return below < above ? quantile(z, below) : quantile(complement(z, above));
                 }});
  return all;
}

/// What an error is measured by: the spread, a student's scale in its place, and how far out the value lies.
double unit_of(const Marginal& m, double x) {
  const double spread = m.spread();
  return (std::isfinite(spread) ? spread : m.b) + std::abs(x - m.median());
}

/// The inputs that a law makes of uniforms.
std::vector<double> drawn(const Marginal& m, const std::vector<At>& at) {
  const Law law({0}, {-infinity}, {{0, false, m}}, {});
  Block u(1), x(1);
  std::vector<std::uint64_t> clipped(1);
  std::vector<double> all;
  for (std::size_t i = 0; i < at.size(); i += block_size) {
    const std::size_t n = std::min(block_size, at.size() - i);
    for (std::size_t j = 0; j < n; ++j) u.row(0)[j] = at[i + j].below;
    law.transform(u, x, n, clipped);
    all.insert(all.end(), x.row(0), x.row(0) + n);
  }
  return all;
}

}  // namespace

TEST_CASE("What is drawn by a table has the quantiles of Boost.Math over the whole range", "[published]") {
  const std::vector<At> at = places();
  for (const Known& known : all_known()) {
    INFO(known.name << " " << known.ours.c << " " << known.ours.d);
    const std::vector<double> x = drawn(known.ours, at);
    double worst = 0, where = 0;
    for (std::size_t i = 0; i < at.size(); ++i) {
      const double right = known.quantile(at[i].below, at[i].above);
      const double off = std::abs(x[i] - right) / unit_of(known.ours, right);
      if (!(off <= worst)) worst = off, where = at[i].below;
    }
    INFO("worst at " << where);
    CHECK(worst < 1e-10);
  }
}

TEST_CASE("A table rises as far as its accuracy goes, and never leaves the distribution", "[limit][plain-build]") {
  for (const Known& known : all_known()) {
    INFO(known.name << " " << known.ours.c << " " << known.ours.d);
    std::vector<double> u, z;
    for (int i = -82000; i <= 82000; ++i) z.push_back(i * 1e-4), u.push_back(normal_distribution(z.back()));
    std::vector<double> of_z(z.size()), of_u(u.size());
    NormalCurve{known.ours}(z.data(), of_z.data(), z.size());
    const ShareCurve shares(known.ours);
    if (shares) shares(u.data(), of_u.data(), u.size());
    std::vector<std::vector<double>> both = {of_z};
    if (shares) both.push_back(of_u);
    for (const std::vector<double>& x : both) {
      double fall = 0;
      for (std::size_t i = 1; i < x.size(); ++i) fall = std::max(fall, (x[i - 1] - x[i]) / unit_of(known.ours, x[i]));
      CHECK(fall < 1e-10);
      const bool positive = known.ours.shape == Shape::beta || known.ours.shape == Shape::weibull;
      const double low = known.ours.window.whole() ? positive ? 0 : -infinity : known.ours.window.least;
      CHECK(*std::min_element(x.begin(), x.end()) >= low);
      if (known.ours.shape == Shape::beta) CHECK(*std::max_element(x.begin(), x.end()) <= 1);
    }
  }
}

TEST_CASE("Over normals the values are the exact ones of Φ(z), about a kink and far out too", "[limit]") {
  std::vector<Marginal> all = {triangular(0, 0.3, 1), uniform(2, 3)};
  for (const Known& known : all_known()) all.push_back(known.ours);
  for (const Marginal& m : all) {
    INFO(name(m.shape) << " " << m.c << " " << m.d);
    std::vector<double> z;
    for (int i = -1200; i <= 1200; ++i) z.push_back(i * 0.01);
    std::vector<double> x(z.size());
    NormalCurve{m}(z.data(), x.data(), x.size());
    double worst = 0;
    for (std::size_t i = 0; i < z.size(); ++i) {
      const double exact = tail_value(m, z[i]);
      if (std::abs(z[i]) > 8.26) CHECK(x[i] == exact);
      worst = std::max(worst, std::abs(x[i] - exact) / unit_of(m, exact));
    }
    CHECK(worst < 1e-10);
  }
}

TEST_CASE("Few pieces do for what is smooth; over uniforms some distributions have no table", "[limit]") {
  CHECK(NormalCurve(weibull(1, 0.1)).pieces() < 200);
  CHECK(ShareCurve(weibull(1, 0.1)).pieces() <= 2 * 53 * 16);
  CHECK(ShareCurve(normal(0, 1)).pieces() <= 2 * 53 * 16);
  CHECK_FALSE(ShareCurve(beta(0.5, 0.494, 0, 1)));
}

TEST_CASE("Uniforms that a table does not reach have the exact value", "[limit]") {
  const Marginal m = gumbel(0, 1);
  for (const double u : {0.5, 1e-300, 5e-324, 0x1p-55}) {
    double x = 0;
    ShareCurve{m}(&u, &x, 1);
    CHECK(x == m.quantile(u));
  }
}

TEST_CASE("Curves in use are shared by equal distributions alone", "[limit]") {
  const auto one = curve_of<NormalCurve>(weibull(1, 0.1));
  CHECK(curve_of<NormalCurve>(weibull(1, 0.1)) == one);
  CHECK(curve_of<NormalCurve>(weibull(1, 0.2)) != one);
  CHECK(curve_of<NormalCurve>(between(weibull(1, 0.1), 0.5, infinity)) != one);
}

TEST_CASE("Values from normals of any size are exact, beside a table", "[limit]") {
  const Marginal m = weibull(1, 0.3);
  const Law law({0}, {-infinity}, {{0, false, m}}, {});
  Block z(1), x(1);
  std::vector<std::uint64_t> clipped(1);
  for (int i = 0; i < 100; ++i) z.row(0)[i] = 0.3 * i - 15;
  law.transform_normals(z, x, 100, clipped);
  for (int i = 0; i < 100; ++i) CHECK(x.row(0)[i] == tail_value(m, z.row(0)[i]));
}
