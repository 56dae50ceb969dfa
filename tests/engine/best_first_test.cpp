#include "engine/search/best_first.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>

using namespace engine;

namespace {

/// What becomes of one candidate as it is looked at.
struct Fate {
  double bound = 0, judged = 0;
  int rises = 0;  ///< times that fresh passes send it back with a larger value
  bool fails_judged = false, fails_confirmed = false;

  bool out() const { return std::isnan(bound) || fails_judged || fails_confirmed; }
  double last() const { return std::max(judged, bound) + 0.25 * rises; }
};

struct Shop {
  std::vector<Fate> fates;
  std::vector<int> judged, confirmed, rises;  ///< looks at each
  std::vector<double> dearest;                ///< value at which each was looked at last

  explicit Shop(std::vector<Fate> all)
      : fates(std::move(all)),
        judged(fates.size()),
        confirmed(fates.size()),
        rises(fates.size()),
        dearest(fates.size(), -1) {}

  std::optional<Standing> look(std::size_t i, Standing at) {
    const Fate& f = fates[i];
    CHECK(at.value >= dearest[i]);
    dearest[i] = at.value;
    if (at.stage == Stage::bounded) {
      ++judged[i];
      if (f.fails_judged) return std::nullopt;
      return Standing{Stage::judged, f.judged};
    }
    CHECK(at.stage == Stage::judged);
    ++confirmed[i];
    if (rises[i] < f.rises) return Standing{Stage::judged, std::max(f.judged, f.bound) + 0.25 * ++rises[i]};
    if (f.fails_confirmed) return std::nullopt;
    return Standing{Stage::confirmed, at.value};
  }

  std::vector<std::size_t> search() {
    std::vector<double> bounds;
    for (const Fate& f : fates) bounds.push_back(f.bound);
    return best_first(bounds, [this](std::size_t i, Standing at) { return look(i, at); });
  }

  /// By looking at them all.
  std::vector<std::size_t> brute_force() const {
    double least = std::numeric_limits<double>::infinity();
    for (const Fate& f : fates)
      if (!f.out()) least = std::min(least, f.last());
    std::vector<std::size_t> winners;
    for (std::size_t i = 0; i < fates.size(); ++i)
      if (!fates[i].out() && fates[i].last() <= least * (1 + 1e-9)) winners.push_back(i);
    return winners;
  }
};

/// Few different values, so that ties are common.
Shop random_shop(std::mt19937_64& dice) {
  std::vector<Fate> fates(dice() % 25);
  for (Fate& f : fates) {
    f.bound = dice() % 12 == 0 ? std::nan("") : 1 + 0.25 * static_cast<double>(dice() % 12);
    f.judged = f.bound + 0.25 * static_cast<double>(dice() % 4);
    f.rises = dice() % 4 == 0 ? static_cast<int>(dice() % 3) : 0;
    f.fails_judged = dice() % 3 == 0;
    f.fails_confirmed = dice() % 4 == 0;
  }
  return Shop(fates);
}

}  // namespace

TEST_CASE("The search finds what looking at every candidate finds, ties included", "[limit]") {
  std::mt19937_64 dice(20);
  std::size_t tied = 0, empty = 0;
  for (int round = 0; round < 3000; ++round) {
    Shop shop = random_shop(dice);
    const auto winners = shop.search();
    REQUIRE(winners == shop.brute_force());
    tied += winners.size() > 1;
    empty += winners.empty();
  }
  CHECK(tied > 300);  // the instances have what the test is about
  CHECK(empty > 30);
}

TEST_CASE("A candidate is looked at only when no other can still beat it", "[limit]") {
  std::mt19937_64 dice(21);
  std::size_t spared = 0;
  for (int round = 0; round < 3000; ++round) {
    Shop shop = random_shop(dice);
    const auto winners = shop.search();
    const double least =
        winners.empty() ? std::numeric_limits<double>::infinity() : shop.fates[winners[0]].last() * (1 + 1e-9);
    for (std::size_t i = 0; i < shop.fates.size(); ++i) {
      REQUIRE(shop.judged[i] <= 1);
      REQUIRE(shop.confirmed[i] <= 1 + shop.fates[i].rises);
      if (std::isnan(shop.fates[i].bound))
        REQUIRE(shop.judged[i] == 0);
      else if (shop.fates[i].bound <= least)
        REQUIRE(shop.judged[i] == 1);  // the proof needs it
      else
        REQUIRE(shop.judged[i] == 0);  // the proof does not
      if (shop.judged[i] && !shop.fates[i].fails_judged && shop.fates[i].judged > least)
        REQUIRE(shop.confirmed[i] == 0);
      spared += !shop.judged[i];
    }
  }
  CHECK(spared > 3000);
}

TEST_CASE("A candidate that fresh passes send back can lose to a dearer one", "[limit]") {
  Shop shop(
      {{1, 1, 3, false, false}, {1.5, 1.5, 0, false, false}, {1.5 * (1 + 1e-10), 1.5 * (1 + 1e-10), 0, false, false}});
  CHECK(shop.search() == std::vector<std::size_t>{1, 2});
  CHECK(shop.confirmed[0] == 3);
}

TEST_CASE("Without candidates, or with none that passes, nobody wins", "[limit]") {
  CHECK(Shop({}).search().empty());
  CHECK(Shop({{std::nan(""), 1, 0, false, false}}).search().empty());
  CHECK(Shop({{1, 1, 0, true, false}, {2, 2, 0, false, true}}).search().empty());
}
