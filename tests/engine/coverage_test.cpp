#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "engine/pass/survey.hpp"

using namespace engine;

namespace {

constexpr double inf = std::numeric_limits<double>::infinity();
constexpr int repeats = 400;

/// Four normals in a smooth curve that rises with their sum, so that its quantiles are known exactly.
class Curve : public BlockModel {
public:
  std::size_t inputs() const override { return 4; }
  std::size_t outputs() const override { return 1; }
  void evaluate(const Block& x, Block& y, std::size_t passes) const override {
    for (std::size_t i = 0; i < passes; ++i) y.row(0)[i] = at(x.row(0)[i] + x.row(1)[i] + x.row(2)[i] + x.row(3)[i]);
  }
  static double at(double sum) { return std::exp(sum / 3); }
  static double quantile(double u) { return at(2 * normal_quantile(u)); }
};

/// How many of the repeats have the truth within the bounds, and within bounds of half that width.
struct Covered {
  std::vector<int> odds, ranks, half_odds, half_ranks;
};

/// 1 when the middle ± (bounds − middle) × factor holds the truth.
int holds(double truth, double low, double middle, double high, double factor) {
  return middle - factor * (middle - low) <= truth && truth <= middle + factor * (high - middle);
}

Covered covered(Plan::Kind kind, std::uint64_t count, const std::vector<double>& shares) {
  const Law law(
      std::vector<double>(4), std::vector<double>(4, -inf),
      {{0, false, normal(0, 1)}, {1, false, normal(0, 1)}, {2, false, normal(0, 1)}, {3, false, normal(0, 1)}}, {});
  Ask ask;
  ask.quantiles = shares;
  for (const double share : shares) ask.thresholds.push_back({0, Curve::quantile(share)});
  const std::vector<int> none(shares.size());
  Covered c{none, none, none, none};
  for (std::uint64_t key = 0; key < repeats; ++key) {
    const Survey s = survey(Plan(kind, 4, count, key, Stream::verdict), law, Curve(), ask, key, {});
    for (std::size_t q = 0; q < shares.size(); ++q) {
      const double truth = 1 - shares[q], seen = static_cast<double>(s.hits[q]) / static_cast<double>(s.passes);
      const Ranked& r = s.quantiles[0][q];
      for (const bool half : {false, true}) {
        (half ? c.half_odds : c.odds)[q] += holds(truth, s.odds[q].low, seen, s.odds[q].high, half ? 0.5 : 1);
        (half ? c.half_ranks : c.ranks)[q] +=
            holds(Curve::quantile(shares[q]), r.low, r.estimate, r.high, half ? 0.5 : 1);
      }
    }
  }
  return c;
}

}  // namespace

TEST_CASE("Ninety-five percent bounds of odds and ranks hold the truth that often", "[statistical]") {
  const std::vector<double> shares = {0.02, 0.1, 0.5, 0.9, 0.98};
  // 400 keys a plan. Accepted where the share that holds is no more than 3 standard errors below 93 %; bounds of half
  // the width, which hold about 67 % of the time where the bounds are not generous, must be refused.
  const double least = repeats * 0.93 - 3 * std::sqrt(repeats * 0.93 * 0.07);
  for (const auto kind : {Plan::Kind::plain, Plan::Kind::sobol}) {
    const Covered c = covered(kind, 4096, shares);
    for (std::size_t q = 0; q < shares.size(); ++q) {
      CAPTURE(kind == Plan::Kind::sobol, shares[q], c.odds[q], c.ranks[q], c.half_odds[q], c.half_ranks[q]);
      CHECK(c.odds[q] >= least);
      CHECK(c.ranks[q] >= least);
    }
    CHECK(c.half_odds[2] < least);
    CHECK(c.half_ranks[2] < least);
  }
}

TEST_CASE("A rank too near an end for its passes has an open bound rather than a false one", "[statistical]") {
  // One in a thousand of 1024 passes: the extreme pass lies beyond the truth only 64 times in 100, so no pass is a
  // bound.
  const double least = repeats * 0.93 - 3 * std::sqrt(repeats * 0.93 * 0.07);
  for (const auto kind : {Plan::Kind::plain, Plan::Kind::sobol}) {
    const Covered c = covered(kind, 1024, {0.001, 0.999});
    for (std::size_t q = 0; q < 2; ++q) {
      CHECK(c.odds[q] >= least);
      CHECK(c.ranks[q] >= least);
    }
  }
}

TEST_CASE("Without a miss the bound is that of Clopper and Pearson on all passes", "[limit]") {
  const Law law(std::vector<double>(4), std::vector<double>(4, -inf), {{0, false, uniform(0, 1)}}, {});
  Ask ask;
  ask.thresholds = {{0, 0.5}, {0, 50}};
  for (const auto kind : {Plan::Kind::plain, Plan::Kind::sobol}) {
    const Plan plan(kind, 1, 4096, 1, Stream::verdict);
    const Survey s = survey(plan, law, Curve(), ask, 1, {});
    const double n = static_cast<double>(plan.passes());
    CHECK(s.hits[0] == plan.passes());
    CHECK(s.odds[0].low == Approx(std::pow(0.025, 1 / n)).epsilon(1e-12));
    CHECK(s.odds[0].high == 1);
    CHECK(s.odds[1].low == 0);
    CHECK(s.odds[1].high == Approx(1 - std::pow(0.025, 1 / n)).epsilon(1e-12));
  }
}
