#include "tests/engine/optimisation_odds.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "engine/draw/marginal.hpp"
#include "engine/rare/agree.hpp"

using namespace engine;
using namespace optimisation;

namespace {

using Point = std::vector<double>;
using Status = BoxMinimum::Status;

OddsOptions options_for(double settled, std::uint64_t first, double rare) {
  OddsOptions options;
  options.refined.settled = settled;
  options.refined.first = first;
  options.refined.local.first_step = 0.01;
  options.refined.local.tolerance = 1e-6;
  options.rare = rare;
  return options;
}

constexpr double draw_for_all = 0.5, count_all = 0;

/// One margin of a design as a limit state.
class Margin : public rare::LimitState {
public:
  Margin(const OddsProblem& problem, Point x, std::size_t k) : problem_(problem), x_(std::move(x)), k_(k) {}
  std::size_t dimension() const override { return problem_.normals; }
  void evaluate(const Block& u, double* g, std::size_t n) const override {
    Block all(problem_.allowed.size());
    problem_.margins(x_, u, all, n);
    std::copy_n(all.row(k_), n, g);
  }

private:
  const OddsProblem& problem_;
  Point x_;
  std::size_t k_;
};

double exact_odds(double beta) { return normal_distribution(-beta); }

}  // namespace

TEST_CASE("The reference itself agrees with the recomputed odds and optimum", "[published]") {
  const auto at = two_variable_odds(3.4390841, 3.2865753);  // the first-order optimum
  CHECK(at[0] == Approx(1.48354e-3).epsilon(1e-5));
  CHECK(at[1] == Approx(1.13056e-3).epsilon(1e-5));
  const Vertex three = two_variable_vertex(exact_odds(3));
  CHECK(three.cost == Approx(6.7289142).epsilon(1e-8));
  CHECK(three.d1 == Approx(3.4539277).epsilon(3e-8));
  CHECK(three.d2 == Approx(3.2749865).epsilon(3e-8));
  for (const double beta : {3.0, 4.0})
    for (const double multiplier : two_variable_vertex(exact_odds(beta)).multipliers) CHECK(multiplier > 0);
}

TEST_CASE("A quantile over passes is at or above 0 exactly when no more than the allowed miss", "[limit]") {
  MarginPasses passes;
  passes.add(Plan(Plan::Kind::plain, 1, 1000, 5, Stream::test), 1);
  std::vector<double> margins(1000);
  for (const int misses : {0, 9, 10, 11, 500}) {
    for (int i = 0; i < 1000; ++i) margins[static_cast<std::size_t>(i)] = i < misses ? -1.0 - i : i;
    CHECK((passes.quantile(margins, 0.01) >= 0) == (misses <= 10));
  }
}

TEST_CASE("The quantile of weighed draws is that of the density that they stand for", "[limit][statistical]") {
  // X ~ N(0, 1), drawn about 4: the weighed 3.17e-5 quantile of −X, and of X's far side nothing.
  const rare::Mixture mixture({{{1}, 4, 1, 1, 0.9}, {{1}, 0, 1, 1, 0.1}});
  MarginPasses passes;
  passes.add(mixture, 1, 1 << 16, 11, 0);
  OddsProblem problem;
  problem.allowed = {exact_odds(4)};
  problem.normals = 1;
  problem.margins = [](const Point& x, const Block& z, Block& g, std::size_t n) {
    for (std::size_t i = 0; i < n; ++i) g.row(0)[i] = x[0] - z.row(0)[i];
  };
  const auto margins = passes.margins(problem, {4});
  CHECK(passes.quantile(margins[0], exact_odds(4)) == Approx(0).margin(0.01));  // some 0.004 of standard error
  CHECK(passes.quantile(margins[0], exact_odds(5)) == Approx(-1).margin(0.03));
  CHECK(passes.quantile(margins[0], exact_odds(3)) == Approx(1).margin(0.03));
}

TEST_CASE("Not a number is a miss", "[limit]") {
  OddsProblem problem;
  problem.lower = {0}, problem.upper = {1}, problem.allowed = {0.1}, problem.normals = 1;
  problem.objective = [](const Point& x) { return x[0]; };
  problem.margins = [](const Point& x, const Block& z, Block& g, std::size_t n) {
    for (std::size_t i = 0; i < n; ++i) g.row(0)[i] = z.row(0)[i] > x[0] ? std::nan("") : 1;
  };
  const BoxProblem box = sampled(problem, 1, 0).on({4096, 0, 1}, {});
  CHECK(box.evaluate({0.0}).constraints[0] > 0);
  CHECK(box.evaluate({2.0}).constraints[0] < 0);
}

