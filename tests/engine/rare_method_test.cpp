#include <catch2/catch.hpp>
#include <cmath>

#include "engine/rare/direct.hpp"
#include "engine/rare/importance.hpp"
#include "engine/rare/proposal.hpp"
#include "engine/rare/subset.hpp"
#include "engine/rare/vectors.hpp"
#include "tests/engine/rare_examples.hpp"

using namespace engine;
using namespace engine::rare;
using rare_examples::example;
using rare_examples::Pointwise;

namespace {

/// Four standard errors, with power: the same distance from a value a fifth off must be refused.
void check_near(double p, double spread, double exact) {
  CHECK(std::abs(p - exact) < 4 * spread);
  CHECK(std::abs(p - 0.6 * exact) > 4 * spread);
}

Running threads(unsigned n) {
  Running running;
  running.threads = n;
  return running;
}

}  // namespace

TEST_CASE("Subset simulation finds known odds from common to rarer than 1e-9", "[statistical]") {
  for (const char* name : {"R - S, normal", "sphere, n 10", "exponentials, n 20 lower 1e-6", "parallel, correlation 0",
                           "four branches, k 7", "exponentials, n 20 upper 1e-9"}) {
    INFO(name);
    const Subset s = subset(*example(name).state, {}, 7, 0, threads(2));
    check_near(s.p, s.spread, example(name).exact);
    CHECK(s.interval.low < s.p);
    CHECK(s.p < s.interval.high);
  }
  // Phi(-8) = 6.22e-16.
  const Pointwise plane(3, [](const Point& u) { return 8 - (u[0] + u[1] + u[2]) / std::sqrt(3.0); });
  const Subset s = subset(plane, {}, 7, 0);
  check_near(s.p, s.spread, 6.22096057427178e-16);
  CHECK(s.levels == 16);
}

TEST_CASE("The failures subset simulation hands over have failed", "[limit]") {
  const Subset s = subset(*example("R - S, normal").state, {}, 3, 0);
  REQUIRE(s.failures.size() > 1000);
  for (const Point& u : s.failures) REQUIRE(100 + 10 * u[0] - 20 * u[1] <= 0);
}

TEST_CASE("Margins that come in steps, end in a plateau or are missing do not mislead subset simulation",
          "[statistical]") {
  const double exact = normal_distribution(-4);
  const double inf = std::numeric_limits<double>::infinity(), nan = std::numeric_limits<double>::quiet_NaN();
  const Pointwise stepped(2, [](const Point& u) { return std::floor(2 * (4 - u[0])) + 0.5; });
  const Pointwise plateau(2, [&](const Point& u) { return u[0] < 1 ? inf : 4 - u[0]; });
  const Pointwise missing(2, [&](const Point& u) { return u[0] >= 4 ? nan : 5 - u[0]; });
  for (const Pointwise* state : {&stepped, &plateau, &missing}) {
    const Subset s = subset(*state, {}, 5, 0);
    check_near(s.p, s.spread, exact);
  }
}

TEST_CASE("A failure that cannot be is given up on", "[limit]") {
  const Pointwise safe(2, [](const Point& u) { return 1 + std::max(0.0, 2 - u[0]); });
  const Subset s = subset(safe, {}, 1, 0);
  CHECK(s.p == 0);
  CHECK(s.stuck == 16);
  const Pointwise far(1, [](const Point& u) { return 12 - u[0]; });
  const Subset gone = subset(far, {}, 1, 0);
  CHECK(gone.p == 0);
  CHECK(gone.stuck == 0);
}

TEST_CASE("Weights of a mixture average one, whatever its bumps", "[statistical]") {
  const double half = std::sqrt(0.5);
  const Mixture mixture({{{half, half, 0}, 2, 0.7, 1.2, 3}, {{0, 0, 1}, 1, 1, 1, 1}, {{1, 0, 0}, 0, 1.5, 1.5, 1}});
  CHECK(mixture.bumps()[0].weight == 0.6);
  const Normals normals(1, Use::importance, 0);
  Block u(3);
  std::vector<double> w;
  double sum = 0, squares = 0, n = 0;
  for (std::uint64_t block = 0; block < 64; ++block) {
    mixture.draw(normals, block, u);
    mixture.weigh(u, w);
    for (const double x : w) sum += x, squares += x * x, ++n;
  }
  const double error = std::sqrt((squares / n - 1) / n);
  CHECK(error < 0.02);
  CHECK(std::abs(sum / n - 1) < 4 * error);
}

TEST_CASE("Importance sampling around one plane's point is exact to its bounds", "[statistical]") {
  const auto& e = example("linear, n 100");
  const FirstOrder first = design_points(*e.state, {}, {}, 1);
  const Importance i = importance(*e.state, proposal(first, {}, 100), {}, 1, 0, threads(2));
  CHECK(i.reached);
  check_near(i.p, i.spread, e.exact);
  CHECK(i.effective > 1000);
  CHECK(i.interval.high - i.p <= 0.03 * i.p);
}

TEST_CASE("Importance sampling where no failure is found says so", "[limit]") {
  const Pointwise safe(2, [](const Point&) { return 1.0; });
  const Importance i = importance(safe, proposal({}, {}, 2), {0.03, 1u << 15}, 1, 0);
  CHECK(i.p == 0);
  CHECK(i.interval.low == 0);
  CHECK(i.interval.high == 1);
  CHECK_FALSE(i.reached);
}

TEST_CASE("Same key, same bits on any number of threads; another key, other draws", "[limit]") {
  const auto& e = example("concrete beam");
  SubsetOptions small;
  small.chains = 64;
  const Subset one = subset(*e.state, small, 1, 0, threads(1)), three = subset(*e.state, small, 1, 0, threads(3));
  CHECK(one.runs == three.runs);
  CHECK(one.failures == three.failures);
  CHECK(subset(*e.state, small, 2, 0).runs != one.runs);
  CHECK(subset(*e.state, small, 1, 1).runs != one.runs);
  const FirstOrder first = design_points(*e.state, {}, one.failures, 1, threads(1)),
                   again = design_points(*e.state, {}, one.failures, 1, threads(3));
  REQUIRE(first.points.size() == again.points.size());
  for (std::size_t k = 0; k < first.points.size(); ++k) CHECK(first.points[k].u == again.points[k].u);
  CHECK(first.calls == again.calls);
  const Mixture mixture = proposal(first, one.failures, 7);
  const Importance i = importance(*e.state, mixture, {}, 1, 0, threads(1));
  CHECK(importance(*e.state, mixture, {}, 1, 0, threads(3)).p == i.p);
  CHECK(importance(*e.state, mixture, {}, 2, 0).p != i.p);
  CHECK(direct(*e.state, 1 << 17, 1, 0, threads(1)).failures == direct(*e.state, 1 << 17, 1, 0, threads(3)).failures);
}
