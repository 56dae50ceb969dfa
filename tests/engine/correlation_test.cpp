#include "engine/draw/correlation.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

#include "engine/draw/law.hpp"
#include "engine/draw/plan.hpp"

using namespace engine;

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// The two values of many passes, joined by a tie.
std::vector<std::vector<double>> drawn(const Marginal& one, const Marginal& other, double tie, std::uint64_t passes,
                                       std::uint64_t key) {
  const Law law({0, 0}, {-infinity, -infinity}, {{0, false, one}, {1, false, other}}, {{0, 1, tie}});
  const Plan plan(Plan::Kind::plain, 2, passes, key, Stream::test);
  Block u(2), x(2);
  std::vector<std::uint64_t> clipped(2);
  std::vector<std::vector<double>> rows(2);
  for (std::uint64_t b = 0; b < plan.blocks(); ++b) {
    plan.fill(b, u);
    law.transform(u, x, plan.size(b), clipped);
    for (std::size_t k = 0; k < 2; ++k) rows[k].insert(rows[k].end(), x.row(k), x.row(k) + plan.size(b));
  }
  return rows;
}

struct Seen {
  double correlation, error;  ///< with its standard error, from the products themselves
};

Seen correlation_of(const std::vector<std::vector<double>>& x, const Marginal& one, const Marginal& other) {
  double sum = 0, squares = 0;
  const auto n = static_cast<double>(x[0].size());
  for (std::size_t i = 0; i < x[0].size(); ++i) {
    const double p = (x[0][i] - one.mean()) / one.spread(), q = (x[1][i] - other.mean()) / other.spread();
    const double product = p * q;
    sum += product / n;
    squares += product * product / n;
  }
  return {sum, std::sqrt((squares - sum * sum) / n)};
}

Eigen::MatrixXd matrix(double a, double b, double c) {
  Eigen::MatrixXd m(3, 3);
  m << 1, a, b, a, 1, c, b, c, 1;
  return m;
}

}  // namespace

TEST_CASE("Correlations of values have their closed forms", "[published]") {
  // Liu & Der Kiureghian (1986): two lognormals ρ' = ln(1 + ρ v w)/√(ln(1+v²) ln(1+w²)); normal and lognormal
  // ρ' = ρ w/√ln(1+w²). Two uniforms: ρ = 6/π asin(ρ'/2); uniform and normal: ρ = ρ' √(3/π) (Pearson 1907).
  const double v = 0.3, w = 0.8;
  const Nataf logs(lognormal(2, 2 * v), lognormal(5, 5 * w));
  const Nataf mixed(normal(1, 2), lognormal(5, 5 * w)), turned(lognormal(5, 5 * w), normal(1, 2));
  const Nataf flat(uniform(2, 3), uniform(-1, 5)), half(uniform(2, 3), normal(0, 1));
  for (const double rho : {-0.5, -0.1, 0.2, 0.7}) {
    CHECK(*logs.underlying(rho) ==
          Approx(std::log(1 + rho * v * w) / std::sqrt(std::log(1 + v * v) * std::log(1 + w * w))).epsilon(1e-12));
    CHECK(*mixed.underlying(rho) == Approx(rho * w / std::sqrt(std::log(1 + w * w))).epsilon(1e-12));
    CHECK(*turned.underlying(rho) == Approx(*mixed.underlying(rho)).epsilon(1e-14));
    CHECK(flat.of_values(rho) == Approx(6 / std::numbers::pi * std::asin(rho / 2)).epsilon(1e-8));
    CHECK(half.of_values(rho) == Approx(rho * std::sqrt(3 / std::numbers::pi)).epsilon(1e-8));
    CHECK(Nataf(normal(1, 2), normal(3, 4)).of_values(rho) == rho);
    CHECK(flat.of_values(*flat.underlying(rho)) == Approx(rho).epsilon(1e-12));
  }
}

