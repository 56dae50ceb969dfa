#include "engine/pass/survey.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

using namespace engine;

namespace {

constexpr double inf = std::numeric_limits<double>::infinity();

/// The sum of its inputs, and a handful of awkward outputs of it.
class Sums : public BlockModel {
public:
  enum { sum, constant, sometimes_missing, sometimes_unbounded, steps, rare };
  explicit Sums(std::size_t inputs) : inputs_(inputs) {}
  std::size_t inputs() const override { return inputs_; }
  std::size_t outputs() const override { return 6; }
  void evaluate(const Block& x, Block& y, std::size_t passes) const override {
    for (std::size_t i = 0; i < passes; ++i) {
      double total = 0;
      for (std::size_t k = 0; k < inputs_; ++k) total += x.row(k)[i];
      y.row(sum)[i] = total;
      y.row(constant)[i] = 42;
      y.row(sometimes_missing)[i] = total > 4 ? std::nan("") : total;
      y.row(sometimes_unbounded)[i] = total > 2 ? inf : total < -3 ? -inf : total;
      y.row(steps)[i] = std::floor(total);
      y.row(rare)[i] = total > 5.9 ? 1e9 * total : 0;  // the range finder is all but sure to see only zeros
    }
  }

private:
  std::size_t inputs_;
};

Law sum_of(const std::vector<Marginal>& marginals) {
  std::vector<Part> parts;
  for (std::size_t k = 0; k < marginals.size(); ++k) parts.push_back({k, false, marginals[k]});
  return Law(std::vector<double>(marginals.size()), std::vector<double>(marginals.size(), -inf), parts, {});
}

Law four_normals() { return sum_of(std::vector<Marginal>(4, normal(0, 1))); }

const std::vector<double> many = {1e-6, 0.0005, 0.01, 0.025, 0.1, 0.3, 0.5, 0.7, 0.9, 0.975, 0.99, 0.9999, 1 - 1e-7};

Ask everything() {
  Ask ask;
  ask.quantiles = many;
  ask.keep = true;
  for (const double least : {-100.0, -2.0, 0.0, 1.5, 5.0, 100.0})
    for (std::size_t k = 0; k < 6; ++k) ask.thresholds.push_back({k, least});
  for (std::size_t k = 0; k < 6; ++k)
    for (const double share : {0.5, 0.9, 0.95, 0.999}) ask.reaches.push_back({k, share});
  return ask;
}

bool alike(double a, double b) { return a == b || (std::isnan(a) && std::isnan(b)); }

bool alike(const Survey& a, const Survey& b) {
  bool same = a.passes == b.passes && a.hits == b.hits && a.clipped == b.clipped;
  const auto ranked = [&](const Ranked& x, const Ranked& y) {
    same = same && alike(x.low, y.low) && alike(x.estimate, y.estimate) && alike(x.high, y.high);
  };
  for (std::size_t k = 0; k < a.moments.size(); ++k) {
    same = same && a.moments[k].mean == b.moments[k].mean && a.moments[k].squares == b.moments[k].squares;
    for (std::size_t q = 0; q < a.quantiles[k].size(); ++q) ranked(a.quantiles[k][q], b.quantiles[k][q]);
  }
  for (std::size_t r = 0; r < a.reaches.size(); ++r) ranked(a.reaches[r], b.reaches[r]);
  for (std::size_t t = 0; t < a.odds.size(); ++t)
    same = same && a.odds[t].low == b.odds[t].low && a.odds[t].high == b.odds[t].high;
  return same;
}

constexpr Plan::Kind both[] = {Plan::Kind::plain, Plan::Kind::sobol};
const Law& four() {
  static const Law law = four_normals();
  return law;
}

}  // namespace

