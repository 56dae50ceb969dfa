#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "engine/summary/coverage.hpp"
#include "tests/engine/jcgm.hpp"

using namespace engine;

namespace {

/// Least number of values of which the k-th greatest has a share of all at or below it, that surely.
std::uint64_t passes_for(double content, double confidence, std::uint64_t kth) {
  std::uint64_t n = kth;
  while (quantile_ranks(n, content, 2 * confidence - 1).high > n + 1 - kth) ++n;
  return n;
}

Survey surveyed(const Law& law, const BlockModel& model, double share, Plan::Kind kind, std::uint64_t passes) {
  Ask ask;
  ask.coverage = share;
  ask.keep = true;
  Survey s = survey(Plan(kind, law.dimensions(), passes, 11, Stream::test), law, model, ask, 11, {2, {}, nullptr});
  std::sort(s.kept_outputs[0].begin(), s.kept_outputs[0].end());
  return s;
}

double length(const Interval& i) { return i.high - i.low; }

}  // namespace

TEST_CASE("Sample sizes for tolerance bounds are those of Wilks", "[published]") {
  // One-sided, the k-th extreme; content and confidence (59: Wilks 1941 and any table; the rest from memory,
  // recomputed).
  const std::uint64_t sizes[] = {59, 93, 124, 153, 181, 208}, of_99[] = {299, 473, 628, 773},
                      sure_99[] = {90, 130, 165, 198}, both_99[] = {459, 662, 838}, of_90[] = {29, 46, 61};
  for (std::uint64_t k = 1; k <= 6; ++k) CHECK(passes_for(0.95, 0.95, k) == sizes[k - 1]);
  for (std::uint64_t k = 1; k <= 4; ++k) CHECK(passes_for(0.99, 0.95, k) == of_99[k - 1]);
  for (std::uint64_t k = 1; k <= 4; ++k) CHECK(passes_for(0.95, 0.99, k) == sure_99[k - 1]);
  for (std::uint64_t k = 1; k <= 3; ++k) CHECK(passes_for(0.99, 0.99, k) == both_99[k - 1]);
  for (std::uint64_t k = 1; k <= 3; ++k) CHECK(passes_for(0.90, 0.95, k) == of_90[k - 1]);
  CHECK(quantile_ranks(59, 0.05, 0.9).low == 1);  // the least of 59 is a lower bound alike
  CHECK(quantile_ranks(58, 0.05, 0.9).low == 0);  // of 58 none is
}

TEST_CASE("Ranks that bound a quantile are the tabulated ones, with their exact confidence", "[published]") {
  struct Row {
    std::uint64_t n;
    double q;
    std::uint64_t low, high;
    double confidence;
  };
  // The medians of 10 and 20: Conover's table (from memory); the rest recomputed from the binomial.
  for (const Row& r : {Row{10, 0.5, 2, 9, .978516}, Row{20, 0.5, 6, 15, .958611}, Row{100, 0.5, 40, 61, .964800},
                       Row{100, 0.9, 84, 96, .955690}, Row{1000, 0.95, 936, 964, .958095},
                       Row{1000, 0.99, 983, 997, .976095}, Row{10000, 0.99, 9880, 9920, .955755}}) {
    const RankPair ranks = quantile_ranks(r.n, r.q, 0.95);
    CAPTURE(r.n, r.q);
    CHECK((ranks.low == r.low && ranks.high == r.high));
    CHECK(quantile_confidence(r.n, r.q, ranks) == Approx(r.confidence).margin(5e-7));
  }
}

TEST_CASE("Ranks of a coverage interval are rounded as JCGM 101 has it", "[published]") {
  CHECK(coverage_span(100000, 0.95) == 95000);
  CHECK(coverage_span(10, 0.95) == 10 - 1);  // 9.5 rounds to 10, more than there is room for
  CHECK(coverage_span(30, 0.95) == 29);      // 28.5
  const RankPair even = symmetric_ranks(100000, 0.95), odd = symmetric_ranks(1001, 0.95);
  CHECK((even.low == 2500 && even.high == 97500));
  CHECK((odd.low == 25 && odd.high == 976));  // q = 951, (1001 − 951)/2
  const RankPair up = symmetric_ranks(1000, 0.999);
  CHECK((up.low == 1 && up.high == 1000));
  const RankPair one = symmetric_ranks(1, 0.95);
  CHECK((one.low == 1 && one.high == 1));
  const RankPair shortest = shortest_ranks(std::vector<double>{0, 1, 2, 3, 3.1, 3.2, 3.3, 9}, 0.5);
  CHECK((shortest.low == 3 && shortest.high == 7));  // of length 1.3, 1.2 … : 2 to 3.3
}