TEST_CASE("The expansion meets the closed forms of normals and lognormals", "[limit]") {
  // Cut where nothing to speak of is lost, a normal or lognormal goes by its expansion.
  const auto barely = [](const Marginal& m) { return between(m, m.quantile(1e-14), infinity); };
  const Marginal log = lognormal(2, 1.2), flat = normal(0, 1);
  REQUIRE_FALSE(barely(log).window.whole());
  for (const double rho : {-0.95, -0.5, 0.3, 0.9}) {
    CHECK(Nataf(barely(log), barely(log)).of_values(rho) == Approx(Nataf(log, log).of_values(rho)).epsilon(1e-7));
    CHECK(Nataf(barely(log), flat).of_values(rho) == Approx(Nataf(log, flat).of_values(rho)).epsilon(1e-7));
  }
}

TEST_CASE("What cannot be reached is not solved for", "[limit]") {
  const Nataf wide(lognormal(1, 2), lognormal(1, 2));
  CHECK(wide.most() == Approx(1).epsilon(1e-3));
  // exp(−σ²) − 1 over exp(σ²) − 1 with σ² = ln 5 is −0.2.
  CHECK(wide.least() == Approx(-0.2).epsilon(1e-3));
  CHECK_FALSE(wide.underlying(-0.25));
  CHECK(wide.underlying(-0.19));
  CHECK_FALSE(Nataf(uniform(0, 1), gumbel(0, 1)).underlying(0.99));
  CHECK(Nataf(uniform(0, 1), uniform(0, 1)).underlying(0.99));
}

TEST_CASE("Values drawn have the correlation asked for, whatever their shapes", "[statistical][plain-build]") {
  constexpr std::uint64_t passes = 100000;
  const std::vector<std::pair<Marginal, Marginal>> pairs = {
      {lognormal(1, 0.8), lognormal(2, 0.6)},  {normal(0, 1), lognormal(1, 0.9)},
      {weibull(2, 1.5), gumbel(3, 1)},         {beta(0.3, 0.2, 0, 1), uniform(2, 3)},
      {student(0, 1, 9), triangular(0, 0, 1)}, {between(normal(0, 1), 0.5, infinity), lognormal(1, 0.5)}};
  std::uint64_t key = 40;
  for (const auto& [one, other] : pairs)
    for (const double wanted : {0.5, -0.3}) {
      INFO(name(one.shape) << " with " << name(other.shape) << ", " << wanted);
      const auto tie = Nataf(one, other).underlying(wanted);
      REQUIRE(tie);
      const Seen seen = correlation_of(drawn(one, other, *tie, passes, ++key), one, other);
      CHECK(std::abs(seen.correlation - wanted) < 4 * seen.error);
    }
  // Power: the correlation typed, taken for that of the normals, is seen to be wrong.
  const Marginal one = lognormal(1, 0.8), other = lognormal(2, 1.6);
  const Seen wrong = correlation_of(drawn(one, other, -0.3, passes, 99), one, other);
  CHECK(std::abs(wrong.correlation + 0.3) > 4 * wrong.error);
}

TEST_CASE("The nearest matrix is valid, near, and the same where nothing was wrong", "[published]") {
  // Higham (2002), example of his section 4: [1 1 0; 1 1 1; 0 1 1] goes to off-diagonals 0.7607 and 0.1573.
  const Eigen::MatrixXd nearest = nearest_correlation(matrix(1, 0, 1), 1e-9);
  CHECK(nearest(0, 1) == Approx(0.7607).margin(5e-5));
  CHECK(nearest(1, 2) == Approx(0.7607).margin(5e-5));
  CHECK(nearest(0, 2) == Approx(0.1573).margin(5e-5));
  CHECK(smallest_eigenvalue(matrix(0.9, -0.9, 0.9)) == Approx(-0.8).epsilon(1e-12));
  for (const double least : {1e-6, 0.01, 0.2}) {
    const Eigen::MatrixXd valid = nearest_correlation(matrix(0.9, -0.9, 0.9), least);
    CHECK(smallest_eigenvalue(valid) >= least * (1 - 1e-9));
    CHECK((valid.diagonal().array() - 1).abs().maxCoeff() < 1e-9);
    CHECK((valid - valid.transpose()).norm() < 1e-12);
  }
  CHECK((nearest_correlation(matrix(0.5, 0.2, 0.3), 0.01) - matrix(0.5, 0.2, 0.3)).norm() < 1e-9);
}
