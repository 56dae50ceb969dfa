#include "engine/draw/marginal.hpp"

#include <boost/math/distributions/normal.hpp>
#include <boost/math/quadrature/tanh_sinh.hpp>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

using namespace engine;

namespace {

const std::vector<Marginal>& all_shapes() {
  static const std::vector<Marginal> all = {normal(3, 0.5),      lognormal(0.15, 0.03), lognormal(2, 5),
                                            uniform(-2, 5),      triangular(1, 1.5, 4), triangular(1, 1, 4),
                                            triangular(0, 2, 2), student(10, 2, 7),     student(-1, 0.3, 24)};
  return all;
}

/// ∫ f(quantile(u)) du over (0, 1), in halves so that both tails keep their digits.
template <class F>
double expected(const Marginal& m, F f) {
  boost::math::quadrature::tanh_sinh<double> rule;
  const double kink = m.shape == Shape::triangular ? m.distribution(m.c) : 0.5;
  const auto at = [&](double u) { return f(m.quantile(u)); };
  double sum = 0;
  if (kink > 0) sum += rule.integrate(at, 0.0, kink);
  if (kink < 1) sum += rule.integrate(at, kink, 1.0);
  return sum;
}

}  // namespace

TEST_CASE("The normal quantile agrees with Boost to the last digits", "[published]") {
  // Wichura, AS 241 (1988): about 1 part in 10^16. Boost's own error is a few units in the last place.
  const boost::math::normal_distribution<double> standard;
  double worst = 0;
  const auto compare = [&](double u) {
    const double theirs = boost::math::quantile(standard, u);
    worst = std::max(worst, std::abs(normal_quantile(u) / theirs - 1));
  };
  for (int i = 1; i < 5000; ++i)
    if (i != 2500) compare(i / 5000.0);
  for (int e = 2; e < 1000; ++e) compare(std::ldexp(1.3, -e));
  CHECK(worst < 2e-15);
  CHECK(normal_quantile(0.5) == 0);
  for (const double u : {0x1p-53, 1e-10, 0.01, 0.3})
    CHECK(normal_quantile(u) == Approx(-normal_quantile(1 - u)).epsilon(u < 1e-9 ? 1e-5 : 1e-13));
}

TEST_CASE("The normal distribution has its tabulated tails", "[published]") {
  // Φ(−β), recomputed with another program; printed digits.
  const double tails[] = {.158655253931457, 2.27501319481792e-2, 1.34989803163009e-3, 3.16712418331199e-5,
                          2.86651571879194e-7};
  for (int beta = 1; beta <= 5; ++beta) {
    CHECK(normal_distribution(-beta) == Approx(tails[beta - 1]).epsilon(1e-14));
    CHECK(normal_quantile(tails[beta - 1]) == Approx(-beta).epsilon(1e-14));
  }
}

TEST_CASE("Quantile and distribution undo each other for every shape", "[limit]") {
  for (const Marginal& m : all_shapes()) {
    INFO(name(m.shape));
    double last = -std::numeric_limits<double>::infinity();
    for (const double u : {1e-9, 1e-4, 0.01, 0.1, 0.25, 0.4999, 0.5, 0.75, 0.9, 0.999, 1 - 1e-6}) {
      const double x = m.quantile(u);
      CHECK(m.distribution(x) == Approx(u).epsilon(1e-9).margin(1e-14));
      CHECK(x >= last);
      last = x;
    }
    CHECK(m.distribution(-1e6) == Approx(0).margin(1e-12));
    CHECK(m.distribution(1e6) == Approx(1).margin(1e-12));
  }
}

TEST_CASE("Mean, median and spread are those of the quantile function", "[limit]") {
  for (const Marginal& m : all_shapes()) {
    INFO(name(m.shape));
    const double mean = expected(m, [](double x) { return x; });
    const double squares = expected(m, [&](double x) { return (x - mean) * (x - mean); });
    CHECK(m.mean() == Approx(mean).epsilon(1e-6).margin(1e-9));
    CHECK(m.spread() == Approx(std::sqrt(squares)).epsilon(1e-4));
    CHECK(m.distribution(m.median()) == Approx(0.5));
  }
}

TEST_CASE("A distribution scaled has its quantiles scaled, whatever its shape and window", "[limit]") {
  std::vector<Marginal> all = all_shapes();
  for (const Marginal& m : {beta(3, 0.4, 1, 6), weibull(5, 1, 2), gumbel(4, 0.3), fixed_at(7), draws("t", {3, 1, 2}),
                            between(normal(3, 0.5), 2, 3.4), between(lognormal(2, 1), 1, 4)})
    all.push_back(m);
  for (const Marginal& m : all) {
    INFO(name(m.shape));
    const Marginal tenfold = scaled(m, 10), fifth = scaled(m, 0.2);
    for (const double u : {1e-6, 0.01, 0.3, 0.5, 0.9, 1 - 1e-6}) {
      CHECK(tenfold.quantile(u) == Approx(10 * m.quantile(u)).epsilon(1e-12));
      CHECK(fifth.quantile(u) == Approx(0.2 * m.quantile(u)).epsilon(1e-12));
    }
  }
  const Marginal rows = scaled(draws("t", {3, 1, 2}), 2);
  CHECK(rows.column->table == "t");
  CHECK(rows.column->at(0.1) == 6);
}

