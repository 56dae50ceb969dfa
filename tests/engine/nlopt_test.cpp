#include "engine/search/nlopt_once.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <set>
#include <stdexcept>
#include <thread>

using namespace engine;

namespace {

using Value = BoxProblem::Value;
using Point = std::vector<double>;
using Status = BoxMinimum::Status;
constexpr double inf = std::numeric_limits<double>::infinity();

/// NLopt's tutorial: least √x2 with x2 ≥ (2 x1)³ and x2 ≥ (1 − x1)³; answer √(8/27) at (1/3, 8/27).
BoxProblem tutorial() {
  return {{-10, 0}, {10, 10}, 2, [](const Point& x) {
            return Value{std::sqrt(x[1]), {std::pow(2 * x[0], 3) - x[1], std::pow(1 - x[0], 3) - x[1]}};
          }};
}

/// (x − 0.2)² over [0, 1] with x ≥ least.
BoxProblem parabola(double least) {
  return {{0}, {1}, 1, [least](const Point& x) { return Value{(x[0] - 0.2) * (x[0] - 0.2), {least - x[0]}}; }};
}

}  // namespace

TEST_CASE("The problem of NLopt's tutorial is solved to a point that holds", "[published]") {
  const BoxMinimum m = minimise(tutorial(), {1.234, 5.678}, {2000, 1e-10, 0});
  CHECK(m.status == Status::converged);
  CHECK(m.objective == Approx(.5443310539518).epsilon(1e-6));
  CHECK(m.objective >= .5443310539518 - 1e-12);  // what it returns holds, so it is never below the minimum
  CHECK(m.x[0] == Approx(1 / 3.0).epsilon(1e-4));
  CHECK(m.violation <= 0);
}

TEST_CASE("Hock and Schittkowski's problem 71 is solved with its equality as the bound that holds it", "[published]") {
  // Test Examples for Nonlinear Programming Codes (1981), 71: 17.0140173 at (1, 4.7429994, 3.8211503, 1.3794082). Its
  // Σx² = 40 becomes Σx² ≤ 40, which is active at the minimum (its multiplier is above 0).
  const BoxProblem p{Point(4, 1), Point(4, 5), 2, [](const Point& x) {
                       double product = 1, squares = 0;
                       for (const double v : x) product *= v, squares += v * v;
                       return Value{x[0] * x[3] * (x[0] + x[1] + x[2]) + x[2], {25 - product, squares - 40}};
                     }};
  const BoxMinimum m = minimise(p, {1, 5, 5, 1}, {5000, 1e-10, 0});
  CHECK(m.status == Status::converged);
  CHECK(m.objective == Approx(17.0140172892).epsilon(1e-5));
  CHECK(m.objective >= 17.0140172892 - 1e-8);
  CHECK(m.x[1] == Approx(4.743).margin(2e-2));
  CHECK(m.violation <= 0);
}

TEST_CASE("A tolerance on feasibility is kept to", "[limit]") {
  const BoxMinimum m = minimise(parabola(0.5), {0.9}, {400, 1e-9, 1e-3});
  CHECK(m.violation <= 1e-3);
  CHECK(m.x[0] >= 0.5 - 1e-3);
  CHECK(minimise(parabola(0.5), {0.9}).x[0] >= 0.5);
  CHECK(minimise(parabola(0.1), {0.9}).x[0] == Approx(0.2).margin(1e-3));
}

TEST_CASE("A region without values is kept out of", "[limit]") {
  for (const double none : {std::nan(""), inf}) {
    const BoxProblem p{{0, 0}, {1, 1}, 1, [none](const Point& x) {
                         const bool exists = x[0] + x[1] >= 0.6;
                         return Value{exists ? x[0] + 2 * x[1] : none, {exists ? 0.3 - x[0] : none}};
                       }};
    const BoxMinimum m = minimise(p, {0.9, 0.9}, {2000, 1e-8, 0});
    CHECK(m.status != Status::nothing_feasible);
    CHECK(m.x[0] + m.x[1] >= 0.6);
    CHECK(m.objective < 1.2);  // well below the 2.7 of the start; the kink at the border is no smooth problem
    CHECK(m.violation <= 0);
  }
}

