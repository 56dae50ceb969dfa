/// Prints what every method makes of every limit state whose odds are known. Arguments: key, threads, part of a name.
#include <fmt/format.h>

#include <chrono>
#include <string>

#include "engine/rare/agree.hpp"
#include "tests/engine/rare_examples.hpp"

int main(int argc, char** argv) {
  const std::uint64_t key = argc > 1 ? std::stoull(argv[1]) : 1;
  engine::Running running;
  running.threads = argc > 2 ? static_cast<unsigned>(std::stoul(argv[2])) : 2;
  const std::string part = argc > 3 ? argv[3] : "";
  fmt::print("{:30} {:>10} {:>10} {:>10} {:>10} {:>3} {:>9} {:>9} {:>3} {:>9} {:>4} {:>6} {:>5} {:>8} {:>5}  {}\n",
             "example", "exact", "answer", "low", "high", "in", "first", "subset", "pts", "effective", "max%", "ssErr%",
             "d/se", "calls", "s", "reason");
  for (const auto& e : rare_examples::all()) {
    if (e.name.find(part) == std::string::npos) continue;
    const auto start = std::chrono::steady_clock::now();
    const auto odds = engine::rare::rare_odds(*e.state, {}, key, running);
    const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    const bool in = odds.low <= e.exact + 2 * e.error && e.exact - 2 * e.error <= odds.high;
    fmt::print(
        "{:30} {:10.4g} {:10.4g} {:10.4g} {:10.4g} {:>3} {:9.3g} {:9.3g} {:3} {:9.0f} {:4.1f} {:6.1f} {:5.1f} {:8} "
        "{:5.2f}  {}{}\n",
        e.name, e.exact, odds.p, odds.low, odds.high, in ? "yes" : "NO", odds.first_order.p, odds.subset.p,
        odds.first_order.points.size(), odds.importance.effective, 100 * odds.importance.largest,
        100 * odds.subset.spread / odds.subset.p, (odds.subset.p - e.exact) / odds.subset.spread, odds.calls, seconds,
        odds.trusted ? "" : "NOT TRUSTED ", odds.reason);
    std::fflush(stdout);
  }
}
