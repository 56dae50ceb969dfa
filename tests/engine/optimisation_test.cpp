#include <catch2/catch.hpp>
#include <cmath>

#include "tests/engine/optimisation_problems.hpp"

using namespace engine;
using namespace optimisation;

namespace {

using Point = std::vector<double>;
using Status = BoxMinimum::Status;
using Value = BoxProblem::Value;

StartOptions by(Method method, std::uint64_t key = 1) {
  StartOptions options;
  options.local.method = method;
  options.local.evaluations = 4000;
  options.local.tolerance = 1e-10;
  if (method == Method::slopes) options.local.beyond = 1e-10;
  options.key = key;
  return options;
}

/// Whether a minimum holds, and agrees to `share` with one that is known to the digits printed.
void check_least(const BoxMinimum& found, double least, double share) {
  CHECK(found.holds);
  CHECK(found.violation <= 0);  // so that it cannot be below the minimum by being outside
  CHECK(found.objective == Approx(least).epsilon(share));
  CHECK(found.objective >= least * (1 - 2e-9));  // the printed digits
}

}  // namespace

TEST_CASE("Published minima are found without a start by hand, at points that hold", "[published]") {
  for (const Known& known : continuous())
    for (const Method method : {Method::linear_models, Method::slopes}) {
      INFO(known.name << ": " << known.source);
      const GlobalMinimum found = minimise_globally(known.problem, by(method));
      const bool few_digits = known.at.empty();  // of the third welded beam seven are known
      CHECK(found.best.status == Status::converged);
      if (few_digits)
        CHECK(found.best.objective == Approx(known.least).epsilon(2.5e-7));
      else
        check_least(found.best, known.least, 5e-9);
      CHECK(found.best.violation <= 0);
      for (std::size_t d = 0; d < known.at.size(); ++d) CHECK(found.best.x[d] == Approx(known.at[d]).epsilon(1e-3));
    }
}

TEST_CASE("The three ways to write the welded beam's J are three problems", "[published]") {
  // Each minimum is far outside the tolerance of the others' checks.
  std::vector<double> least;
  for (const BeamJ j : {BeamJ::standard, BeamJ::l_over_four, BeamJ::h_over_root})
    least.push_back(minimise_globally(welded_beam(j), by(Method::linear_models)).best.objective);
  CHECK(least[0] == Approx(1.724852309).epsilon(1e-8));
  CHECK(least[1] == Approx(1.695247165).epsilon(1e-8));
  CHECK(least[2] == Approx(2.218151).epsilon(2.5e-7));
}

TEST_CASE("Ten keys of starts all lead to the published minima", "[published][statistical]") {
  for (const Known& known : continuous())
    for (std::uint64_t key = 1; key <= 10; ++key) {
      INFO(known.name << ", key " << key);
      CHECK(minimise_globally(known.problem, by(Method::slopes, key)).best.objective ==
            Approx(known.least).epsilon(1e-6));
    }
}

TEST_CASE("Several minima are told apart, and the least of them is found", "[published]") {
  // Six-hump camel, Dixon & Szegő (1978): −1.0316284535 at ±(0.08984201, −0.71265640); six minima in the box. From
  // memory.
  const BoxProblem camel{{-3, -2}, {3, 2}, 0, [](const Point& p) {
                           const double x = p[0] * p[0], y = p[1] * p[1];
                           return Value{(4 - 2.1 * x + x * x / 3) * x + p[0] * p[1] + (4 * y - 4) * y, {}};
                         }};
  StartOptions options = by(Method::linear_models);
  const GlobalMinimum found = minimise_globally(camel, options);
  CHECK(found.best.objective == Approx(-1.0316284535).epsilon(1e-9));
  CHECK(found.best.status == Status::converged);
  CHECK(found.minima >= 4);
  CHECK(found.minima <= 7);  // six, and a search that may have stopped on the way
  CHECK(found.agreeing < found.searches);
  CHECK(found.unseen < 0.1);
  options.least = options.most = 2;
  options.tried = 1;
  const GlobalMinimum two = minimise_globally(camel, options);
  CHECK(two.best.status == Status::capped);  // two searches are too few to say that nothing was missed
  CHECK(two.unseen > 0.9);
}

