#include <catch2/catch.hpp>

#include "tests/engine/matter_models.hpp"

using namespace matter_tests;

namespace {

Shares of(const Law& law, const BlockModel& model, const std::vector<Group>& groups, std::uint64_t count = share_passes,
          std::uint64_t key = 7, unsigned threads = 2) {
  Running running;
  running.threads = threads;
  return shares(law, model, 0, groups, count, key, running);
}

bool same(const Estimate& a, const Estimate& b) {
  return a.low == b.low && a.estimate == b.estimate && a.high == b.high;
}

}  // namespace

TEST_CASE("Ishigami's function: shares of each input and of pairs", "[published]") {
  // Saltelli et al., Global Sensitivity Analysis: The Primer (2008); exact values from its variance decomposition
  const std::vector<Group> groups = {{0}, {1}, {2}, {0, 2}, {1, 2}, {0, 1, 2}, {}};
  const Shares s = of(ishigami_law(), ishigami(), groups);
  REQUIRE(s.why == Shares::Why::known);
  const double first[] = {0.3139051911, 0.4424111448, 0, 0.5575888552, 0.4424111448, 1, 0};
  const double total[] = {0.5575888552, 0.4424111448, 0.2436836641, 0.5575888552, 0.6860948089, 1, 0};
  for (std::size_t g = 0; g < groups.size(); ++g) {
    INFO("group " << g << ": " << s.groups[g].first.estimate << " (" << s.groups[g].first.low << " to "
                  << s.groups[g].first.high << "), " << s.groups[g].total.estimate);
    CHECK(finds(s.groups[g].first, first[g], 0.015));
    CHECK(finds(s.groups[g].total, total[g], 0.01));
  }
  CHECK(s.variance == Approx(13.844587940719).epsilon(2e-3));
  CHECK(s.mean == Approx(3.5).epsilon(1e-3));
  CHECK_FALSE(finds(s.groups[0].first, 0.3239051911, 0.01));  // power: one hundredth off is seen
}

TEST_CASE("The g-function: shares down to ten-thousandths", "[published]") {
  // Saltelli & Sobol', Reliability Engineering & System Safety 50 (1995); exact values by its product formula
  const std::vector<double> a = {0, 1, 4.5, 9, 99, 99, 99, 99};
  const Function g(8, [a](const std::vector<double>& x) {
    double product = 1;
    for (std::size_t k = 0; k < a.size(); ++k) product *= (std::abs(4 * x[k] - 2) + a[k]) / (1 + a[k]);
    return product;
  });
  const Law law = law_of(std::vector<Marginal>(8, uniform(0, 1)));
  const Shares s = of(law, g, one_by_one(law));
  const double first[] = {.716192169, .179048042, .023675774, .007161922, .0000716192};
  const double total[] = {.787144127, .242198193, .034316910, .010460387, .000104949};
  for (std::size_t k = 0; k < 8; ++k) {
    const std::size_t row = std::min<std::size_t>(k, 4);
    INFO("input " << k << ": " << s.groups[k].first.estimate << ", " << s.groups[k].total.estimate);
    CHECK(finds(s.groups[k].first, first[row], 0.01));
    CHECK(finds(s.groups[k].total, total[row], 0.01));
  }
}

TEST_CASE("A sum's shares are its variances, alone and in groups") {
  const Law law = law_of(std::vector<Marginal>(3, normal(5, 1)));
  const Shares s = of(law, linear({1, 2, 3}), {{0}, {1}, {2}, {0, 1}});
  const double exact[] = {1 / 14.0, 4 / 14.0, 9 / 14.0, 5 / 14.0};
  for (std::size_t g = 0; g < 4; ++g) {
    CHECK(finds(s.groups[g].first, exact[g], 5e-3));
    CHECK(finds(s.groups[g].total, exact[g], 5e-3));
  }
  const double sum = s.groups[0].first.estimate + s.groups[1].first.estimate + s.groups[2].first.estimate;
  CHECK(sum == Approx(1).margin(5e-3));
}

TEST_CASE("First shares add up to 1 at most, total shares to 1 at least, and each total holds its first") {
  const Shares s = of(ishigami_law(), ishigami(), {{0}, {1}, {2}});
  double first = 0, total = 0;
  for (const VarianceShare& share : s.groups) {
    first += share.first.estimate;
    total += share.total.estimate;
    CHECK(share.first.low <= share.total.high);
  }
  CHECK(first < 0.9);  // exactly 0.756
  CHECK(total > 1.1);  // exactly 1.244
}