TEST_CASE("The comparison losses of JCGM 101, 9.4 have their shortest intervals", "[published][statistical]") {
  // Published [0, 150], [0, 367], [1590, 3543] in 10⁻⁶ (from memory, one run each); exact ends by quadrature. The ends
  // of a shortest interval scatter more than its length, which is flat there: the length within 4 standard errors of
  // its quantiles, the ends within 0.15 u.
  struct Row {
    double x1, low, high, symmetric_low, symmetric_high, u;
  };
  for (const Row& r : {Row{0, 0, 149.7866, 1.2659, 184.4440, 50}, Row{0.010, 0, 366.0053, 8.5468, 427.1233, 111.8034},
                       Row{0.050, 1593.57, 3548.57, 1638.477, 3603.358, 502.4938}})
    for (const auto kind : {Plan::Kind::plain, Plan::Kind::sobol}) {
      const Survey s = surveyed(jcgm::loss_at(r.x1), jcgm::loss(), 0.95, kind, 1 << 18);
      const Covering& c = s.coverage[0];
      CAPTURE(r.x1, c.shortest.low, c.shortest.high);
      CHECK(std::abs(c.symmetric.low - r.symmetric_low) < 0.03 * r.u);
      CHECK(std::abs(c.symmetric.high - r.symmetric_high) < 0.03 * r.u);
      CHECK(length(c.shortest) == Approx(r.high - r.low).margin(0.04 * r.u));
      CHECK(std::abs(c.shortest.low - r.low) < 0.15 * r.u);
      CHECK(std::abs(c.shortest.high - r.high) < 0.15 * r.u);
      CHECK(length(c.shortest) < length(c.symmetric));
      const RankPair exact = shortest_ranks(s.kept_outputs[0], 0.95);
      const double least = s.kept_outputs[0][exact.high - 1] - s.kept_outputs[0][exact.low - 1];
      CHECK(length(c.shortest) >= least);
      CHECK(length(c.shortest) <= least + 2 * (s.histograms[0].high() - s.histograms[0].low()) / Histogram::bins);
      const auto inside = std::upper_bound(s.kept_outputs[0].begin(), s.kept_outputs[0].end(), c.shortest.high) -
                          std::lower_bound(s.kept_outputs[0].begin(), s.kept_outputs[0].end(), c.shortest.low);
      CHECK(std::abs(double(inside) - 0.95 * double(s.passes)) <= 1.5);
    }
}

TEST_CASE("The gauge block of JCGM 101, 9.5 has its shortest 99 percent interval", "[published][statistical]") {
  // [745, 932] nm published from 1.36 million passes (seen in a journal reproduction); converged 744.42 to 931.68.
  const Survey s = surveyed(jcgm::gauge_block_inputs(), jcgm::gauge_block(), 0.99, Plan::Kind::sobol, 1 << 20);
  CHECK(s.moments[0].mean == Approx(838).margin(0.5));
  CHECK(s.moments[0].spread() == Approx(35.808).margin(0.05));
  CHECK(s.coverage[0].symmetric.low == Approx(744.375).margin(0.3));
  CHECK(s.coverage[0].symmetric.high == Approx(931.638).margin(0.3));
  CHECK(s.coverage[0].shortest.low == Approx(744.42).margin(1));
  CHECK(s.coverage[0].shortest.high == Approx(931.68).margin(1));
}

TEST_CASE("Tolerance bounds of plain passes are order statistics, open where the passes are too few", "[limit]") {
  Ask ask;
  ask.tolerance = {0.95, 0.95};
  ask.keep = true;
  for (const std::uint64_t n : {58, 59, 1000}) {
    const Law law = jcgm::four_normals();
    Survey s = survey(Plan(Plan::Kind::plain, 4, n, 2, Stream::test), law, jcgm::additive(), ask, 2, {});
    auto& y = s.kept_outputs[0];
    std::sort(y.begin(), y.end());
    const Interval& t = s.tolerance[0];
    if (n == 58) CHECK((std::isinf(t.low) && std::isinf(t.high)));
    if (n == 59) CHECK((t.low == y.front() && t.high == y.back()));
    if (n == 1000)
      CHECK((t.low == y[38] && t.high == y[1000 - 39]));  // the 39th extreme: P(at least 39 of 1000 beyond) = 0.955
  }
}
