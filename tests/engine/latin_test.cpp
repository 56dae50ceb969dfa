#include "engine/draw/latin.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <set>
#include <vector>

#include "engine/draw/plan.hpp"

using namespace engine;

namespace {

std::vector<double> coordinate(std::uint64_t size, std::uint64_t key, std::size_t dimension, std::uint64_t net = 0) {
  std::vector<double> u(size);
  LatinDesign(size, key, Stream::test, net).fill(dimension, 0, size, u.data());
  return u;
}

/// Variance of the mean of x over many keys, of points made by `draw(key)`.
template <class Draw>
double variance_of_mean(std::uint64_t keys, Draw draw) {
  double squares = 0;
  for (std::uint64_t key = 0; key < keys; ++key) {
    double mean = 0;
    const std::vector<double> u = draw(key);
    for (const double x : u) mean += x / static_cast<double>(u.size());
    squares += (mean - 0.5) * (mean - 0.5);
  }
  return squares / static_cast<double>(keys);
}

}  // namespace

TEST_CASE("An order visits every place once", "[limit]") {
  for (const std::uint64_t size : {1, 2, 3, 7, 64, 65, 100, 1000, 4096, 16385}) {
    std::set<std::uint64_t> seen;
    const Order order(size, {5, 6}, {7, 8});
    for (std::uint64_t i = 0; i < size; ++i) seen.insert(order(i));
    CHECK(seen.size() == size);
    CHECK(*seen.rbegin() == size - 1);
  }
  const Order large(std::uint64_t{1} << 40, {5, 6}, {7, 8});
  std::set<std::uint64_t> seen;
  for (std::uint64_t i = 0; i < 2000; ++i) seen.insert(large((std::uint64_t{1} << 40) - 1 - i));
  CHECK(seen.size() == 2000);
  CHECK(*seen.rbegin() < std::uint64_t{1} << 40);
}

TEST_CASE("A place may go anywhere, and two places go nearly independently", "[statistical]") {
  // Over many keys: where place 0 of 8 goes, and where place 1 goes when place 0 is there; 56 ordered pairs.
  constexpr std::uint64_t keys = 56000;
  std::vector<std::vector<int>> counts(8, std::vector<int>(8));
  for (std::uint64_t key = 0; key < keys; ++key) {
    const Order order(8, {0, 0}, {key, 1});
    ++counts[order(0)][order(1)];
  }
  double chi_squared = 0;
  for (std::size_t a = 0; a < 8; ++a)
    for (std::size_t b = 0; b < 8; ++b)
      if (a != b) chi_squared += (counts[a][b] - 1000.0) * (counts[a][b] - 1000.0) / 1000;
  CHECK(chi_squared < 55 + 4 * std::sqrt(2 * 55.0));
  CHECK(counts[3][3] == 0);
}

TEST_CASE("Every stratum of every coordinate holds one point", "[limit]") {
  for (const std::uint64_t size : {64, 65, 1000, 1024, 5000})
    for (std::size_t d = 0; d < 4; ++d) {
      std::set<std::uint64_t> strata;
      for (const double x : coordinate(size, 3, d)) {
        REQUIRE((x > 0 && x < 1));
        strata.insert(static_cast<std::uint64_t>(x * static_cast<double>(size)));
      }
      CHECK(strata.size() == size);
    }
}

TEST_CASE("The mean of x over a Latin design of n points varies by 1/(12 n³)", "[published]") {
  // Stein, Technometrics 29 (1987); n = 16: 2.03451e-5.
  constexpr std::uint64_t keys = 20000;
  const double seen = variance_of_mean(keys, [](std::uint64_t key) { return coordinate(16, key, 0); });
  const double error = 2.03451e-5 * std::sqrt(2.0 / keys);
  CHECK(std::abs(seen - 2.03451e-5) < 4 * error);
  // Power: points at random, or jittered over half their strata, are told apart.
  const double at_random = variance_of_mean(2000, [](std::uint64_t key) {
    std::vector<double> u;
    for (std::uint64_t i = 0; i < 16; ++i) u.push_back(unit(threefry({i, 0}, {key, 77})[0]));
    return u;
  });
  CHECK(std::abs(at_random - 2.03451e-5) > 100 * error);
  CHECK(std::abs(2.03451e-5 / 4 - seen) > 4 * error);
}

TEST_CASE("Coordinates, nets, keys and streams have orders of their own, not tied", "[statistical]") {
  // The correlation of two random orders of n strata has variance 1/(n − 1).
  constexpr std::uint64_t n = 64, keys = 4000;
  double squares = 0, sum = 0;
  for (std::uint64_t key = 0; key < keys; ++key) {
    const auto x = coordinate(n, key, 0), y = key % 2 ? coordinate(n, key, 1) : coordinate(n, key, 0, 1);
    double xy = 0;
    for (std::size_t i = 0; i < n; ++i) xy += (x[i] - 0.5) * (y[i] - 0.5);
    const double r = xy / (static_cast<double>(n) / 12);
    sum += r;
    squares += r * r;
  }
  CHECK(std::abs(sum / keys) < 4 / std::sqrt(63.0 * keys));
  CHECK(std::abs(squares / keys - 1 / 63.0) < 4 * std::sqrt(2.0 / keys) / 63);
  CHECK(std::abs(0.8 / 63 - squares / keys) > 4 * std::sqrt(2.0 / keys) / 63);
  std::set<std::vector<double>> seen;
  for (const std::uint64_t key : {1, 2})
    for (const Stream stream : {Stream::verdict, Stream::search})
      for (const std::uint64_t net : {0, 1}) {
        std::vector<double> u(64);
        for (const std::size_t d : {0, 1, 2, 3})
          LatinDesign(64, key, stream, net).fill(d, 0, 64, u.data()), seen.insert(u);
      }
  CHECK(seen.size() == 32);
}

TEST_CASE("A Latin plan makes an additive mean exact to its strata, where plain passes do not", "[statistical]") {
  // Σ sin²(πu) over 3 dimensions, mean 1.5: strata leave little, and the 16 designs agree.
  const auto mean_of = [](Plan::Kind kind, std::uint64_t key) {
    const Plan plan(kind, 3, 16 * 100, key, Stream::test);
    Block u(3);
    double sum = 0;
    for (std::uint64_t b = 0; b < plan.blocks(); ++b) {
      plan.fill(b, u);
      for (std::size_t d = 0; d < 3; ++d)
        for (std::size_t i = 0; i < plan.size(b); ++i) sum += std::pow(std::sin(std::numbers::pi * u.row(d)[i]), 2);
    }
    return sum / static_cast<double>(plan.passes());
  };
  for (std::uint64_t key = 1; key < 6; ++key) CHECK(std::abs(mean_of(Plan::Kind::latin, key) - 1.5) < 2e-3);
  double worst = 0;
  for (std::uint64_t key = 1; key < 6; ++key) worst = std::max(worst, std::abs(mean_of(Plan::Kind::plain, key) - 1.5));
  CHECK(worst > 4e-3);
}
