#include "studies/ask/paired.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "engine/summary/interval.hpp"

namespace studies {
namespace {

/// Passes of a net below which their number is no normal sum.
constexpr std::uint64_t handful = 5;

/// Half the distance of the bounds of a mean.
double half_width(const std::vector<double>& nets) {
  const auto n = static_cast<double>(nets.size());
  const double mean = std::accumulate(nets.begin(), nets.end(), 0.0) / n;
  double squares = 0;
  for (const double net : nets) squares += (net - mean) * (net - mean);
  return engine::student_975(n - 1) * std::sqrt(squares / (n - 1) / n);
}

}  // namespace

Bounded paired(double estimate, const std::vector<double>& nets) {
  const double half = half_width(nets);
  return {estimate - half, estimate, estimate + half};
}

Bounded paired_shortfall(const std::vector<std::uint64_t>& more, const std::vector<std::uint64_t>& fewer,
                         std::uint64_t net_size) {
  const auto size = static_cast<double>(net_size), n = size * static_cast<double>(more.size());
  std::vector<double> nets;
  std::uint64_t least = net_size;
  for (std::size_t i = 0; i < more.size(); ++i) {
    nets.push_back(100 * (static_cast<double>(more[i]) - static_cast<double>(fewer[i])) / size);
    least = std::min(least, more[i] + fewer[i]);
  }
  const double up = static_cast<double>(std::accumulate(more.begin(), more.end(), std::uint64_t{0}));
  const double down = static_cast<double>(std::accumulate(fewer.begin(), fewer.end(), std::uint64_t{0}));
  const double estimate = 100 * (up - down) / n;
  if (least < handful) {
    const engine::Interval u = engine::clopper_pearson(up, n, 0.975), d = engine::clopper_pearson(down, n, 0.975);
    return {100 * (u.low - d.high), estimate, 100 * (u.high - d.low)};
  }
  const double half = std::max(half_width(nets), 100 / n);
  return {estimate - half, estimate, estimate + half};
}

}  // namespace studies
