/// Prints for each problem with a published minimum what was published, what is found, at what cost and how far its
/// constraints are violated; and how often each way of searching finds it over a number of keys. Argument: keys (20).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "engine/draw/marginal.hpp"
#include "tests/engine/optimisation_odds.hpp"
#include "tests/engine/optimisation_problems.hpp"

namespace {

using namespace engine;

struct Way {
  const char* name;
  Method method;
  double beyond;
  Method finish;
};

constexpr Way ways[] = {{"COBYLA", Method::linear_models, 0, Method::linear_models},
                        {"SLSQP", Method::slopes, 1e-10, Method::slopes},
                        {"SLSQP, then COBYLA", Method::slopes, 1e-10, Method::linear_models}};

StartOptions options_of(const Way& way, std::uint64_t key) {
  StartOptions options;
  options.local.method = way.method;
  options.local.beyond = way.beyond;
  options.finish = way.finish;
  options.local.evaluations = 4000;
  options.local.tolerance = 1e-10;
  options.key = key;
  return options;
}

/// ISRES alone, or with a local finish.
BoxMinimum evolved(const BoxProblem& problem, std::uint64_t key, bool finish) {
  BoxOptions options;
  options.method = Method::evolution;
  options.evaluations = 20000;
  options.key = key;
  std::vector<double> middle;
  for (std::size_t d = 0; d < problem.lower.size(); ++d) middle.push_back((problem.lower[d] + problem.upper[d]) / 2);
  BoxMinimum found = minimise(problem, middle, options);
  if (!finish || found.x.empty()) return found;
  options.method = Method::slopes;
  options.beyond = 1e-10, options.tolerance = 1e-10, options.evaluations = 4000;
  BoxMinimum better_one = minimise(problem, found.x, options);
  better_one.calls += found.calls;
  return better(better_one, found) ? better_one : found;
}

bool right(const BoxMinimum& found, double least) {
  return found.holds && std::abs(found.objective / least - 1) <= 1e-6;
}

struct Rate {
  int found = 0, keys = 0;
  double calls = 0;
  void add(bool hit, int spent) { found += hit, ++keys, calls += spent; }
  void print(const char* way) const {
    fmt::print("    {:24} {:3} of {:2}   {:9.0f} calls a search\n", way, found, keys, calls / keys);
  }
};

void line(const std::string& name, double least, const BoxMinimum& best, int calls, const std::string& how) {
  fmt::print("{:36} {:16.10g} {:16.10g} {:10.1e} {:9} {:9.1e}  {} ({})\n", name, least, best.objective,
             best.objective / least - 1, calls, best.violation, how, words(best.status));
  std::fflush(stdout);
}

void rates(const optimisation::Known& known, std::uint64_t keys) {
  for (const Way& way : ways) {
    Rate rate, single;
    for (std::uint64_t key = 1; key <= keys; ++key) {
      const GlobalMinimum g = minimise_globally(known.problem, options_of(way, key));
      rate.add(right(g.best, known.least), g.calls);
      StartOptions one = options_of(way, key);
      one.least = one.most = one.tried = 1, one.again = 0;
      const GlobalMinimum s = minimise_globally(known.problem, one);
      single.add(right(s.best, known.least), s.calls);
    }
    single.print((std::string(way.name) + ", one start").c_str());
    rate.print((std::string(way.name) + ", multistart").c_str());
  }
  for (const bool finish : {false, true}) {
    Rate rate;
    for (std::uint64_t key = 1; key <= keys; ++key) {
      const BoxMinimum found = evolved(known.problem, key, finish);
      rate.add(right(found, known.least), found.calls);
    }
    rate.print(finish ? "ISRES, then SLSQP" : "ISRES alone");
  }
}

struct OddsCase {
  const char* name;
  OddsProblem problem;
  double exact;
  double rare;  ///< odds below which they are drawn for
  std::uint64_t first;
  Method method;
};

std::vector<OddsCase> odds_cases() {
  using optimisation::scattered_beam, optimisation::two_variables;
  const double three = normal_distribution(-3), four = normal_distribution(-4), five = normal_distribution(-5);
  const auto exact = [](double allowed) { return optimisation::two_variable_vertex(allowed).cost; };
  return {{"two variables, 3 sigma, counted", two_variables(three), exact(three), 0, 2048, Method::linear_models},
          {"  the same, by slopes", two_variables(three), exact(three), 0, 2048, Method::slopes},
          {"two variables, 3 sigma, drawn for", two_variables(three), exact(three), 0.5, 2048, Method::linear_models},
          {"two variables, 4 sigma, drawn for", two_variables(four), exact(four), 0.5, 2048, Method::linear_models},
          {"two variables, 5 sigma, drawn for", two_variables(five), exact(five), 0.5, 2048, Method::linear_models},
          {"welded beam, 3 sigma, counted", scattered_beam(three), 2.591320, 0, 2048, Method::linear_models},
          {"  the same, by slopes", scattered_beam(three), 2.591320, 0, 2048, Method::slopes},
          {"welded beam, 3 sigma, drawn for", scattered_beam(three), 2.591320, 0.5, 2048, Method::linear_models}};
}

/// The optimum at each number of passes, with its standard error, and the answer.
void under_odds(const OddsCase& c) {
  OddsOptions options;
  options.rare = c.rare;
  options.refined.first = c.first;
  options.refined.settled = 1e-4;
  options.refined.local.method = c.method;
  options.refined.local.difference = 1e-4;  // a pass's own slope is noise
  options.refined.local.first_step = 0.01;
  options.refined.local.tolerance = 1e-6;
  if (c.method == Method::slopes) options.refined.local.beyond = 1e-8;
  const OddsMinimum m = minimise_under_odds(c.problem, options);
  fmt::print("\n{}: exact {:.7f}, coarse search {:.5f} in {} calls\n", c.name, c.exact, m.coarse.best.objective,
             m.coarse.calls);
  for (const RefineStep& s : m.refined.steps)
    fmt::print("    {:7} passes x {}: {:.6f} +- {:.6f}, {:+.1f} standard errors off\n", s.passes,
               options.refined.replicates, s.mean, s.error, (s.mean - c.exact) / s.error);
  const RefinedMinimum& r = m.refined;
  fmt::print("    answer {:.6f} in [{:.6f}, {:.6f}] {}, {} calls, {:.2e} passes, violation {:.0e} ({}) at",
             r.best.objective, r.objective.low, r.objective.high, r.settled ? "settled" : "not settled", r.calls,
             static_cast<double>(r.model_passes), r.best.violation, words(r.best.status));
  for (const double x : r.best.x) fmt::print(" {:.5f}", x);
  fmt::print("\n");
  std::fflush(stdout);
}

}  // namespace

