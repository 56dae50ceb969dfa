#include "engine/draw/law.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "engine/draw/plan.hpp"

using namespace engine;

namespace {

constexpr double no_floor = -std::numeric_limits<double>::infinity();
using Rows = std::vector<std::vector<double>>;

/// All inputs of many passes, row by row.
Rows drawn(const Law& law, std::uint64_t passes, std::uint64_t key, std::vector<std::uint64_t>* clipped = nullptr) {
  const Plan plan(Plan::Kind::plain, law.dimensions(), passes, key, Stream::test);
  Block u(std::max<std::size_t>(1, law.dimensions())), x(law.inputs());
  std::vector<std::uint64_t> counts(law.inputs());
  Rows rows(law.inputs());
  for (std::uint64_t b = 0; b < plan.blocks(); ++b) {
    plan.fill(b, u);
    law.transform(u, x, plan.size(b), counts);
    for (std::size_t k = 0; k < rows.size(); ++k) rows[k].insert(rows[k].end(), x.row(k), x.row(k) + plan.size(b));
  }
  if (clipped) *clipped = counts;
  return rows;
}

double mean_of(const std::vector<double>& x) {
  double sum = 0;
  for (const double v : x) sum += v;
  return sum / static_cast<double>(x.size());
}

double correlation(const std::vector<double>& x, const std::vector<double>& y) {
  const double mx = mean_of(x), my = mean_of(y);
  double xy = 0, xx = 0, yy = 0;
  for (std::size_t i = 0; i < x.size(); ++i)
    xy += (x[i] - mx) * (y[i] - my), xx += (x[i] - mx) * (x[i] - mx), yy += (y[i] - my) * (y[i] - my);
  return xy / std::sqrt(xx * yy);
}

/// The standard normals underneath values of one distribution.
std::vector<double> underneath(const std::vector<double>& x, const Marginal& m) {
  std::vector<double> z;
  for (const double v : x) z.push_back(normal_quantile(m.distribution(v)));
  return z;
}

/// Standard error of a correlation of n normal pairs.
double error_of(double correlation, std::size_t n) {
  return (1 - correlation * correlation) / std::sqrt(static_cast<double>(n));
}

}  // namespace

TEST_CASE("An input is its base with the added parts, times the factors", "[limit]") {
  // One pass with every uniform at 1/2: the medians.
  const Law law(
      {10, 3, 7}, {no_floor, no_floor, no_floor},
      {{1, true, lognormal(2, 0.5)}, {0, false, normal(1, 5)}, {0, true, uniform(2, 4)}, {0, false, fixed_at(0.5)}},
      {});
  CHECK(law.inputs() == 3);
  CHECK(law.dimensions() == 4);
  Block u(4), x(3);
  for (std::size_t d = 0; d < 4; ++d) u.row(d)[0] = 0.5;
  std::vector<std::uint64_t> clipped(3);
  law.transform(u, x, 1, clipped);
  CHECK(x.row(0)[0] == Approx((10 + 1 + 0.5) * 3).epsilon(1e-15));
  CHECK(x.row(1)[0] == Approx(3 * lognormal(2, 0.5).median()).epsilon(1e-15));
  CHECK(x.row(2)[0] == 7);
  CHECK(clipped == std::vector<std::uint64_t>{0, 0, 0});
}

TEST_CASE("Independent parts add in mean and variance", "[statistical]") {
  const Law law({1}, {no_floor}, {{0, false, normal(0, 3)}, {0, false, uniform(-1, 1)}, {0, false, student(0, 1, 30)}},
                {});
  constexpr std::size_t n = 40000;
  const std::vector<double> x = drawn(law, n, 11)[0];
  const double spread = std::sqrt(9 + 1 / 3.0 + 30 / 28.0);
  double squares = 0;
  for (const double v : x) squares += (v - 1) * (v - 1);
  const double root_n = std::sqrt(static_cast<double>(n)), seen = std::sqrt(squares / n);
  CHECK(std::abs(mean_of(x) - 1) < 4 * spread / root_n);
  CHECK(std::abs(seen - spread) < 4 * spread / (std::sqrt(2.0) * root_n));
  CHECK(std::abs(seen - std::sqrt(9 + 1 / 3.0)) > 4 * spread / (std::sqrt(2.0) * root_n));  // a part left out is seen
}