TEST_CASE("A constraint that nothing presses on holds", "[limit]") {
  // −infinity is as far below 0 as can be: a margin without demand, such as stripping without a force.
  const BoxProblem p{{0}, {1}, 2, [](const Point& x) { return Value{x[0], {-inf, 0.25 - x[0]}}; }};
  const BoxMinimum m = minimise(p, {0.9});
  CHECK(m.status == Status::converged);
  CHECK(m.violation == 0);
  CHECK(m.x[0] == Approx(0.25).margin(1e-3));
}

TEST_CASE("What the model throws comes out word for word", "[limit]") {
  int calls = 0;
  const BoxProblem p{{0}, {1}, 1, [&](const Point&) -> Value {
                       if (++calls == 4) throw std::domain_error("the nut has come off at pass 4");
                       return {1.0 / calls, {0}};
                     }};
  CHECK_THROWS_WITH(minimise(p, {0.5}), "the nut has come off at pass 4");
  CHECK_THROWS_AS(minimise({{0}, {1}, 0, [](const Point&) -> Value { throw std::domain_error("at once"); }}, {0.5}),
                  std::domain_error);
}

TEST_CASE("A problem that nothing satisfies says so and gives the least bad point", "[limit]") {
  const BoxMinimum m = minimise(parabola(2), {0.3});
  CHECK(m.status == Status::nothing_feasible);
  CHECK(m.violation == Approx(1).margin(1e-3));
  CHECK(m.x[0] == Approx(1).margin(1e-3));
}

TEST_CASE("A search cut short says so and still gives a point that holds", "[limit]") {
  const BoxMinimum m = minimise(tutorial(), {0, 5}, {8, 1e-12, 0});
  CHECK(m.status == Status::capped);
  CHECK(m.violation <= 0);
  CHECK(m.calls <= 8);
}

TEST_CASE("Objective and constraints of one point share one call", "[limit]") {
  BoxProblem p = tutorial();
  int calls = 0;
  std::vector<Point> asked;
  const auto inner = p.evaluate;
  p.evaluate = [&](const Point& x) {
    ++calls;
    asked.push_back(x);
    return inner(x);
  };
  const BoxMinimum m = minimise(p, {1.234, 5.678}, {300, 1e-8, 0});
  CHECK(m.calls == calls);
  CHECK(calls <= 300);
  for (std::size_t i = 1; i < asked.size(); ++i) CHECK(asked[i] != asked[i - 1]);
  const Value again = inner(m.x);
  CHECK(again.objective == m.objective);
  for (const Point& x : asked)
    for (std::size_t k = 0; k < 2; ++k) REQUIRE((x[k] >= p.lower[k] && x[k] <= p.upper[k]));
}

TEST_CASE("The same search gives the same bits twice", "[limit]") {
  const BoxMinimum one = minimise(tutorial(), {1.234, 5.678}), other = minimise(tutorial(), {1.234, 5.678});
  CHECK((one.x == other.x && one.objective == other.objective && one.calls == other.calls));
}

TEST_CASE("Evolution draws the same numbers in every thread, and others with another key", "[limit]") {
  // NLopt keeps one state of random numbers a thread: a search must not see what others drew.
  const BoxProblem p{Point(3, -4), Point(3, 5), 1, [](const Point& x) {
                       double sum = 0;
                       for (const double v : x) sum += v * v - 3 * std::cos(7 * v);
                       return Value{sum, {0.5 - x[0]}};
                     }};
  BoxOptions options;
  options.method = Method::evolution;
  options.evaluations = 2000;
  options.key = 7;
  const BoxMinimum here = minimise(p, {1, 1, 1}, options);
  CHECK(here.status == Status::capped);
  CHECK(here.holds);
  std::vector<BoxMinimum> there(4);
  std::vector<std::thread> threads;
  for (std::size_t t = 0; t < there.size(); ++t)
    threads.emplace_back([&, t] {
      BoxOptions other = options;
      other.key = t;
      minimise(p, {1, 1, 1}, other);
      there[t] = minimise(p, {1, 1, 1}, options);
    });
  for (std::thread& thread : threads) thread.join();
  for (const BoxMinimum& m : there) CHECK((m.x == here.x && m.objective == here.objective));
  options.key = 8;
  CHECK(minimise(p, {1, 1, 1}, options).x != here.x);
}