TEST_CASE("Counted odds lead to the optimum of the exact odds, within the error stated",
          "[published][statistical][plain-build]") {
  const OddsProblem problem = two_variables(exact_odds(3));
  OddsOptions options = options_for(1e-4, 32768, count_all);
  const OddsMinimum found = minimise_under_odds(problem, options);
  const RefinedMinimum& r = found.refined;
  CHECK(r.best.holds);
  CHECK(r.objective.low <= 6.7289142);
  CHECK(r.objective.high >= 6.7289142);
  CHECK(r.objective.high - r.objective.low < 0.012);
  CHECK_FALSE(r.settled);  // 1e-4 is more than 131072 passes a replicate can give, and it says so
  REQUIRE(r.steps.size() == 2);
  CHECK(r.steps[1].error < r.steps[0].error);
}

TEST_CASE("Odds drawn for lead to the exact optimum, and not to the first-order one", "[published][statistical]") {
  const OddsProblem problem = two_variables(exact_odds(3));
  const RefinedMinimum r = minimise_under_odds(problem, options_for(2e-4, 32768, draw_for_all)).refined;
  CHECK(r.settled);
  CHECK(r.objective.low <= 6.7289142);
  CHECK(r.objective.high >= 6.7289142);
  CHECK(r.objective.low > 6.7256594);  // the first-order optimum: told apart
  const auto odds = two_variable_odds(r.best.x[0], r.best.x[1]);
  CHECK(odds[0] == Approx(exact_odds(3)).epsilon(0.02));  // 1.48354e-3 there, 10 % above
  CHECK(odds[1] == Approx(exact_odds(3)).epsilon(0.03));
}

TEST_CASE("Odds too small to count are kept to as well", "[published][statistical]") {
  const double allowed = exact_odds(4);
  const Vertex exact = two_variable_vertex(allowed);
  const OddsProblem problem = two_variables(allowed);
  const OddsMinimum found = minimise_under_odds(problem, options_for(2e-4, 8192, OddsOptions{}.rare));
  const RefinedMinimum& r = found.refined;
  CHECK(r.settled);
  CHECK(r.objective.low <= exact.cost);
  CHECK(r.objective.high >= exact.cost);
  CHECK(r.best.x[0] == Approx(exact.d1).margin(3e-3));
  CHECK(r.best.x[1] == Approx(exact.d2).margin(3e-3));
  for (const std::size_t k : {0u, 1u}) {  // an independent look at the odds there
    const rare::RareOdds odds = rare::rare_odds(Margin(problem, r.best.x, k), {}, 99);
    CHECK(odds.trusted);
    CHECK(odds.low < 1.05 * allowed);
    CHECK(odds.high > 0.95 * allowed);
    CHECK(odds.p == Approx(two_variable_odds(r.best.x[0], r.best.x[1])[k]).epsilon(0.05));
  }
}

TEST_CASE("The bounds of an optimum hold it over twenty keys, and bounds a tenth as wide do not",
          "[statistical][plain-build]") {
  const OddsProblem problem = two_variables(exact_odds(4));
  const double exact = two_variable_vertex(exact_odds(4)).cost;
  int held = 0, narrow = 0;
  for (std::uint64_t key = 1; key <= 20; ++key) {
    OddsOptions options = options_for(1, 4096, draw_for_all);
    options.coarse.key = key;
    const RefinedMinimum r = minimise_under_odds(problem, options).refined;
    const double half = (r.objective.high - r.objective.low) / 2, off = std::abs(r.best.objective - exact);
    held += off <= half;
    narrow += off <= half / 10;
  }
  INFO(held << " of 20, " << narrow << " with bounds a tenth as wide");
  CHECK(held >= 16);  // 19 expected; 15 or fewer in 3 of 1000
  CHECK(narrow <= 10);
}

TEST_CASE("The welded beam without scatter", "[published]") {
  // J = √2 x1 x2 (x2²/12 + (x1 + x3)²/4); 2.380816 at (6.20684, 157.9224, 210.5966, 6.20684), recomputed.
  StartOptions options;
  options.local.evaluations = 4000;
  options.local.tolerance = 1e-10;
  const GlobalMinimum found = minimise_globally(exact_beam(), options);
  CHECK(found.best.objective == Approx(2.380816).epsilon(3e-7));
  CHECK(found.best.violation == 0);
  const Point at = {6.20684, 157.9224, 210.5966, 6.20684};
  for (std::size_t d = 0; d < 4; ++d) CHECK(found.best.x[d] == Approx(at[d]).epsilon(1e-5));
}

