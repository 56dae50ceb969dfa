/// Shares of a change among what was altered, against every order written out.
#include <catch2/catch.hpp>

#include <algorithm>
#include <numeric>
#include <random>

#include "studies/ask/attribution.hpp"
#include "studies/ask/paired.hpp"

using namespace studies;

namespace {

/// Mean over all orders, each walked through.
std::vector<double> over_orders(std::size_t n, const std::vector<double>& value) {
  std::vector<std::size_t> order(n);
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::vector<double> shares(n);
  double orders = 0;
  do {
    Made made = 0;
    for (const std::size_t i : order) {
      const Made next = made | Made{1} << i;
      shares[i] += value[next] - value[made];
      made = next;
    }
    ++orders;
  } while (std::next_permutation(order.begin(), order.end()));
  for (double& share : shares) share /= orders;
  return shares;
}

}  // namespace

TEST_CASE("Up to eight alterations share as the mean over every order of making them", "[ask]") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> any(-1, 1);
  for (std::size_t n = 1; n <= 6; ++n) {
    std::vector<double> value(std::size_t{1} << n);
    for (double& v : value) v = any(random);
    REQUIRE(sets_needed(n).size() == value.size());
    const std::vector<double> found = shares(n, value), written = over_orders(n, value);
    for (std::size_t i = 0; i < n; ++i) CHECK(found[i] == Approx(written[i]).margin(1e-14));
    CHECK(std::accumulate(found.begin(), found.end(), 0.0) == Approx(value.back() - value.front()).margin(1e-14));
  }
}

TEST_CASE("A product of two factors shares its interaction in halves", "[ask]") {
  // v = x y, x 2 to 3, y 5 to 7: x adds 5 or 7, y adds 4 or 6.
  CHECK(shares(2, {10, 15, 14, 21}) == std::vector<double>{6, 5});
}

TEST_CASE("More alterations share as the mean of two opposite orders, and sum to all of it", "[ask]") {
  const std::size_t n = 11;
  const std::vector<Made> sets = sets_needed(n);
  CHECK(sets.size() == 2 * n);
  const auto value = [](Made set) {  // a square of a weighted sum: every pair interacts
    double x = 1;
    for (std::size_t i = 0; i < 11; ++i)
      if (set >> i & 1) x += static_cast<double>(i);
    return x * x;
  };
  std::vector<double> values;
  for (const Made set : sets) values.push_back(value(set));
  const std::vector<double> found = shares(n, values);
  CHECK(std::accumulate(found.begin(), found.end(), 0.0) == Approx(value(sets.back()) - 1).epsilon(1e-14));
  CHECK(found[0] == 0);  // adds nothing, wherever it is made
  // Of a square the mean of two opposite orders is that of all: x_i (2 + Σ x) each.
  for (std::size_t i = 0; i < n; ++i) CHECK(found[i] == Approx(static_cast<double>(i) * (2 + 55)).margin(1e-9));
}

TEST_CASE("Alterations that cannot be made alone are put together, and no others", "[ask]") {
  using Groups = std::vector<std::vector<std::size_t>>;
  const auto together = [](Made set, std::size_t i, std::size_t j) { return (set >> i & 1) == (set >> j & 1); };
  CHECK(inseparable(4, [](Made) { return true; }) == Groups{{0}, {1}, {2}, {3}});
  CHECK(inseparable(4, [&](Made set) { return together(set, 1, 3); }) == Groups{{0}, {1, 3}, {2}});
  CHECK(inseparable(5, [&](Made set) { return together(set, 0, 4) && together(set, 4, 2); }) ==
        Groups{{0, 2, 4}, {1}, {3}});
  // One needs the other, but not the other way round: it cannot be made first.
  CHECK(inseparable(3, [](Made set) { return !(set & 1) || (set & 4); }) == Groups{{0, 2}, {1}});
  const Groups of_many = inseparable(12, [&](Made set) { return together(set, 2, 9); });
  CHECK(of_many.size() == 11);
  CHECK(of_many[2] == std::vector<std::size_t>{2, 9});
  CHECK(inseparable(0, [](Made) { return true; }).empty());
}

TEST_CASE("Bounds of a difference: by the nets, and by counts where they are a handful", "[ask]") {
  const Bounded flat = paired(2, std::vector<double>(16, 2.0));
  CHECK(flat.low == 2);
  CHECK(flat.high == 2);
  std::vector<double> nets(16);
  for (std::size_t i = 0; i < 16; ++i) nets[i] = i % 2 ? 1 : -1;
  CHECK(paired(0, nets).high == Approx(2.1314 * std::sqrt(16.0 / 15 / 16)).epsilon(1e-4));  // t of 15 at 0.975
  const std::vector<std::uint64_t> none(16, 0), many(16, 400);
  const Bounded nothing = paired_shortfall(none, none, 4096);
  CHECK(nothing.estimate == 0);
  CHECK(nothing.low < 0);
  CHECK(nothing.high == Approx(-nothing.low));
  CHECK(nothing.high == Approx(100 * (1 - std::pow(0.0125, 1.0 / 65536))).epsilon(1e-6));  // 0 of 65 536, 97.5 %
  const Bounded all = paired_shortfall(many, none, 4096);
  CHECK(all.estimate == Approx(100 * 400.0 / 4096));
  CHECK(all.low < all.estimate);
  CHECK(all.low > 9.7);
}