TEST_CASE("The additive models of JCGM 101, 9.2 come out with their exact mean, spread and 95 percent interval",
          "[published][statistical]") {
  // JCGM 101:2008, 9.2.2 to 9.2.4 (cases from memory); exact quantiles from the distribution of the sum, recomputed.
  // Standard errors of the quantiles from the density there. Plain within 4 of them, nets within 1.
  const double r = std::sqrt(3.0);
  struct Case {
    std::vector<Marginal> inputs;
    double spread, quantile, density;
  };
  const Case cases[] = {{std::vector<Marginal>(4, normal(0, 1)), 2, 3.919928, 0.0292},
                        {std::vector<Marginal>(4, uniform(-r, r)), 2, 3.8794067413, 0.0328},
                        {{uniform(-r, r), uniform(-r, r), uniform(-r, r), uniform(-10 * r, 10 * r)},
                         std::sqrt(103.0),
                         17.0158140999,
                         0.0165}};
  Ask ask;
  ask.quantiles = {0.025, 0.975};
  for (const Case& c : cases)
    for (const auto kind : both) {
      const Law law = sum_of(c.inputs);
      const Plan plan(kind, 4, 1 << 18, 101, Stream::verdict);
      const Survey s = survey(plan, law, Sums(4), ask, 101, {});
      const double n = static_cast<double>(plan.passes()), errors = kind == Plan::Kind::plain ? 4 : 1;
      const double mean_error = c.spread / std::sqrt(n), rank_error = std::sqrt(0.025 * 0.975 / n) / c.density;
      CHECK(std::abs(s.moments[0].mean) < errors * mean_error);
      CHECK(std::abs(s.moments[0].spread() - c.spread) < errors * mean_error / std::sqrt(2.0));
      CHECK(std::abs(s.quantiles[0][0].estimate + c.quantile) < errors * rank_error);
      CHECK(std::abs(s.quantiles[0][1].estimate - c.quantile) < errors * rank_error);
      // Power: the interval of a normal of this spread would be refused for the two that are none.
      if (c.inputs[0].shape != Shape::normal)
        CHECK(std::abs(s.quantiles[0][1].estimate - 1.959964 * c.spread) > 3 * rank_error);
      CHECK(s.quantiles[0][0].low < s.quantiles[0][0].estimate);
      CHECK(s.quantiles[0][1].estimate < s.quantiles[0][1].high);
    }
}

TEST_CASE("Ranks are those of all passes sorted", "[limit]") {
  for (const auto kind : both)
    for (const std::uint64_t count : {1000, 5000, 40000}) {
      const Plan plan(kind, 4, count, 5, Stream::test);
      const Ask ask = everything();
      const Survey s = survey(plan, four(), Sums(4), ask, 5, {});
      const std::uint64_t n = plan.passes();
      for (const std::size_t k : {Sums::sum, Sums::constant, Sums::sometimes_unbounded, Sums::steps, Sums::rare}) {
        std::vector<double> sorted = s.kept_outputs[k];
        std::sort(sorted.begin(), sorted.end());
        for (std::size_t q = 0; q < many.size(); ++q) {
          CAPTURE(k, many[q], n);
          const Ranked& ranked = s.quantiles[k][q];
          const auto at = static_cast<std::uint64_t>(std::ceil(many[q] * static_cast<double>(n) - 1e-9));
          CHECK(ranked.estimate == sorted[std::max<std::uint64_t>(1, at) - 1]);
          CHECK(ranked.low <= ranked.estimate);
          CHECK(ranked.estimate <= ranked.high);
          if (k == Sums::sum) CHECK(ranked.low < ranked.high);
          if (ranked.low > -inf) CHECK(std::binary_search(sorted.begin(), sorted.end(), ranked.low));
          if (ranked.high < inf) CHECK(std::binary_search(sorted.begin(), sorted.end(), ranked.high));
        }
      }
    }
}

TEST_CASE("A reach is the largest value that its share of the passes reach", "[limit]") {
  for (const auto kind : both) {
    const Survey s = survey(Plan(kind, 4, 20000, 6, Stream::test), four(), Sums(4), everything(), 6, {});
    const Ask ask = everything();
    for (std::size_t r = 0; r < ask.reaches.size(); ++r) {
      if (ask.reaches[r].output == Sums::sometimes_missing) continue;
      const auto& values = s.kept_outputs[ask.reaches[r].output];
      const auto reached = [&](double v) {
        return std::count_if(values.begin(), values.end(), [&](double y) { return y >= v; });
      };
      const double needed = ask.reaches[r].share * static_cast<double>(s.passes) - 1e-6, found = s.reaches[r].estimate;
      CHECK(static_cast<double>(reached(found)) >= needed);
      CHECK(static_cast<double>(reached(std::nextafter(found, inf))) < needed);
    }
  }
}

TEST_CASE("Hits are the passes at or above the threshold, one by one", "[limit]") {
  for (const auto kind : both) {
    const Ask ask = everything();
    const Survey s = survey(Plan(kind, 4, 7000, 8, Stream::test), four(), Sums(4), ask, 8, {});
    for (std::size_t t = 0; t < ask.thresholds.size(); ++t) {
      std::uint64_t hits = 0;
      for (const double y : s.kept_outputs[ask.thresholds[t].output]) hits += y >= ask.thresholds[t].least;
      CHECK(s.hits[t] == hits);
      const double share = static_cast<double>(hits) / static_cast<double>(s.passes);
      CHECK((s.odds[t].low <= share && share <= s.odds[t].high && s.odds[t].low < s.odds[t].high));
    }
  }
}