TEST_CASE("The search does not depend on the number of threads", "[limit]") {
  for (const Method method : {Method::slopes, Method::evolution}) {
    StartOptions options = by(method, 3);
    options.local.evaluations = 600;
    const GlobalMinimum one = minimise_globally(spring(), options);
    options.threads = 3;
    const GlobalMinimum three = minimise_globally(spring(), options);
    CHECK((one.best.x == three.best.x && one.best.objective == three.best.objective && one.calls == three.calls));
    options.key = 4;
    CHECK(minimise_globally(spring(), options).best.x != one.best.x);
  }
}

TEST_CASE("The pressure vessel's least cost is proved by bounds over all pairs of walls", "[published]") {
  for (const double longest : {200.0, 240.0}) {
    const KnownMixed known = pressure_vessel(longest);
    INFO(known.name << ": " << known.source);
    const MixedMinimum found = minimise_mixed(known.problem, by(Method::slopes));
    CHECK(found.status == Status::converged);
    check_least(found.inner.best, known.least, 5e-9);
    CHECK(found.chosen == known.chosen);
    for (std::size_t d = 0; d < 2; ++d) CHECK(found.inner.best.x[d] == Approx(known.at[d]).epsilon(1e-6));
    CHECK(found.cells == 9801);
    CHECK(found.searched < 400);
    CHECK(found.empty == 0);
  }
}

TEST_CASE("The bounds of the pressure vessel's cells lie below what is found in them", "[limit]") {
  const KnownMixed known = pressure_vessel(200);
  for (double shell = .625; shell < 2; shell += .3125)
    for (double head = .3125; head < 1.2; head += .1875) {
      const double bound = known.problem.bound({shell, head});
      const GlobalMinimum found = minimise_globally(vessel(shell, head, 200), by(Method::slopes));
      INFO(shell << " " << head << ": " << bound << " " << found.best.objective);
      CHECK(found.best.holds == !std::isnan(bound));
      if (found.best.holds) CHECK(bound <= found.best.objective);
    }
}

TEST_CASE("The pressure vessel by plain enumeration of walls and radii gives the same", "[published]") {
  // With walls and R given, the least L that gives the volume is the best: what is left is one line, walked finely.
  constexpr double pi = 3.14159265358979323846;
  double least = 1e9;
  for (int i = 1; i <= 99; ++i)
    for (int k = 1; k <= 99; ++k) {
      const double shell = .0625 * i, head = .0625 * k, widest = std::min({200.0, shell / .0193, head / .00954});
      constexpr int steps = 1000;
      for (int s = 0; s <= steps && widest >= 10; ++s) {
        const double r = 10 + (widest - 10) * s / steps;
        const double l = std::max(10.0, (1296000 - 4.0 / 3 * pi * r * r * r) / (pi * r * r));
        if (l <= 200)
          least = std::min(least, .6224 * shell * r * l + 1.7781 * head * r * r + 3.1661 * shell * shell * l +
                                      19.84 * shell * shell * r);
      }
    }
  CHECK(least == Approx(6059.714335048436).epsilon(1e-9));  // the best lies at the widest radius: the last step
}

TEST_CASE("The speed reducer's teeth are chosen with proof", "[published]") {
  for (const double least_x5 : {7.3, 7.8}) {
    const KnownMixed known = speed_reducer_mixed(least_x5);
    INFO(known.name << ": " << known.source);
    const MixedMinimum found = minimise_mixed(known.problem, by(Method::slopes));
    check_least(found.inner.best, known.least, 5e-9);
    CHECK(found.chosen == known.chosen);
    CHECK(found.searched < found.cells);
    for (std::size_t d = 0; d < 6; ++d) CHECK(found.inner.best.x[d] == Approx(known.at[d]).epsilon(1e-6));
  }
}

TEST_CASE("Where no cell of a grid holds anything, none is chosen", "[limit]") {
  const MixedProblem none{{{1, 2}, {3}},
                          [](const Point&) {
                            return BoxProblem{{0}, {1}, 1, [](const Point& x) { return Value{x[0], {1 + x[0]}}; }};
                          },
                          [](const Point& chosen) { return chosen[0] > 1 ? std::nan("") : 0; }};
  const MixedMinimum found = minimise_mixed(none);
  CHECK(found.status == Status::nothing_feasible);
  CHECK(found.chosen.empty());
  CHECK((found.impossible == 1 && found.searched == 1 && found.empty == 1));
}