TEST_CASE("A lognormal is made from the mean and spread of the quantity itself", "[limit]") {
  CHECK(lognormal(0.15, 0.03).mean() == Approx(0.15).epsilon(1e-14));
  CHECK(lognormal(0.15, 0.03).spread() == Approx(0.03).epsilon(1e-13));
  CHECK(lognormal(0.15, 0.03).median() == Approx(0.15 / std::sqrt(1 + 0.04)).epsilon(1e-14));
  CHECK(lognormal(1, 1e-6).spread() == Approx(1e-6).epsilon(1e-9));
}

TEST_CASE("The ends of a range of practice are its 10 and 90 percent points", "[limit]") {
  for (const Shape shape : {Shape::lognormal, Shape::normal, Shape::uniform, Shape::triangular}) {
    INFO(name(shape));
    const Marginal m = range_of_practice(0.11, 0.17, 0.8, shape);
    CHECK(m.shape == shape);
    CHECK(m.quantile(0.1) == Approx(0.11).epsilon(1e-12));
    CHECK(m.quantile(0.9) == Approx(0.17).epsilon(1e-12));
    const Marginal wide = range_of_practice(0.11, 0.17, 0.95, shape);
    CHECK(wide.distribution(0.11) == Approx(0.025).epsilon(1e-10));
    CHECK(wide.distribution(0.17) == Approx(0.975).epsilon(1e-12));
  }
  CHECK(range_of_practice(0.11, 0.17, 0.8).median() == Approx(std::sqrt(0.11 * 0.17)).epsilon(1e-14));
}

TEST_CASE("Student's t has its tabulated points", "[published]") {
  // Any t table, upper 97.5 % points: 10 degrees 2.228, 5 degrees 2.571, 30 degrees 2.042; one degree is the Cauchy.
  CHECK(student(0, 1, 10).quantile(0.975) == Approx(2.228).margin(5e-4));
  CHECK(student(0, 1, 5).quantile(0.975) == Approx(2.571).margin(5e-4));
  CHECK(student(7, 3, 30).quantile(0.975) == Approx(7 + 3 * 2.042).margin(2e-3));
  for (const double u : {0.01, 0.2, 0.6, 0.99})
    CHECK(student(0, 1, 1).quantile(u) == Approx(std::tan(std::numbers::pi * (u - 0.5))).epsilon(1e-12));
}

TEST_CASE("A student without a finite variance has no spread but a location", "[limit]") {
  CHECK(std::isnan(student(5, 1, 1).spread()));
  CHECK(std::isnan(student(5, 1, 2).spread()));
  CHECK(student(5, 1, 1).mean() == 5);
  CHECK(student(5, 2, 3).spread() == Approx(2 * std::sqrt(3.0)));
  CHECK(student(5, 2, 1e9).quantile(0.9) == Approx(normal(5, 2).quantile(0.9)).epsilon(1e-8));
}

TEST_CASE("A fixed value has no spread and is all its quantiles", "[limit]") {
  const Marginal m = fixed_at(4.2);
  CHECK((m.mean() == 4.2 && m.median() == 4.2 && m.quantile(0.01) == 4.2 && m.spread() == 0));
  CHECK((m.distribution(4.2) == 1 && m.distribution(4.1) == 0));
}

TEST_CASE("Parameters that make no distribution are refused", "[limit]") {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN(), inf = std::numeric_limits<double>::infinity();
  CHECK_THROWS_AS(normal(1, 0), std::invalid_argument);
  CHECK_THROWS_AS(normal(1, -1), std::invalid_argument);
  CHECK_THROWS_AS(normal(nan, 1), std::invalid_argument);
  CHECK_THROWS_AS(normal(1, inf), std::invalid_argument);
  CHECK_THROWS_AS(lognormal(0, 1), std::invalid_argument);
  CHECK_THROWS_AS(lognormal(1, 0), std::invalid_argument);
  CHECK_THROWS_AS(lognormal(1, nan), std::invalid_argument);
  CHECK_THROWS_AS(uniform(2, 2), std::invalid_argument);
  CHECK_THROWS_AS(uniform(3, 2), std::invalid_argument);
  CHECK_THROWS_AS(uniform(0, inf), std::invalid_argument);
  CHECK_THROWS_AS(triangular(0, 2, 1), std::invalid_argument);
  CHECK_THROWS_AS(triangular(0, nan, 1), std::invalid_argument);
  CHECK_THROWS_AS(triangular(1, 1, 1), std::invalid_argument);
  CHECK_THROWS_AS(student(0, 0, 5), std::invalid_argument);
  CHECK_THROWS_AS(student(0, 1, 0), std::invalid_argument);
  CHECK_THROWS_AS(student(0, 1, nan), std::invalid_argument);
  CHECK_THROWS_AS(range_of_practice(0, 1, 0.8), std::invalid_argument);
  CHECK_THROWS_AS(range_of_practice(2, 1, 0.8), std::invalid_argument);
  CHECK_THROWS_AS(range_of_practice(1, 2, 1), std::invalid_argument);
  CHECK_THROWS_AS(range_of_practice(1, 2, 0.8, Shape::student), std::invalid_argument);
}
