#include <boost/math/quadrature/tanh_sinh.hpp>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

#include "engine/draw/marginal.hpp"

using namespace engine;

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

const std::vector<Marginal>& later_shapes() {
  static const std::vector<Marginal> all = {beta(3, 0.5, 1, 7),
                                            beta(0.12, 0.02, 0.05, 0.3),
                                            beta(0.5, 0.32, 0, 1),
                                            beta(60, 1, 40, 64),
                                            weibull(400, 30),
                                            weibull(1, 0.9),
                                            weibull(2, 0.6, 1),
                                            weibull(60, 5, 50),
                                            gumbel(10, 2),
                                            gumbel(-3, 0.1),
                                            between(normal(0, 1), 1, infinity),
                                            between(normal(0, 1), -0.5, 2),
                                            between(lognormal(0.15, 0.03), 0.1, 0.2),
                                            between(uniform(0, 4), 1, 9),
                                            between(triangular(0, 1, 4), -infinity, 3),
                                            between(beta(3, 0.5, 1, 7), 2, 4),
                                            between(weibull(400, 30), 350, infinity),
                                            between(gumbel(10, 2), 6, 20),
                                            between(student(10, 2, 7), 8, infinity),
                                            between(student(0, 1, 1), -3, 3)};
  return all;
}

/// ∫ f(x) dF over the quantile function, in halves so that both tails keep their digits.
template <class F>
double expected(const Marginal& m, F f) {
  boost::math::quadrature::tanh_sinh<double> rule;
  return rule.integrate([&](double u) { return f(m.quantile(u, 1 - u)); }, 0.0, 0.5) +
         rule.integrate([&](double v) { return f(m.quantile(1 - v, v)); }, 0.0, 0.5);
}

}  // namespace

TEST_CASE("Quantile and distribution undo each other for the later shapes and what is cut", "[limit]") {
  for (const Marginal& m : later_shapes()) {
    INFO(name(m.shape) << " " << m.a << " " << m.b << " " << m.window.kept);
    double last = -infinity;
    for (const double u : {1e-9, 1e-4, 0.01, 0.1, 0.25, 0.4999, 0.5, 0.75, 0.9, 0.999, 1 - 1e-6}) {
      const double x = m.quantile(u);
      CHECK(m.distribution(x) == Approx(u).epsilon(1e-8).margin(1e-13));
      CHECK(x >= last);
      CHECK(x > m.window.least);
      CHECK(x < m.window.most);
      last = x;
    }
  }
}

TEST_CASE("Mean, median and spread of the later shapes are those of the quantile function", "[limit]") {
  for (const Marginal& m : later_shapes()) {
    INFO(name(m.shape) << " " << m.a << " " << m.b << " " << m.window.kept);
    const double mean = expected(m, [](double x) { return x; });
    const double squares = expected(m, [&](double x) { return (x - mean) * (x - mean); });
    CHECK(m.mean() == Approx(mean).epsilon(1e-6).margin(1e-9));
    CHECK(m.spread() == Approx(std::sqrt(squares)).epsilon(1e-4));
    CHECK(m.distribution(m.median()) == Approx(0.5));
  }
}

TEST_CASE("The later shapes are made from the mean and spread of the quantity itself", "[limit]") {
  for (const double spread : {0.01, 0.1, 0.4})
    CHECK((beta(2, spread, 1, 4).mean() == Approx(2).epsilon(1e-12) &&
           beta(2, spread, 1, 4).spread() == Approx(spread).epsilon(1e-10)));
  for (const double spread : {1e-4, 1e-3, 0.1, 1.0, 5.0, 14.0}) {
    const Marginal m = weibull(3, spread, 2);
    INFO(spread);
    CHECK(m.mean() == Approx(3).epsilon(1e-10));
    CHECK(m.spread() == Approx(spread).epsilon(1e-8));
  }
  CHECK(gumbel(10, 2).mean() == Approx(10).epsilon(1e-14));
  CHECK(gumbel(10, 2).spread() == Approx(2).epsilon(1e-14));
}