TEST_CASE("Slopes come to the minimum within a few calls", "[published]") {
  BoxOptions options;
  options.method = Method::slopes;
  options.beyond = 1e-10;
  options.tolerance = 1e-10;
  const BoxMinimum m = minimise(tutorial(), {1.234, 5.678}, options);
  CHECK(m.objective == Approx(.5443310539518).epsilon(1e-9));
  CHECK(m.objective >= .5443310539518 - 1e-13);
  CHECK(m.violation == 0);
  CHECK(m.calls < 150);
}

TEST_CASE("Slopes are never taken outside the box", "[limit]") {
  BoxOptions options;
  options.method = Method::slopes;
  options.difference = 0.2;
  int outside = 0;
  const BoxProblem p{{0, 0.5}, {1, 0.5}, 1, [&](const Point& x) {
                       outside += x[0] < 0 || x[0] > 1 || x[1] != 0.5;
                       return Value{-x[0] * x[1], {x[0] - 2}};
                     }};
  const BoxMinimum m = minimise(p, {0.3, 0.5}, options);
  CHECK(outside == 0);
  CHECK(m.x[0] == Approx(1));
}

TEST_CASE("Every method survives a model without values anywhere, and says so", "[limit]") {
  for (const Method method : {Method::linear_models, Method::slopes, Method::evolution})
    for (const double none : {std::nan(""), inf, -inf}) {
      BoxOptions options;
      options.method = method;
      const BoxProblem p{{0, 0}, {1, 1}, 1, [none](const Point&) { return Value{none, {none}}; }};
      const BoxMinimum m = minimise(p, {0.5, 0.5}, options);
      CHECK(m.status == Status::nothing_feasible);
      CHECK_FALSE(m.holds);
      CHECK(m.missing > 0);
      CHECK(m.calls <= 400);
    }
}

TEST_CASE("A search that is interrupted stops with the best so far", "[limit]") {
  std::atomic<bool> stop = false;
  BoxOptions options;
  options.interrupted = &stop;
  BoxProblem p = tutorial();
  int calls = 0;
  p.evaluate = [&, inner = p.evaluate](const Point& x) {
    if (++calls == 20) stop = true;
    return inner(x);
  };
  for (const Method method : {Method::linear_models, Method::slopes, Method::evolution}) {
    options.method = method;
    stop = false;
    calls = 0;
    const BoxMinimum m = minimise(p, {0, 5}, options);
    CHECK(m.status == Status::interrupted);
    CHECK(m.calls <= 21);
    CHECK(m.holds);
  }
}

TEST_CASE("A search that runs out of time says so", "[limit]") {
  BoxOptions options;
  options.seconds = 1e-9;
  const BoxMinimum m = minimise(tutorial(), {0, 5}, options);
  CHECK(m.status == Status::timed_out);
  CHECK(m.calls <= 2);
}

TEST_CASE("A model that gives two values at one point is found out", "[limit]") {
  int calls = 0;
  const BoxProblem p{{0}, {1}, 0, [&](const Point& x) { return Value{x[0] * x[0] + 1e-6 * ++calls, {}}; }};
  CHECK_THROWS_AS(minimise(p, {0.7}), std::logic_error);
}

TEST_CASE("A box or start that makes no sense is refused", "[limit]") {
  const auto f = [](const Point& x) { return Value{x[0], {}}; };
  CHECK_THROWS_AS(minimise({{1}, {0}, 0, f}, {0.5}), std::invalid_argument);
  CHECK_THROWS_AS(minimise({{0}, {1}, 0, f}, {0.5, 0.5}), std::invalid_argument);
  CHECK_THROWS_AS(minimise({{0}, {1}, 0, f}, {std::nan("")}), std::invalid_argument);
  CHECK(minimise({{0}, {1}, 0, f}, {7}).x[0] == Approx(0).margin(1e-6));  // a start outside is moved in
  BoxOptions evolution;
  evolution.method = Method::evolution;
  CHECK_THROWS_AS(minimise({{0}, {inf}, 0, f}, {0.5}, evolution), std::invalid_argument);
}
