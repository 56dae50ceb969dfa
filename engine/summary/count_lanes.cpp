/// Compiled once per instruction set: see engine/lanes/each.hpp for the rules.
#include "engine/lanes/each.hpp"
#include "engine/summary/block_counts.hpp"

namespace engine::SCREWTINY_SET {
namespace {

constexpr std::size_t lanes = 32, most_at_once = 1024;

[[gnu::always_inline]] inline bool is_finite(double x) { return x - x == 0; }

[[gnu::always_inline]] inline double add_halves(double (&sum)[lanes]) {
  for (std::size_t width = lanes / 2; width > 0; width /= 2)
    for (std::size_t l = 0; l < width; ++l) sum[l] += sum[l + width];
  return sum[0];
}

[[gnu::always_inline]] inline void start(double (&lane)[lanes], double value) {
  for (std::size_t l = 0; l < lanes; ++l) lane[l] = value;
}

/// Calls take(lane, x) for every x; those of one lane in order.
template <class Take>
[[gnu::always_inline]] inline void in_lanes(const double* x, std::size_t n, Take take) {
  const std::size_t whole = n - n % lanes;
  for (std::size_t i = 0; i < whole; i += lanes)
    for (std::size_t l = 0; l < lanes; ++l) take(l, x[i + l]);
  for (std::size_t i = whole; i < n; ++i) take(i - whole, x[i]);
}

void extremes(const double* x, std::size_t n, BlockMoments& m) {
  double least[lanes], most[lanes];
  start(least, m.least), start(most, m.most);
  in_lanes(
      x, n, [&](std::size_t l, double v) __attribute__((always_inline)) {
        least[l] = v < least[l] ? v : least[l];
        most[l] = v > most[l] ? v : most[l];
      });
  for (std::size_t l = 0; l < lanes; ++l) m.least = smaller(m.least, least[l]), m.most = larger(m.most, most[l]);
}

double sum_of(const double* x, std::size_t n) {
  double sum[lanes] = {};
  in_lanes(
      x, n, [&](std::size_t l, double v) __attribute__((always_inline)) { sum[l] += v; });
  return add_halves(sum);
}

double squares_of(const double* x, double mean, std::size_t n) {
  double sum[lanes] = {};
  in_lanes(
      x, n, [&](std::size_t l, double v) __attribute__((always_inline)) { sum[l] += (v - mean) * (v - mean); });
  return add_halves(sum);
}

/// @param sum  of x
BlockMoments all_finite(const double* x, std::size_t n, double sum) {
  BlockMoments m{0, 0, __builtin_inf(), -__builtin_inf(), n, 0};
  if (n == 0) return m;
  extremes(x, n, m);
  m.mean = sum / static_cast<double>(n);
  m.squares = squares_of(x, m.mean, n);
  return m;
}

BlockMoments moments(const double* x, std::size_t n) {
  // One value that is not finite makes the sum so, too.
  if (const double sum = sum_of(x, n); is_finite(sum)) return all_finite(x, n, sum);
  double finite[most_at_once];
  std::size_t count = 0;
  std::uint64_t missing = 0;
  for (std::size_t i = 0; i < n; ++i) missing += x[i] != x[i] ? 1u : 0u;
  for (std::size_t i = 0; missing < n && i < n; ++i) {
    finite[count] = x[i];
    count += is_finite(x[i]);
  }
  BlockMoments m = all_finite(finite, count, sum_of(finite, count));
  m.missing = missing;
  return m;
}

void find_bins(const double* x, double low, double scale, std::uint32_t bins, std::uint32_t* bin, std::size_t n) {
  const double top = static_cast<double>(bins);
  SCREWTINY_EACH
  for (std::size_t i = 0; i < n; ++i) {
    double at = (x[i] - low) * scale;
    at = at >= top ? top : at;
    at = at >= 0 ? at : -1.0;
    at = x[i] == x[i] ? at : top + 1;
    bin[i] = static_cast<std::uint32_t>(static_cast<std::int32_t>(at) + 1);
  }
}

std::uint64_t reach(const double* x, double least, std::size_t n) {
  std::uint64_t hits = 0;
  for (std::size_t i = 0; i < n; ++i) hits += x[i] >= least ? 1u : 0u;
  return hits;
}

}  // namespace

extern const BlockCounts count_loops;
const BlockCounts count_loops = {moments, find_bins, reach};

}  // namespace engine::SCREWTINY_SET
