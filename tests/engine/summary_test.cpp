#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <vector>

#include "engine/pass/survey.hpp"
#include "engine/summary/histogram.hpp"
#include "engine/summary/interval.hpp"
#include "engine/summary/moments.hpp"

using namespace engine;

namespace {

constexpr double no_number = std::numeric_limits<double>::quiet_NaN(), inf = std::numeric_limits<double>::infinity();

Moments in_blocks(const std::vector<double>& x, std::size_t size) {
  Moments all;
  for (std::size_t i = 0; i < x.size(); i += size) all.merge(Moments::of(x.data() + i, std::min(size, x.size() - i)));
  return all;
}

/// NIST StRD NumAcc2 to 4: the middle value, then one tenth below and above it in turns, 1001 values.
std::vector<double> around(double below, double middle, double above) {
  std::vector<double> x = {middle};
  for (int i = 0; i < 500; ++i) x.push_back(below), x.push_back(above);
  return x;
}

/// Digits in which a value agrees with the certified one.
double digits(double value, double certified) {
  return value == certified ? 16 : -std::log10(std::abs(value / certified - 1));
}

}  // namespace

TEST_CASE("Mean and spread keep the certified digits of NIST StRD NumAcc1 to 4", "[published]") {
  // NIST Statistical Reference Datasets, univariate. The decimals of NumAcc3 and 4 are no doubles: nobody reaches more
  // than about 9 and 8 digits of the spread there.
  const std::vector<double> first = {10000001, 10000003, 10000002};
  CHECK(in_blocks(first, 1).mean == 10000002);
  CHECK(in_blocks(first, 1).spread() == 1);
  for (const std::size_t size : {1u, 64u, 1001u}) {
    const Moments two = in_blocks(around(1.1, 1.2, 1.3), size),
                  three = in_blocks(around(1000000.1, 1000000.2, 1000000.3), size),
                  four = in_blocks(around(10000000.1, 10000000.2, 10000000.3), size);
    CHECK(digits(two.mean, 1.2) > 14);
    CHECK(digits(two.spread(), 0.1) > 13);
    CHECK(digits(three.mean, 1000000.2) > 14);
    CHECK(digits(three.spread(), 0.1) > 9);
    CHECK(digits(four.mean, 10000000.2) > 14);
    CHECK(digits(four.spread(), 0.1) > 8);
  }
  double sum = 0, squares = 0;  // the sum of squares of the textbooks has nothing left
  for (const double x : around(10000000.1, 10000000.2, 10000000.3)) sum += x, squares += x * x;
  CHECK(digits(std::sqrt(std::abs(squares - sum * sum / 1001) / 1000), 0.1) < 4);
}

TEST_CASE("Values that are not finite are counted apart", "[limit]") {
  const std::vector<double> x = {1, no_number, 3, inf, -inf, 2, no_number};
  for (const std::size_t size : {1u, 2u, 3u, 7u}) {
    const Moments m = in_blocks(x, size);
    CHECK((m.n == 3 && m.missing == 2 && m.unbounded == 2));
    CHECK((m.mean == Approx(2) && m.spread() == Approx(1) && m.least == 1 && m.most == 3));
  }
  const std::vector<double> none = {no_number, inf};
  const Moments m = in_blocks(none, 1);
  CHECK((m.n == 0 && m.mean == 0 && m.spread() == 0 && m.least == inf && m.most == -inf));
  CHECK(in_blocks({5}, 1).spread() == 0);
}

TEST_CASE("Merging with nothing changes nothing", "[limit]") {
  const std::vector<double> x = {0.1, 0.7, -3.3};
  const Moments once = in_blocks(x, 3);
  Moments before, after = once;
  before.merge(once);
  after.merge(Moments{});
  CHECK((before.mean == once.mean && before.squares == once.squares && before.n == 3));
  CHECK((after.mean == once.mean && after.squares == once.squares && after.n == 3));
}

TEST_CASE("A histogram puts every number in the bin that holds it", "[limit]") {
  Histogram h(0, 1);
  CHECK(h.bin(-1e-300) == 0);
  CHECK(h.bin(0) == 1);
  CHECK(h.bin(0.5) == Histogram::bins / 2 + 1);
  CHECK(h.bin(1) == Histogram::bins + 1);
  CHECK(h.bin(inf) == Histogram::bins + 1);
  CHECK(h.bin(-inf) == 0);
  const Histogram narrow(3, 3);
  CHECK((narrow.bin(2.9) == 0 && narrow.bin(3) == 1 && narrow.bin(3.1) == Histogram::bins + 1));
  for (const auto& odd : {Histogram(-1e308, 1e308), Histogram(0, 5e-324), Histogram(1, 1 + 0x1p-52)}) {
    std::size_t last = 0;
    for (const double x : {-inf, -1e300, 0.0, 5e-324, 1.0, 1 + 0x1p-52, 2.0, 1e300, inf}) {
      CHECK(odd.bin(x) >= last);
      last = odd.bin(x);
    }
  }
}