TEST_CASE("Tied parts are one group with the share of both and of what ties them") {
  // y = x1 + 2 x2 + 3 x3, unit normals, correlation r of x1 and x2: Var = 1 + 4 + 4r + 9
  const double r = 0.7;
  const Law law = law_of(std::vector<Marginal>(3, normal(0, 1)), {{0, 1, r}});
  const Shares s = of(law, linear({1, 2, 3}), {{0, 1}, {2}});
  const double all = 14 + 4 * r;
  CHECK(finds(s.groups[0].first, (5 + 4 * r) / all, 5e-3));
  CHECK(finds(s.groups[0].total, (5 + 4 * r) / all, 5e-3));
  CHECK(finds(s.groups[1].first, 9 / all, 5e-3));
  CHECK_FALSE(finds(s.groups[1].first, 9 / 14.0, 5e-3));  // power: what it would be without the tie
  CHECK_THROWS_AS(of(law, linear({1, 2, 3}), {{0}, {1, 2}}), std::invalid_argument);
}

TEST_CASE("Groups that share a tie are found, through others too") {
  const Law law = law_of(std::vector<Marginal>(6, normal(0, 1)), {{0, 3, 0.5}, {3, 4, -0.3}});
  using Sets = std::vector<std::vector<std::size_t>>;
  CHECK(tied_together(law, one_by_one(law)) == Sets{{0, 3, 4}, {1}, {2}, {5}});
  CHECK(tied_together(law, {{4, 1}, {2}, {3, 0}}) == Sets{{0, 2}, {1}});
  CHECK(tied_together(law_of(std::vector<Marginal>(2, normal(0, 1))), {{0}, {1}}) == Sets{{0}, {1}});
  CHECK(closed(law, {0, 3, 4, 5}));
  CHECK_FALSE(closed(law, {0, 3}));
}

TEST_CASE("What does not vary, or has no bound, has no shares") {
  const Law law = law_of({normal(0, 1), normal(0, 1)});
  const Function constant(2, [](const std::vector<double>& x) { return 0.1 + (x[0] - x[0]); });
  CHECK(of(law, constant, {{0}}).why == Shares::Why::constant);
  CHECK(std::isnan(of(law, constant, {{0}, {0, 1}}).groups[1].first.estimate));
  const Function unbounded(2, [](const std::vector<double>& x) { return x[0] > 3 ? inf : x[1]; });
  CHECK(of(law, unbounded, {{0}}).why == Shares::Why::unbounded);
  const Function missing(2, [](const std::vector<double>& x) { return x[0] > 3 ? std::nan("") : x[1]; });
  CHECK(of(law, missing, {{0}, {0, 1}}).why == Shares::Why::unbounded);
  const Law nothing({1.0}, {-inf}, {}, {});
  CHECK(of(nothing, Function(1, [](const auto& x) { return x[0]; }), {}).why == Shares::Why::constant);
}

TEST_CASE("A large constant added to the output changes nothing that is said") {
  const Law law = law_of(std::vector<Marginal>(2, normal(0, 1)));
  const Function far(2, [](const std::vector<double>& x) { return 1e6 + x[0] + 2 * x[1]; });
  CHECK(finds(of(law, far, {{0}}).groups[0].first, 0.2, 5e-3));
}

TEST_CASE("Shares have the same bits on any number of threads, and others with another key") {
  const auto on = [](unsigned threads, std::uint64_t key) {
    return of(ishigami_law(), ishigami(), {{0}, {1, 2}}, 200000, key, threads);
  };
  const Shares one = on(1, 3), many = on(5, 3), other = on(1, 4);
  for (std::size_t g = 0; g < 2; ++g) {
    CHECK(same(one.groups[g].first, many.groups[g].first));
    CHECK(same(one.groups[g].total, many.groups[g].total));
    CHECK_FALSE(same(one.groups[g].total, other.groups[g].total));
  }
  CHECK(one.variance == many.variance);
}

TEST_CASE("Columns of one table of draws are tied, and move together") {
  const std::vector<double> rows = {1, 2, 3, 4, 5, 6, 7, 8};
  const Law law = law_of({draws("a.csv", rows), normal(0, 2), draws("a.csv", rows)});
  CHECK(tied_together(law, one_by_one(law)) == std::vector<std::vector<std::size_t>>{{0, 2}, {1}});
  const Shares s = of(law, linear({1, 1, 1}), {{0, 2}, {1}});  // 4·5.25 of the table, 4 of the normal
  CHECK(finds(s.groups[0].first, 21 / 25.0, 5e-3));
  CHECK(finds(s.groups[1].total, 4 / 25.0, 5e-3));
  CHECK_THROWS_AS(of(law, linear({1, 1, 1}), {{0}}), std::invalid_argument);
}