TEST_CASE("A draw below the floor becomes the floor and is counted", "[statistical]") {
  constexpr std::size_t n = 20000;
  const Law law({0, 5}, {0, 0}, {{0, false, normal(1, 1)}, {1, true, normal(1, 0.1)}}, {});
  std::vector<std::uint64_t> clipped;
  const Rows x = drawn(law, n, 3, &clipped);
  std::uint64_t at_floor = 0;
  for (const double v : x[0]) {
    REQUIRE(v >= 0);
    at_floor += v == 0;
  }
  CHECK(clipped[0] == at_floor);
  CHECK(clipped[1] == 0);
  const double share = normal_distribution(-1), error = std::sqrt(share * (1 - share) * n);
  CHECK(std::abs(static_cast<double>(clipped[0]) - share * n) < 4 * error);
  CHECK(std::abs(static_cast<double>(clipped[0]) - 0.9 * share * n) > 4 * error);
}

TEST_CASE("A fixed value below its floor is raised and counted on every pass", "[limit]") {
  std::vector<std::uint64_t> clipped;
  const Rows x = drawn(Law({-2}, {0}, {}, {}), 2500, 1, &clipped);
  CHECK(clipped[0] == 2500);
  CHECK(x[0] == std::vector<double>(2500, 0.0));
}

TEST_CASE("A tie is the correlation of the underlying normals", "[statistical]") {
  // Two frictions, lognormal, correlation 0.7 of their logarithms; the third part stands alone.
  const Marginal thread = range_of_practice(0.11, 0.17, 0.8), face = range_of_practice(0.06, 0.1, 0.8);
  const Law law({0, 0, 0}, {0, 0, 0}, {{0, false, thread}, {2, false, normal(5, 1)}, {1, false, face}}, {{0, 2, 0.7}});
  constexpr std::size_t n = 20000;
  const Rows x = drawn(law, n, 21);
  const auto a = underneath(x[0], thread), b = underneath(x[1], face);
  const double seen = correlation(a, b);
  CHECK(std::abs(seen - 0.7) < 4 * error_of(0.7, n));
  CHECK(std::abs(seen - 0.65) > 4 * error_of(0.65, n));
  CHECK(std::abs(correlation(a, x[2])) < 4 * error_of(0, n));
  // Tied or not, each keeps its own distribution.
  CHECK(std::abs(mean_of(a)) < 4 / std::sqrt(static_cast<double>(n)));
  CHECK(std::abs(mean_of(b)) < 4 / std::sqrt(static_cast<double>(n)));
}

TEST_CASE("Parts of different shapes can be tied, either way", "[statistical]") {
  const std::vector<Marginal> shapes = {uniform(2, 3), triangular(0, 1, 5), student(0, 2, 5), normal(1, 1),
                                        lognormal(1, 0.4)};
  constexpr std::size_t n = 20000;
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    const Marginal &one = shapes[i], &other = shapes[(i + 1) % shapes.size()];
    INFO(name(one.shape) << " with " << name(other.shape));
    const double tie = i % 2 ? -0.5 : 0.8;
    const Law law({0, 0}, {no_floor, no_floor}, {{0, false, one}, {1, false, other}}, {{1, 0, tie}});
    const Rows x = drawn(law, n, 31 + i);
    const auto a = underneath(x[0], one), b = underneath(x[1], other);
    CHECK(std::abs(correlation(a, b) - tie) < 4 * error_of(tie, n));
    double squares = 0;
    for (const double z : b) squares += z * z;
    CHECK(std::abs(squares / n - 1) < 4 * std::sqrt(2.0 / n));
    CHECK(std::abs(mean_of(b)) < 4 / std::sqrt(static_cast<double>(n)));
  }
}

TEST_CASE("Ranks move together when the tie is all but complete", "[limit]") {
  const Law law({0, 0}, {no_floor, no_floor}, {{0, false, uniform(0, 1)}, {1, false, lognormal(1, 1)}},
                {{0, 1, 1 - 1e-12}});
  const Rows x = drawn(law, 3000, 4);
  for (std::size_t i = 0; i < 3000; ++i) REQUIRE(lognormal(1, 1).distribution(x[1][i]) == Approx(x[0][i]).margin(1e-5));
}

TEST_CASE("A part without ties draws what it draws alone", "[limit]") {
  const std::vector<Part> parts = {{0, false, normal(0, 1)}, {1, false, lognormal(2, 1)}, {2, false, normal(0, 1)}};
  const std::vector<double> base(3), floors(3, no_floor);
  const Rows tied = drawn(Law(base, floors, parts, {{0, 2, 0.7}}), 2000, 9),
             alone = drawn(Law(base, floors, parts, {}), 2000, 9);
  CHECK(tied[0] == alone[0]);
  CHECK(tied[1] == alone[1]);
  CHECK(tied[2] != alone[2]);
}