TEST_CASE("The welded beam's odds at the first-order optimum are those counted by others", "[published][statistical]") {
  // 1e7 Monte Carlo passes: 1.361e-3, 1.362e-3, 1.364e-3, 0, 1.358e-3, each ± 0.012e-3.
  const OddsProblem problem = scattered_beam(exact_odds(3));
  const Point at = {5.7300223, 200.8981784, 210.5976782, 6.2389357};
  CHECK(problem.objective(at) == Approx(2.591320).epsilon(3e-7));
  MarginPasses passes;
  passes.add(Plan(Plan::Kind::sobol, 4, 1 << 21, 21, Stream::test), 4);
  const auto margins = passes.margins(problem, at);
  const double published[] = {1.361e-3, 1.362e-3, 1.364e-3, 0, 1.358e-3};
  for (std::size_t k = 0; k < 5; ++k) {
    double misses = 0;
    for (const double m : margins[k]) misses += m < 0;
    const double p = misses / static_cast<double>(passes.count()), plain = std::sqrt(published[k] / 2e6);
    CHECK(std::abs(p - published[k]) <= 3 * std::hypot(plain, 0.012e-3));
  }
}

TEST_CASE("The welded beam under odds, its probabilities exact", "[published][statistical]") {
  // First order: 2.591320 at (5.7300, 200.898, 210.598, 6.2389), recomputed; 2.591 published. Odds counted there on
  // 12.6 million Sobol' passes are 1.349e-3, 1.350e-3, 1.349e-3, 0 and 1.349e-3, so that the exact optimum is nearer to
  // it than the bounds below can tell.
  const OddsProblem problem = scattered_beam(exact_odds(3));
  for (const double rare : {count_all, draw_for_all}) {
    const OddsMinimum found = minimise_under_odds(problem, options_for(2e-4, rare > 0 ? 4096 : 32768, rare));
    const RefinedMinimum& r = found.refined;
    CHECK(r.settled);
    CHECK(r.objective.low <= 2.591320);
    CHECK(r.objective.high >= 2.591320);
    CHECK(r.best.objective > 2.380816);
    CHECK(r.best.x[0] == Approx(5.7300).epsilon(2e-3));
    CHECK(r.best.x[3] == Approx(6.2389).epsilon(1e-3));
  }
}

TEST_CASE("The same key gives the same optimum under odds", "[limit]") {
  const OddsProblem problem = two_variables(exact_odds(4));
  const OddsOptions options = options_for(1, 1024, OddsOptions{}.rare);
  const OddsMinimum one = minimise_under_odds(problem, options), other = minimise_under_odds(problem, options);
  CHECK((one.refined.best.x == other.refined.best.x && one.refined.objective.low == other.refined.objective.low));
}

TEST_CASE("Odds that cannot be are refused", "[limit]") {
  for (const double p : {0.0, 1.0, std::nan("")})
    CHECK_THROWS_AS(minimise_under_odds(two_variables(p)), std::invalid_argument);
  OddsOptions one;
  one.refined.replicates = 1;
  CHECK_THROWS_AS(minimise_under_odds(two_variables(0.01), one), std::invalid_argument);
}

TEST_CASE("An optimum under odds that is interrupted says so", "[limit]") {
  std::atomic<bool> stop = false;
  int looks = 0;
  OddsProblem problem = two_variables(exact_odds(3));
  problem.objective = [&](const Point& d) {
    if (++looks == 900) stop = true;
    return d[0] + d[1];
  };
  OddsOptions options = options_for(1e-4, 1024, count_all);
  options.coarse.local.interrupted = options.refined.local.interrupted = &stop;
  const OddsMinimum late = minimise_under_odds(problem, options);
  CHECK(late.refined.best.status == Status::interrupted);
  CHECK_FALSE(late.refined.settled);
  stop = true;
  const OddsMinimum early = minimise_under_odds(problem, options);
  CHECK(early.coarse.best.status == Status::interrupted);
  CHECK(early.refined.best.status == Status::interrupted);
  CHECK(early.refined.steps.empty());
}
