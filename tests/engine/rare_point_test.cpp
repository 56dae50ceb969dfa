#include <catch2/catch.hpp>
#include <cmath>

#include "engine/rare/design_point.hpp"
#include "engine/rare/vectors.hpp"
#include "tests/engine/rare_examples.hpp"

using namespace engine::rare;
using rare_examples::example;

namespace {

FirstOrder points_of(const std::string& name, std::uint64_t key = 1) {
  return design_points(*example(name).state, {}, {}, key);
}

}  // namespace

TEST_CASE("The design point of strength less load is known in closed form", "[published]") {
  const FirstOrder found = points_of("R - S, normal");
  // x* = (180, 180), alpha = (0.447, -0.894) of strength and load, in the sense of failure (-, +); closed form.
  REQUIRE(found.points.size() == 1);
  CHECK(found.beta == Approx(100 / std::sqrt(500.0)).epsilon(1e-9));
  CHECK(200 + 10 * found.points[0].u[0] == Approx(180).epsilon(1e-8));
  CHECK(100 + 20 * found.points[0].u[1] == Approx(180).epsilon(1e-8));
  CHECK(found.points[0].alpha[0] == Approx(-1 / std::sqrt(5.0)).epsilon(1e-8));
  CHECK(found.points[0].alpha[1] == Approx(2 / std::sqrt(5.0)).epsilon(1e-8));
}

TEST_CASE("First-order reliability indices of the literature", "[published]") {
  // Lognormal strength and load, closed form; x* = 172.4512 both.
  const FirstOrder both = points_of("R - S, lognormal");
  CHECK(both.beta == Approx(3.1918687664).epsilon(1e-6));
  // Ang & Tang II ch. 6: 3.05, from memory; recomputed 3.04907 at (28.5504, 48.3083, 1379.219).
  const FirstOrder beam = points_of("YZ - M, normal");
  CHECK(beam.beta == Approx(3.04907).margin(5e-5));
  CHECK(40 + 5 * beam.points[0].u[0] == Approx(28.5504).epsilon(3e-3));
  // Ang & Tang: 2.75 or so, from memory and unsure; recomputed 2.74224.
  CHECK(points_of("YZ - M, lognormal and Gumbel").beta == Approx(2.74224).margin(5e-5));
  CHECK(points_of("convex").beta == Approx(2.5).epsilon(1e-5));
}

TEST_CASE("Importance factors sum to one", "[limit]") {
  for (const char* name : {"R - S, normal", "concrete beam", "two design points", "four branches, k 7"})
    for (const DesignPoint& p : points_of(name).points) CHECK(dot(p.alpha, p.alpha) == Approx(1).epsilon(1e-12));
}

TEST_CASE("Every design point is found, not the nearest alone", "[published]") {
  for (const std::uint64_t key : {1u, 2u, 3u, 4u, 5u}) {
    // Haldar & Mahadevan (2000) p. 218: 3.833, from memory; the second, where the concrete crumbles, recomputed 3.8603.
    const FirstOrder beam = points_of("concrete beam", key);
    REQUIRE(beam.points.size() >= 2);
    CHECK(beam.points[0].beta == Approx(3.83303).margin(5e-5));
    CHECK(beam.points[1].beta == Approx(3.8603).margin(1e-4));
    CHECK(3.5 * (1 + 0.21 * beam.points[1].u[2]) == Approx(0.709).margin(2e-3));
    // Der Kiureghian & Dakessian (1998): nearest 2.9057, the other on the far side of u1 = 0.1.
    const FirstOrder bowl = points_of("two design points", key);
    REQUIRE(bowl.points.size() == 2);
    CHECK(bowl.points[0].beta == Approx(2.9057).margin(5e-5));
    CHECK(bowl.points[0].u[0] * bowl.points[1].u[0] < 0);
    // Four branches: two bows at distance 3, two planes at k/2 (k = 6: 3, k = 7: 3.5).
    for (const double k : {6.0, 7.0}) {
      const FirstOrder four = points_of(k == 6 ? "four branches, k 6" : "four branches, k 7", key);
      REQUIRE(four.points.size() == 4);
      for (std::size_t i = 0; i < 4; ++i) CHECK(four.points[i].beta == Approx(i < 2 ? 3 : k / 2).epsilon(1e-5));
    }
  }
}

TEST_CASE("A thousand dimensions have their one point", "[limit]") {
  const FirstOrder found = points_of("linear, n 1000");
  REQUIRE(found.points.size() == 1);
  CHECK(found.beta == Approx(6).epsilon(1e-9));
  CHECK(found.p == Approx(9.86587645037698e-10).epsilon(1e-6));
}

TEST_CASE("A first-order answer is no probability where the surface bends", "[published]") {
  // Sphere of radius 14 in 100 dimensions: Phi(-14) = 7.8e-45 where the odds are 3.3e-8.
  const FirstOrder found = points_of("sphere, n 100");
  CHECK(found.beta == Approx(14).epsilon(1e-4));
  CHECK(found.p < 1e-40);
}

TEST_CASE("Where the origin fails the distance is negative", "[limit]") {
  const rare_examples::Pointwise state(2, [](const Point& u) { return -2 - u[0]; });
  const FirstOrder found = design_points(state, {}, {}, 1);
  CHECK(found.beta == Approx(-2).epsilon(1e-9));
  CHECK(found.p == Approx(engine::normal_distribution(2)).epsilon(1e-9));
}

TEST_CASE("Without a failure there is no point", "[limit]") {
  const rare_examples::Pointwise state(2, [](const Point&) { return 1.0; });
  const FirstOrder found = design_points(state, {}, {}, 1);
  CHECK(found.points.empty());
  CHECK(found.p == 0);
}