TEST_CASE("Special cases of the later shapes have their closed forms", "[published]") {
  // A beta of α = β = 1 is uniform; α = β = 1/2 is the arcsine, F = 2/π asin √x; α = 2, β = 1 is x².
  const Marginal flat = beta(0.5, 1 / std::sqrt(12.0), 0, 1);
  CHECK(flat.c == Approx(1).epsilon(1e-12));
  for (const double u : {1e-6, 0.2, 0.77, 1 - 1e-7}) CHECK(flat.quantile(u) == Approx(u).epsilon(1e-10));
  const Marginal arcsine = beta(0.5, std::sqrt(1 / 8.0), 0, 1);
  for (const double u : {1e-3, 0.2, 0.77, 0.9999})
    CHECK(arcsine.quantile(u) == Approx(std::pow(std::sin(std::numbers::pi * u / 2), 2)).epsilon(1e-10));
  const Marginal square = beta(2 / 3.0, std::sqrt(1 / 18.0), 0, 1);
  for (const double u : {1e-6, 0.2, 0.77}) CHECK(square.quantile(u) == Approx(std::sqrt(u)).epsilon(1e-10));
  // A Weibull whose spread is its mean is the exponential; k = 2 is the Rayleigh, spread/mean = √(4/π − 1).
  CHECK(weibull(5, 5).c == Approx(1).epsilon(1e-12));
  CHECK(weibull(5, 5).quantile(0.9) == Approx(-5 * std::log(0.1)).epsilon(1e-12));
  CHECK(weibull(1, std::sqrt(4 / std::numbers::pi - 1)).c == Approx(2).epsilon(1e-12));
  // A standard Gumbel has mean 0.5772156649 and spread π/√6 (Euler's constant; any table).
  const Marginal standard = gumbel(0.57721566490153286, std::numbers::pi / std::sqrt(6.0));
  CHECK(standard.a == Approx(0).margin(1e-15));
  CHECK(standard.b == Approx(1).epsilon(1e-15));
  CHECK(standard.median() == Approx(-std::log(std::log(2.0))).epsilon(1e-14));
}

TEST_CASE("Neither tail cancels", "[limit]") {
  // The upper tail by the rest to 1, where u itself is 1 to the last digit.
  constexpr double rest = 1e-30;
  CHECK(weibull(5, 5).quantile(1, rest) == Approx(-5 * std::log(rest)).epsilon(1e-12));
  CHECK(gumbel(0.57721566490153286, std::numbers::pi / std::sqrt(6.0)).quantile(1, rest) ==
        Approx(-std::log(rest)).epsilon(1e-12));
  CHECK(normal(0, 1).quantile(1, rest) == Approx(-normal_quantile(rest)).epsilon(1e-15));
  CHECK(student(0, 1, 1).quantile(1, rest) == Approx(1 / (std::numbers::pi * rest)).epsilon(1e-10));
  CHECK(1 - beta(0.5, std::sqrt(1 / 8.0), 0, 1).quantile(1, 1e-8) ==
        Approx(std::pow(std::numbers::pi / 2 * 1e-8, 2)).margin(2e-16));
  CHECK(beta(0.5, std::sqrt(1 / 8.0), 0, 1).quantile(1e-30) ==
        Approx(std::pow(std::numbers::pi / 2 * 1e-30, 2)).epsilon(1e-10));
}

TEST_CASE("A cut distribution is the whole one given where its value lies", "[published]") {
  // Mean of a standard normal above a: φ(a)/Φ(−a) (the inverse Mills ratio), its variance 1 + a m − m².
  for (const double a : {-3.0, 0.0, 1.0, 4.0}) {
    const Marginal m = between(normal(0, 1), a, infinity);
    const double mills = std::exp(-a * a / 2) / std::sqrt(2 * std::numbers::pi) / normal_distribution(-a);
    CHECK(m.mean() == Approx(mills).epsilon(1e-9));
    CHECK(m.spread() == Approx(std::sqrt(1 + a * mills - mills * mills)).epsilon(1e-6));
  }
  // Both tails alike, however far out: above 6 mirrors below −6.
  const Marginal up = between(normal(0, 1), 6, infinity), down = between(normal(0, 1), -infinity, -6);
  for (const double u : {1e-9, 0.1, 0.5, 0.99})
    CHECK(up.quantile(u, 1 - u) == Approx(-down.quantile(1 - u, u)).epsilon(1e-14));
  CHECK(normal_distribution(-up.median()) == Approx(normal_distribution(-6) / 2).epsilon(1e-12));
  // A cut uniform is a uniform, a cut exponential the same exponential further on.
  CHECK(between(uniform(0, 10), 2, 4).quantile(0.25) == Approx(2.5).epsilon(1e-14));
  CHECK(between(weibull(5, 5), 7, infinity).quantile(0.3) == Approx(7 + weibull(5, 5).quantile(0.3)).epsilon(1e-13));
}