TEST_CASE("A histogram finds the bin of a rank and how many lie before", "[limit]") {
  Histogram one(0, 4096), other(0, 4096);
  const std::vector<double> x = {0.5, 10.2, 10.9, 4000, -3, no_number, inf}, y = {10.1, 5000};
  one.add(x.data(), x.size());
  other.add(y.data(), y.size());
  CHECK(one.total() == 6);
  one.merge(other);
  CHECK(one.total() == 8);
  const std::size_t bins[] = {0, 1, 11, 11, 11, 4001, 4097, 4097};
  const std::uint64_t before[] = {0, 1, 2, 2, 2, 5, 6, 6};
  for (std::uint64_t rank = 1; rank <= 8; ++rank) {
    CHECK(one.find(rank).bin == bins[rank - 1]);
    CHECK(one.find(rank).before == before[rank - 1]);
  }
}

TEST_CASE("Clopper-Pearson bounds are those of R's binom.test", "[published]") {
  struct Row {
    double hits, n, low, high;
  };
  for (const Row& row : {Row{0, 10, 0, .308497107818761}, Row{1, 10, .00252857854446, .445016117028195},
                         Row{5, 10, .187086028447399, .812913971552601}, Row{10, 10, .691502892181239, 1},
                         Row{8, 20, .191190060725, .639457412693}, Row{3, 100, .00622997153831, .08517605297428},
                         Row{0, 59, 0, .06060890095}, Row{0, 299, 0, .01226159591}}) {
    const Interval i = clopper_pearson(row.hits, row.n);
    CHECK(i.low == Approx(row.low).margin(1e-11));  // the printed digits
    CHECK(i.high == Approx(row.high).margin(1e-11));
  }
  // One-sided 95 % bound on no miss in 59 (Wilks): 0.05 at most; two-sided at 90 % has it as its upper bound.
  CHECK(clopper_pearson(0, 59, 0.9).high == Approx(1 - std::pow(0.05, 1 / 59.0)).epsilon(1e-12));
}

TEST_CASE("Student's 97.5 percent points are the tabulated ones", "[published]") {
  CHECK(student_975(15) == Approx(2.131).margin(5e-4));  // any t table
  CHECK(student_975(1) == Approx(12.706).margin(5e-4));
  CHECK(student_975(1e7) == Approx(1.959964).margin(1e-6));
}

TEST_CASE("The share of nets has Student bounds, and Clopper-Pearson where hits are rare or all agree", "[limit]") {
  const auto same = [](const Interval& a, const Interval& b) { return a.low == b.low && a.high == b.high; };
  CHECK(same(share_interval({37}, 100), clopper_pearson(37, 100)));
  CHECK(same(share_interval(std::vector<std::uint64_t>(16, 50), 100), clopper_pearson(800, 1600)));
  CHECK(same(share_interval({1, 0, 2, 0}, 100), clopper_pearson(3, 400)));
  CHECK(same(share_interval({99, 100, 98, 100}, 100), clopper_pearson(397, 400)));
  const Interval i = share_interval({40, 50, 60, 50}, 100);  // spread 8.165 of four nets: 0.5 ± 3.182 × 0.0408
  CHECK(i.low == Approx(0.5 - 3.18244630528 * std::sqrt(0.02 / 12)).epsilon(1e-10));
  CHECK(i.high == Approx(0.5 + 3.18244630528 * std::sqrt(0.02 / 12)).epsilon(1e-10));
  const Interval wide = share_interval({0, 100}, 100);
  CHECK((wide.low == 0 && wide.high == 1));
}

TEST_CASE("The misses that odds allow carry no dust of binary fractions", "[limit]") {
  CHECK(misses_allowed(0.95, 100) == 5);
  CHECK(misses_allowed(0.9, 10) == 1);
  CHECK(misses_allowed(0.95, 99) == 4);
  CHECK(misses_allowed(0.999, 999) == 0);
  CHECK(misses_allowed(0.999, 1000) == 1);
  for (const std::uint64_t passes :
       {1ull, 7ull, 10ull, 100ull, 1000ull, 4096ull, 10000ull, 16384ull, 1000000ull, 16777216ull, 100000000ull})
    for (const std::uint64_t parts : {100ull, 1000ull, 10000ull, 1000000ull, 10000000ull})
      for (std::uint64_t k = 1; k < 100; ++k)
        for (const std::uint64_t of : {k * (parts / 100), parts - k}) {
          CAPTURE(of, parts, passes);
          const double odds = static_cast<double>(of) / static_cast<double>(parts);
          REQUIRE(misses_allowed(odds, passes) == (parts - of) * passes / parts);
        }
}
