/// The block loops: element by element the scalar functions, the same bits on every instruction set and number of
/// threads.
#include "engine/lanes/instructions.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>
#include <vector>

#include "engine/draw/block_math.hpp"
#include "engine/draw/marginal.hpp"
#include "engine/lanes/point_math.hpp"
#include "engine/summary/histogram.hpp"
#include "engine/summary/moments.hpp"
#include "tests/lanes/fingerprint.hpp"

using namespace engine;

namespace {

constexpr double inf = std::numeric_limits<double>::infinity(), no_number = std::numeric_limits<double>::quiet_NaN();

/// Calls it under every instruction set; the one in use is restored.
template <class Check>
void on_every_set(Check check) {
  const Instructions before = instructions();
  for (const Instructions set : available_instructions()) {
    use_instructions(set);
    INFO(name(set));
    check();
  }
  use_instructions(before);
}

bool alike(double a, double b) { return a == b ? std::signbit(a) == std::signbit(b) : a != a && b != b; }

/// How many elements of a block function differ from the scalar one.
template <class Block, class Scalar>
std::size_t different(std::vector<double> x, Block block, Scalar scalar) {
  std::vector<double> expected;
  for (const double v : x) expected.push_back(scalar(v));
  block(x.data(), x.size());
  std::size_t count = 0;
  for (std::size_t i = 0; i < x.size(); ++i) count += !alike(x[i], expected[i]);
  return count;
}

/// Uniforms, most of them tiny or all but 1, with the edges of AS 241's regions.
std::vector<double> shares() {
  std::vector<double> u = {0x1p-53, 1 - 0x1p-53, 0.075, 0.925, 0.5,      1.3887943864964021e-11, 1e-300, 5e-324,
                           0,       1,           -1,    2,     no_number};
  std::mt19937_64 dice(5);
  std::uniform_real_distribution<double> power(-45, 0);
  for (int i = 0; i < 4000; ++i) u.push_back(std::exp(power(dice))), u.push_back(1 - std::exp(power(dice)));
  return u;
}

double off_by(double x, long double right) {
  const double nearest = static_cast<double>(right);
  return static_cast<double>(std::fabs(x - right) / (std::nextafter(std::fabs(nearest), inf) - std::fabs(nearest)));
}

}  // namespace

TEST_CASE("A whole survey of the screw has the same bits on every instruction set and number of threads", "[limit]") {
  use_instructions(Instructions::baseline);
  const std::uint64_t first = tests::fingerprint(1);
  on_every_set([&] { CHECK(tests::fingerprint(1) == first); });
  on_every_set([&] { CHECK(tests::fingerprint(3) == first); });
}

TEST_CASE("Block functions are the scalar ones, element by element", "[limit]") {
  on_every_set([] {
    CHECK(different(shares(), normal_quantile_block, normal_quantile) == 0);
    CHECK(different({-745.2, -746, 710, 709.8, -0.0, 1e-300, inf, -inf, no_number}, exp_block, exponential) == 0);
    const auto triangle = [](double* u, std::size_t n) { block_math().triangular(u, 1, 2, 5, n); };
    const auto width = [](double* u, std::size_t n) { block_math().uniform(u, -1, 5, n); };
    CHECK(different(std::vector<double>{0.1, 0.5, 0.7, 0x1p-53, 1 - 0x1p-53}, width,
                    [](double u) { return uniform(-1, 5).quantile(u); }) == 0);
    CHECK(different({0.1, 0.25, 0.3, 0.9, 1e-9}, triangle, [](double u) { return triangular(1, 2, 5).quantile(u); }) ==
          0);
  });
}

TEST_CASE("The exponential and the logarithm are within one unit in the last place", "[limit]") {
  std::mt19937_64 dice(3);
  std::uniform_real_distribution<double> wide(-707, 709), narrow(-1, 1);
  double worst_exp = 0, worst_log = 0;
  for (int i = 0; i < 200000; ++i) {
    const double x = i % 2 ? wide(dice) : narrow(dice), y = i % 4 < 2 ? exponential(x) : 1 + narrow(dice) / 1000;
    worst_exp = std::max(worst_exp, off_by(exponential(x), std::exp(static_cast<long double>(x))));
    worst_log = std::max(worst_log, off_by(logarithm(y), std::log(static_cast<long double>(y))));
  }
  CHECK(worst_exp < 1);
  CHECK(worst_log < 1);
}

TEST_CASE("Exponentials and logarithms end as they should", "[limit]") {
  on_every_set([] {
    std::vector<double> x = {710, -746, inf, -inf, no_number, 0, -745};
    exp_block(x.data(), x.size());
    CHECK((x[0] == inf && x[1] == 0 && x[2] == inf && x[3] == 0 && std::isnan(x[4]) && x[5] == 1 && x[6] == 5e-324));
    std::vector<double> y = {0, -1, inf, no_number, 1, 5e-324};
    log_block(y.data(), y.size());
    CHECK((y[0] == -inf && std::isnan(y[1]) && y[2] == inf && std::isnan(y[3]) && y[4] == 0));
    CHECK(y[5] == Approx(std::log(5e-324)).epsilon(1e-15));
  });
}

TEST_CASE("Bins found in a loop are those found one by one", "[limit]") {
  const std::vector<double> x = {-1, 0, 0.5, 1, 2, inf, -inf, no_number, 1e-300, -1e-300, 1 - 0x1p-53, 1.0 / 4096};
  on_every_set([&] {
    for (const Histogram& h : {Histogram(0, 1), Histogram(0.5, 0.5), Histogram(0, 5e-324), Histogram(-1e308, 1e308)}) {
      std::vector<std::uint32_t> bin(x.size());
      h.find_bins(x.data(), x.size(), bin.data());
      for (std::size_t i = 0; i < x.size(); ++i) CHECK(bin[i] == (x[i] == x[i] ? h.bin(x[i]) : Histogram::bins + 2));
    }
  });
}

TEST_CASE("Moments of a row are those of its finite values, wherever the others stand", "[limit]") {
  std::mt19937_64 dice(9);
  std::normal_distribution<double> normal(1e6, 1);
  on_every_set([&] {
    for (const std::size_t size : {1u, 31u, 32u, 33u, 1000u, 1024u, 3000u}) {
      std::vector<double> finite, mixed;
      for (std::size_t i = 0; i < size; ++i) {
        finite.push_back(normal(dice));
        mixed.push_back(finite.back());
        if (i % 7 == 3 && size < 900) mixed.push_back(i % 2 ? no_number : inf);
      }
      const Moments a = Moments::of(finite.data(), finite.size()), b = Moments::of(mixed.data(), mixed.size());
      CHECK((a.n == b.n && a.mean == b.mean && a.squares == b.squares && a.least == b.least && a.most == b.most));
      CHECK(b.missing + b.unbounded == mixed.size() - finite.size());
    }
  });
}
