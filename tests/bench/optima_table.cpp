/// Prints for each problem with a published minimum what was published, what is found, at what cost and how far its
/// constraints are violated; and how often each way of searching finds it over a number of keys. Argument: keys (20).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "engine/search/mixed.hpp"
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
  for (const auto& known : optimisation::continuous()) {
    fmt::print("\n{} over {} keys (found: within 1e-6, holding)\n", known.name, keys);
    rates(known, keys);
    std::fflush(stdout);
  }
}