TEST_CASE("No draw of a cut distribution touches its ends", "[limit]") {
  const Marginal m = between(normal(0, 1), -1, 1);
  for (const double u : {0x1p-53, 1e-300, 1 - 0x1p-53}) CHECK((m.quantile(u) > -1 && m.quantile(u) < 1));
  CHECK(m.quantile(0x1p-53) < -1 + 1e-14);
  CHECK((m.distribution(-1) == 0 && m.distribution(1) == 1));
  CHECK(between(uniform(1, 2), 0, 3).window.whole());
}

TEST_CASE("A cut student has moments where its tails are cut", "[limit]") {
  CHECK(std::isnan(between(student(5, 1, 2), 0, infinity).spread()));
  CHECK(between(student(5, 1, 1), 0, infinity).mean() == 5);
  CHECK(between(student(5, 1, 1), 4, 6).mean() == Approx(5));
  CHECK(between(student(5, 1, 1), 4, 6).spread() < 1);
}

TEST_CASE("Draws are as likely as they are many", "[limit]") {
  const Marginal m = draws("a.csv", {3, 1, 4, 1});
  CHECK(m.mean() == Approx(2.25));
  CHECK(m.spread() == Approx(std::sqrt((0.5625 + 2 * 1.5625 + 3.0625) / 4)));
  CHECK(m.distribution(1) == 0.5);
  CHECK(m.distribution(0.9) == 0);
  CHECK(m.quantile(0.3) == 1);
  CHECK(m.quantile(0.6) == 3);
  CHECK(m.quantile(1 - 0x1p-53) == 4);
  CHECK(m.column->at(0.1) == 3);
  CHECK(m.column->at(1 - 0x1p-53) == 1);
}

TEST_CASE("Parameters that make none of the later shapes are refused", "[limit]") {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_AS(beta(1, 0.1, 1, 2), std::invalid_argument);
  CHECK_THROWS_AS(beta(1.5, 0.1, 2, 1), std::invalid_argument);
  CHECK_THROWS_AS(beta(1.5, 0.5, 1, 2), std::invalid_argument);
  CHECK_THROWS_AS(beta(1.5, 0, 1, 2), std::invalid_argument);
  CHECK_THROWS_AS(beta(1.5, 1e-6, 1, 2), std::invalid_argument);
  CHECK_THROWS_AS(beta(nan, 0.1, 1, 2), std::invalid_argument);
  CHECK_THROWS_AS(weibull(0, 1), std::invalid_argument);
  CHECK_THROWS_AS(weibull(1, 0.1, 1), std::invalid_argument);
  CHECK_THROWS_AS(weibull(1, 20), std::invalid_argument);
  CHECK_THROWS_AS(weibull(1, nan), std::invalid_argument);
  CHECK_THROWS_AS(gumbel(1, 0), std::invalid_argument);
  CHECK_THROWS_AS(gumbel(nan, 1), std::invalid_argument);
  CHECK_THROWS_AS(between(normal(0, 1), 1, 1), std::invalid_argument);
  CHECK_THROWS_AS(between(normal(0, 1), 9, infinity), std::invalid_argument);
  CHECK_THROWS_AS(between(uniform(0, 1), 2, 3), std::invalid_argument);
  CHECK_THROWS_AS(between(fixed_at(1), 0, 2), std::invalid_argument);
  CHECK_THROWS_AS(between(between(normal(0, 1), 0, 2), 1, 2), std::invalid_argument);
  CHECK_THROWS_AS(draws("a", {}), std::invalid_argument);
  CHECK_THROWS_AS(draws("a", {1, nan}), std::invalid_argument);
}

TEST_CASE("The extremes that the makers let through have quantiles", "[limit]") {
  for (const Marginal& m : {beta(0.5, 1e-4, 0, 1), beta(0.5, 0.494, 0, 1), beta(0.001, 0.02, 0, 1),
                            beta(0.999, 0.03, 0, 1), weibull(1, 1e-4), weibull(1, 15)})
    for (const double u : {0x1p-53, 1e-9, 0.01, 0.5, 0.99, 1 - 0x1p-53}) {
      INFO(name(m.shape) << " " << m.c << " " << m.d << " at " << u);
      REQUIRE_NOTHROW(m.quantile(u));
      CHECK(std::isfinite(m.quantile(u)));
    }
}
