#include "engine/matter/swings.hpp"

#include <catch2/catch.hpp>

#include "tests/engine/matter_models.hpp"

using namespace matter_tests;

TEST_CASE("A swing goes from an input's 5 % to its 95 % quantile, the others at nominal") {
  const Law law({0, 0, 10}, {-inf, -inf, -inf}, {{0, false, normal(3, 2)}, {1, false, uniform(0, 1)}}, {});
  const Function f(3, [](const auto& x) { return x[0] * x[2] + x[1]; });
  const std::vector<Swing> s = swings(law, f, 0, {3, 0.5, 10}, 1);
  REQUIRE(s.size() == 2);  // the third input does not scatter
  const double z = normal_quantile(0.95);
  CHECK(s[0].input == 0);
  CHECK(s[0].from == Approx(3 - 2 * z).margin(5e-3));
  CHECK(s[0].to == Approx(3 + 2 * z).margin(5e-3));
  CHECK(s[0].at_from == Approx(10 * s[0].from + 0.5));
  CHECK(s[0].at_to == Approx(10 * s[0].to + 0.5));
  CHECK(s[1].from == Approx(0.05).margin(1e-3));
  CHECK(s[1].at_to == Approx(30.95).margin(1e-3));
}

TEST_CASE("An input of several parts swings over the quantiles of their sum, and floors hold") {
  const Law law({5, 0}, {-inf, 0}, {{0, false, normal(0, 3)}, {0, false, normal(0, 4)}, {1, false, normal(0, 1)}}, {});
  const std::vector<Swing> s = swings(law, linear({1, 1}), 0, {5, 0}, 1);
  REQUIRE(s.size() == 2);
  CHECK(s[0].to == Approx(5 + 5 * normal_quantile(0.95)).margin(0.05));
  CHECK(s[1].from == 0);
}