TEST_CASE("Ties that contradict each other are refused", "[limit]") {
  const std::vector<Part> parts = {{0, false, normal(0, 1)}, {0, false, normal(0, 1)}, {0, false, normal(0, 1)}};
  CHECK_THROWS_AS(Law({0}, {0}, parts, {{0, 1, 0.9}, {1, 2, 0.9}, {0, 2, -0.9}}), std::invalid_argument);
  CHECK_THROWS_AS(Law({0}, {0}, parts, {{0, 1, 1.0}}), std::invalid_argument);
  CHECK_THROWS_AS(Law({0}, {0}, parts, {{0, 1, -1.5}}), std::invalid_argument);
  CHECK_NOTHROW(Law({0}, {0}, parts, {{0, 1, 0.9}, {1, 2, 0.9}, {0, 2, 0.9}}));
  CHECK_NOTHROW(Law({0}, {0}, parts, {{0, 1, -0.99}}));
}

TEST_CASE("Columns of one table are drawn row by row, so that they keep their correlation", "[limit]") {
  // y = 10 x in every row: taken apart, most passes would break it. The third column is of another table.
  std::vector<double> one, ten, other;
  for (int row = 0; row < 50; ++row) one.push_back(row), ten.push_back(10 * row), other.push_back(100 + row);
  const Law law({0, 0, 0, 0}, std::vector<double>(4, no_floor),
                {{0, false, draws("a.csv", one)},
                 {3, false, normal(0, 1)},
                 {1, false, draws("a.csv", ten)},
                 {2, false, draws("b.csv", other)}},
                {});
  CHECK(law.dimensions() == 3);
  constexpr std::size_t n = 20000;
  const Rows x = drawn(law, n, 12);
  std::vector<double> counts(50);
  double apart = 0;
  for (std::size_t i = 0; i < n; ++i) {
    REQUIRE(x[1][i] == 10 * x[0][i]);
    ++counts[static_cast<std::size_t>(x[0][i])];
    apart += x[2][i] - 100 != x[0][i];
  }
  CHECK(apart > 0.9 * n);
  double chi_squared = 0;
  for (const double count : counts) chi_squared += (count - n / 50.0) * (count - n / 50.0) / (n / 50.0);
  CHECK(chi_squared < 49 + 4 * std::sqrt(2 * 49.0));
  CHECK(chi_squared > 49 - 4 * std::sqrt(2 * 49.0));
}

TEST_CASE("Parts behind draws are tied as they are elsewhere, and draws cannot be", "[statistical]") {
  const std::vector<Part> parts = {{0, false, draws("a", {1, 2, 3})},
                                   {1, false, draws("a", {4, 5, 6})},
                                   {2, false, normal(0, 1)},
                                   {3, false, normal(0, 1)}};
  const std::vector<double> base(4), floors(4, no_floor);
  constexpr std::size_t n = 20000;
  const Rows x = drawn(Law(base, floors, parts, {{2, 3, 0.6}}), n, 5);
  CHECK(std::abs(correlation(x[2], x[3]) - 0.6) < 4 * error_of(0.6, n));
  CHECK(std::abs(correlation(x[0], x[2])) < 4 * error_of(0, n));
  CHECK_THROWS_AS(Law(base, floors, parts, {{0, 2, 0.5}}), std::invalid_argument);
}

TEST_CASE("Far tails of tied parts keep their digits", "[limit]") {
  // Twelve deviations out, where the distribution is 1 to the last digit.
  const Marginal extreme = gumbel(0, 1);
  const Law law({0, 0}, {no_floor, no_floor}, {{0, false, normal(0, 1)}, {1, false, extreme}}, {{0, 1, 0.8}});
  Block u(2), x(2);
  std::vector<std::uint64_t> clipped(2);
  u.row(0)[0] = u.row(1)[0] = 1 - 0x1p-53;
  law.transform(u, x, 1, clipped);
  const double z = 1.4 * normal_quantile(1 - 0x1p-53);
  CHECK(x.row(1)[0] == Approx(extreme.quantile(normal_distribution(z), normal_distribution(-z))).epsilon(1e-12));
  CHECK(x.row(1)[0] > extreme.quantile(1 - 0x1p-53) + 10);
}
