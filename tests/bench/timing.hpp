#pragma once
/// Clocks, and one line of a table.
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdint>
#include <ctime>
#include <string>
#include <vector>

namespace bench {

struct Taken {
  double best = 0, median = 0;  ///< [s]
};

inline double processor_now() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }
inline double wall_now() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

inline Taken of(std::vector<double> seconds) {
  std::sort(seconds.begin(), seconds.end());
  return {seconds.front(), seconds[seconds.size() / 2]};
}

template <class Do>
Taken timed(int repeats, double (*now)(), Do work) {
  std::vector<double> seconds;
  for (int r = 0; r < repeats; ++r) {
    const double from = now();
    work();
    seconds.push_back(now() - from);
  }
  return of(seconds);
}

/// @param passes     that the seconds were taken for
/// @param reference  whose best is what x is about; 0 for none
inline void say(const std::string& what, Taken t, std::uint64_t passes, double reference) {
  const auto n = static_cast<double>(passes);
  fmt::print("  {:<60} {:8.2f} {:8.2f} ns/pass {:8.2f} M/s", what, t.best / n * 1e9, t.median / n * 1e9,
             n / t.best / 1e6);
  fmt::print("{}\n", reference > 0 ? fmt::format(" {:7.2f}x", reference / t.best) : "");
}

}  // namespace bench