TEST_CASE("A constant is exact, a missing value makes ranks missing, an unbounded one is a rank like any", "[limit]") {
  for (const auto kind : both) {
    const Survey s = survey(Plan(kind, 4, 20000, 9, Stream::test), four(), Sums(4), everything(), 9, {});
    for (const Ranked& q : s.quantiles[Sums::constant]) CHECK((q.low == 42 && q.estimate == 42 && q.high == 42));
    CHECK(s.moments[Sums::constant].spread() == 0);
    CHECK(s.moments[Sums::sometimes_missing].missing > 0);
    for (const Ranked& q : s.quantiles[Sums::sometimes_missing])
      CHECK((std::isnan(q.low) && std::isnan(q.estimate) && std::isnan(q.high)));
    CHECK(s.moments[Sums::sometimes_unbounded].unbounded > 0);
    CHECK(s.moments[Sums::sometimes_unbounded].missing == 0);
    CHECK(s.quantiles[Sums::sometimes_unbounded][8].estimate == inf);
    CHECK(s.quantiles[Sums::sometimes_unbounded][0].estimate == -inf);
    CHECK(std::isfinite(s.quantiles[Sums::sometimes_unbounded][6].estimate));
  }
}

TEST_CASE("The same bits come out on one, two and five threads, kept or not", "[limit]") {
  for (const auto kind : both)
    for (const std::uint64_t count : {3000, 100000}) {
      const Plan plan(kind, 4, count, 12, Stream::test);
      Ask ask = everything();
      const Survey one = survey(plan, four(), Sums(4), ask, 12, {1, {}, nullptr});
      for (const unsigned threads : {2u, 5u}) {
        const Survey more = survey(plan, four(), Sums(4), ask, 12, {threads, {}, nullptr});
        CHECK(alike(one, more));
        CHECK((one.kept_outputs[0] == more.kept_outputs[0] && one.kept_inputs == more.kept_inputs));
      }
      ask.keep = false;
      const Survey light = survey(plan, four(), Sums(4), ask, 12, {2, {}, nullptr});
      CHECK(alike(one, light));
      CHECK(light.kept_outputs.empty());
      CHECK_FALSE(alike(one, survey(Plan(kind, 4, count, 13, Stream::test), four(), Sums(4), ask, 13, {})));
    }
}

TEST_CASE("Impossible draws of a survey are counted once", "[limit]") {
  const Law law({0}, {0}, {{0, false, normal(1, 1)}}, {});
  Ask ask;
  ask.keep = true;
  ask.quantiles = {0.5};
  const Survey s = survey(Plan(Plan::Kind::sobol, 1, 10000, 4, Stream::test), law, Sums(1), ask, 4, {});
  CHECK(s.clipped[0] == static_cast<std::uint64_t>(std::count(s.kept_inputs[0].begin(), s.kept_inputs[0].end(), 0.0)));
}

TEST_CASE("A model without scatter is surveyed too", "[limit]") {
  const Law law({3, 4}, {-inf, -inf}, {}, {});
  Ask ask;
  ask.quantiles = {0.1, 0.9};
  ask.thresholds = {{0, 7}, {0, 7.1}};
  const Survey s = survey(Plan(Plan::Kind::sobol, 0, 1000, 4, Stream::test), law, Sums(2), ask, 4, {});
  CHECK((s.quantiles[0][0].low == 7 && s.quantiles[0][1].high == 7 && s.moments[0].mean == 7));
  CHECK((s.hits[0] == s.passes && s.hits[1] == 0));
}

TEST_CASE("The progress of a survey ends at one, whatever is asked", "[limit]") {
  Ask odds_only, ranks;
  odds_only.thresholds = {{0, 1}};
  ranks.quantiles = {0.5};
  for (const Ask& ask : {odds_only, ranks}) {
    std::vector<double> told;
    const Running running{1, [&](double share) { told.push_back(share); }, nullptr};
    survey(Plan(Plan::Kind::plain, 4, 5000, 1, Stream::test), four(), Sums(4), ask, 1, running);
    CHECK(std::is_sorted(told.begin(), told.end()));
    CHECK(told.back() == 1);
  }
}
