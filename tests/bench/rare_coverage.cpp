/// How often the bounds hold the truth, example by example. Arguments: keys, threads, most dimensions, part of a name.
#include <fmt/format.h>

#include <string>

#include "engine/rare/agree.hpp"
#include "tests/engine/rare_examples.hpp"

int main(int argc, char** argv) {
  const std::uint64_t keys = argc > 1 ? std::stoull(argv[1]) : 30;
  engine::Running running;
  running.threads = argc > 2 ? static_cast<unsigned>(std::stoul(argv[2])) : 2;
  const std::size_t most = argc > 3 ? std::stoull(argv[3]) : 20;
  const std::string part = argc > 4 ? argv[4] : "";
  fmt::print("{:30} {:>9} {:>9} {:>9} {:>9}\n", "example", "held", "t alone", "subset", "trusted");
  for (const auto& e : rare_examples::all()) {
    if (e.name.find(part) == std::string::npos || e.state->dimension() > most) continue;
    int held = 0, bare = 0, subset = 0, trusted = 0;
    for (std::uint64_t key = 100; key < 100 + keys; ++key) {
      const auto odds = engine::rare::rare_odds(*e.state, {}, key, running);
      const auto holds = [&](double low, double high) {
        return low <= e.exact + 2 * e.error && e.exact - 2 * e.error <= high;
      };
      const double p = odds.importance.p, half = engine::student_975(15) * odds.importance.spread;
      held += holds(odds.low, odds.high);
      bare += holds(p - half, p + half);
      subset += holds(odds.subset.interval.low, odds.subset.interval.high);
      trusted += odds.trusted;
    }
    fmt::print("{:30} {:9} {:9} {:9} {:9}\n", e.name, held, bare, subset, trusted);
    std::fflush(stdout);
  }
}