int main(int argc, char** argv) {
  const std::uint64_t keys = argc > 1 ? std::stoull(argv[1]) : 20;
  fmt::print("{:36} {:>16} {:>16} {:>10} {:>9} {:>9}  {}\n", "problem", "published", "found", "relative", "calls",
             "violation", "algorithm (status)");
  for (const auto& known : optimisation::continuous())
    for (const Way& way : ways) {
      const GlobalMinimum g = minimise_globally(known.problem, options_of(way, 1));
      line(
          known.name, known.least, g.best, g.calls,
          fmt::format("multistart {}, {} of {} searches agree, {} minima", way.name, g.agreeing, g.searches, g.minima));
    }
  for (const auto& known : optimisation::mixed()) {
    const MixedMinimum m = minimise_mixed(known.problem, options_of(ways[2], 1));
    line(known.name, known.least, m.inner.best, m.calls,
         fmt::format("best first, SLSQP then COBYLA: {} cells, {} impossible, {} searched, {} empty", m.cells,
                     m.impossible, m.searched, m.empty));
  }
  for (const OddsCase& c : odds_cases()) under_odds(c);
  for (const auto& known : optimisation::continuous()) {
    fmt::print("\n{} over {} keys (found: within 1e-6, holding)\n", known.name, keys);
    rates(known, keys);
    std::fflush(stdout);
  }
}
