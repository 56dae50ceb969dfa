#pragma once
/// Moments of a stream of numbers, merged in a fixed order so that the last bit does not depend on threads.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>

namespace engine {

/// Count, mean, sum of squared deviations, extremes. Values that are not finite are counted apart.
struct Moments {
  std::uint64_t n = 0;
  double mean = 0;
  double squares = 0;  ///< Σ (x − mean)²
  double least = std::numeric_limits<double>::infinity();
  double most = -std::numeric_limits<double>::infinity();
  std::uint64_t missing = 0;    ///< not a number
  std::uint64_t unbounded = 0;  ///< +infinity or −infinity

  /// Of a row of values: mean first, then the squares about it, in lanes that no machine's width changes.
  static Moments of(const double* x, std::size_t passes);

  /// Adds what another has seen.
  /// @source Chan, Golub, LeVeque, The American Statistician 37 (1983)
  void merge(const Moments& other) {
    const auto a = static_cast<double>(n), b = static_cast<double>(other.n);
    if (other.n > 0) {
      const double shift = other.mean - mean;
      mean += shift * (b / (a + b));
      squares += other.squares + shift * shift * (a * b / (a + b));
      n += other.n;
    }
    least = std::min(least, other.least);
    most = std::max(most, other.most);
    missing += other.missing;
    unbounded += other.unbounded;
  }

  /// One standard deviation.
  double spread() const { return n > 1 ? std::sqrt(squares / static_cast<double>(n - 1)) : 0; }
};

}  // namespace engine
