#include <boost/math/distributions/binomial.hpp>
#include <catch2/catch.hpp>
#include <iostream>

#include "engine/summary/coverage.hpp"
#include "tests/engine/jcgm.hpp"

using namespace engine;

namespace {

/// A smooth curve of four normals, all alike or one alone that matters: their sum is standard normal either way.
class Sum : public BlockModel {
public:
  explicit Sum(bool alike) : alike_(alike) {}
  std::size_t inputs() const override { return 4; }
  std::size_t outputs() const override { return 1; }
  void evaluate(const Block& x, Block& y, std::size_t passes) const override {
    for (std::size_t i = 0; i < passes; ++i)
      y.row(0)[i] = alike_ ? (x.row(0)[i] + x.row(1)[i] + x.row(2)[i] + x.row(3)[i]) / 2 : x.row(2)[i];
  }

private:
  bool alike_;
};

const std::vector<double> shares = {0.001, 0.01, 0.05, 0.2, 0.5, 0.8, 0.95, 0.99, 0.999};
constexpr std::uint64_t passes = 8192;

/// Shares of the keys, in percent, on which the truth lay within.
struct Table {
  std::vector<double> odds = std::vector<double>(shares.size()), quantiles = odds;
  double tolerance_low = 0, tolerance_high = 0;
};

Table tabled(Plan::Kind kind, bool alike, int repeats) {
  Ask ask;
  ask.quantiles = shares;
  ask.tolerance = {0.95, 0.95};
  for (const double share : shares) ask.thresholds.push_back({0, normal_quantile(share)});
  const Law law = jcgm::four_normals();
  Table t;
  const double each = 100.0 / repeats;
  for (int key = 1; key <= repeats; ++key) {
    const auto k = static_cast<std::uint64_t>(key);
    const Survey s = survey(Plan(kind, 4, passes, k, Stream::test), law, Sum(alike), ask, k, {2, {}, nullptr});
    for (std::size_t q = 0; q < shares.size(); ++q) {
      const double truth = normal_quantile(shares[q]);
      t.odds[q] += each * (s.odds[q].low <= 1 - shares[q] && 1 - shares[q] <= s.odds[q].high);
      t.quantiles[q] += each * (s.quantiles[0][q].low <= truth && truth <= s.quantiles[0][q].high);
    }
    t.tolerance_low += each * (s.tolerance[0].low <= normal_quantile(0.05));
    t.tolerance_high += each * (s.tolerance[0].high >= normal_quantile(0.95));
  }
  return t;
}

/// How often the Clopper-Pearson interval of n passes covers a share, exactly, in percent.
double clopper_pearson_coverage(double n, double share) {
  const boost::math::binomial_distribution<> hits(n, share);
  double covered = 0;
  for (double k = 0; k <= n; ++k) {
    const double p = boost::math::pdf(hits, k);
    if (p < 1e-12) continue;
    const Interval i = clopper_pearson(k, n);
    if (i.low <= share && share <= i.high) covered += 100 * p;
  }
  return covered;
}

/// Standard errors that a percentage seen is off.
double errors(double seen, double truth, int repeats) {
  return (seen - truth) / std::sqrt(std::max(truth * (100 - truth), 1.0) / repeats);
}

void check_plain(const Table& t, int repeats) {
  for (std::size_t q = 0; q < shares.size(); ++q) {
    CAPTURE(shares[q], t.odds[q], t.quantiles[q]);
    CHECK(std::abs(errors(t.odds[q], clopper_pearson_coverage(passes, 1 - shares[q]), repeats)) < 4);
    const double exact = 100 * quantile_confidence(passes, shares[q], quantile_ranks(passes, shares[q], 0.95));
    CHECK(std::abs(errors(t.quantiles[q], exact, repeats)) < 4);
  }
  const std::uint64_t high = quantile_ranks(passes, 0.95, 0.9).high;
  const double exact = 100 * quantile_confidence(passes, 0.95, {0, high});
  CHECK(exact >= 95);
  CHECK(std::abs(errors(t.tolerance_low, exact, repeats)) < 4);
  CHECK(std::abs(errors(t.tolerance_high, exact, repeats)) < 4);
}

/// Nets: at least as often as promised, less 4 standard errors of the repeats or 1.5 in 100.
void check_nets(const Table& t, int repeats) {
  const double least = 95 - std::max(1.5, 4 * std::sqrt(5.0 * 95 / repeats));
  for (std::size_t q = 0; q < shares.size(); ++q) {
    CAPTURE(shares[q], t.odds[q], t.quantiles[q]);
    CHECK(t.odds[q] >= least);
    CHECK(t.quantiles[q] >= least);
  }
  CHECK(t.tolerance_low >= least);
  CHECK(t.tolerance_high >= least);
}

void say(const char* name, const Table& t) {
  std::cout << name << "\n  share    ";
  for (const double s : shares) std::cout << s << ' ';
  std::cout << "\n  odds     ";
  for (const double c : t.odds) std::cout << c << ' ';
  std::cout << "\n  quantile ";
  for (const double c : t.quantiles) std::cout << c << ' ';
  std::cout << "\n  tolerance low " << t.tolerance_low << " high " << t.tolerance_high << '\n';
}

void check(int repeats, bool aloud) {
  const Table plain = tabled(Plan::Kind::plain, true, repeats), nets = tabled(Plan::Kind::sobol, true, repeats),
              one = tabled(Plan::Kind::sobol, false, repeats);
  if (aloud) say("plain", plain), say("nets, inputs alike", nets), say("nets, one input", one);
  check_plain(plain, repeats);
  check_nets(nets, repeats);
  check_nets(one, repeats);
}

}  // namespace

TEST_CASE("Every interval covers as often as it says", "[statistical][plain-build]") { check(400, false); }

TEST_CASE("Every interval covers as often as it says, over 2000 keys", "[.long]") { check(2000, true); }
