#include "engine/rare/descent.hpp"

#include <algorithm>
#include <cmath>

#include "engine/rare/vectors.hpp"
#include "engine/search/nlopt_once.hpp"

namespace engine::rare {
namespace {

constexpr double difference = 1e-3;  ///< step of a central difference, in standard deviations
constexpr int most_steps = 60;
constexpr std::size_t halvings = 10;
constexpr double on_surface = 1e-6;      ///< |g|/scale of a settled point
constexpr double in_line = 1e-3;         ///< sideways part of a settled point, as a share of its distance
constexpr std::size_t most_cobyla = 40;  ///< dimensions beyond which COBYLA would not get anywhere
constexpr double farthest = 37;          ///< Φ(−37) is the least odds a double can hold

/// Where the tangent plane is nearest the origin, relative to u.
Point step_of(const Point& u, const Slope& s) {
  const double square = dot(s.gradient, s.gradient), factor = (dot(s.gradient, u) - s.g) / square;
  Point step(u.size());
  for (std::size_t d = 0; d < u.size(); ++d) step[d] = factor * s.gradient[d] - u[d];
  return step;
}

Point along(const Point& u, const Point& step, double length) {
  Point to = u;
  for (std::size_t d = 0; d < u.size(); ++d) to[d] += length * step[d];
  return to;
}

/// The longest halving of a step that lowers the merit ½|u|² + c|g|; the shortest where none does. One block call.
Point searched(const LimitState& state, const Point& u, const Slope& s, const Point& step, std::uint64_t& calls) {
  const double c = 2 * std::max(norm(u), 1.0) / norm(s.gradient);
  Block tries(u.size());
  for (std::size_t k = 0; k < halvings; ++k) {
    const Point to = along(u, step, std::ldexp(1, -static_cast<int>(k)));
    for (std::size_t d = 0; d < u.size(); ++d) tries.row(d)[k] = to[d];
  }
  double g[halvings];
  margins(state, tries, g, halvings);
  calls += halvings;
  const double merit = dot(u, u) / 2 + c * std::abs(s.g);
  for (std::size_t k = 0; k < halvings; ++k) {
    const Point to = column(tries, k);
    if (std::isfinite(g[k]) && dot(to, to) / 2 + c * std::abs(g[k]) < merit) return to;
  }
  return column(tries, halvings - 1);
}

std::optional<DesignPoint> settled(const Point& u, const Slope& s, double scale) {
  if (!std::isfinite(s.g) || std::abs(s.g) > on_surface * scale) return {};
  const double steep = norm(s.gradient), length = norm(u);
  if (!(steep > 0) || !std::isfinite(steep)) return {};
  const Point alpha = scaled(s.gradient, -1 / steep);
  const double beta = dot(alpha, u);
  if (std::sqrt(std::max(0.0, length * length - beta * beta)) > in_line * std::max(1.0, length)) return {};
  return DesignPoint{beta, u, alpha};
}

/// Nearest point with g ≤ 0 by COBYLA, from a start that HL-RF could not settle.
std::optional<DesignPoint> cobyla(const LimitState& state, const Point& start, double scale, std::uint64_t& calls) {
  const std::size_t n = start.size();
  if (n > most_cobyla || norm(start) > farthest) return {};
  BoxProblem problem;
  problem.lower.assign(n, -farthest);
  problem.upper.assign(n, farthest);
  problem.constraints = 1;
  Block u(n);
  problem.evaluate = [&](const std::vector<double>& x) {
    for (std::size_t d = 0; d < n; ++d) u.row(d)[0] = x[d];
    double g;
    margins(state, u, &g, 1);
    return BoxProblem::Value{dot(x, x), {g / scale}};
  };
  const BoxMinimum best = minimise(problem, start, {static_cast<int>(100 * n), 1e-8, on_surface});
  calls += static_cast<std::uint64_t>(best.calls);
  if (best.status == BoxMinimum::Status::nothing_feasible) return {};
  // At a corner of the surface the gradient need not point home: the point itself is the direction.
  const double length = norm(best.x);
  if (!(length > 0)) return {};
  return DesignPoint{length, best.x, scaled(best.x, 1 / length)};
}

}  // namespace

Slope slope(const LimitState& state, const Point& u, std::uint64_t& calls) {
  const std::size_t n = u.size(), all = 2 * n + 1;
  std::vector<double> g(all);
  Block block(n);
  for (std::size_t first = 0; first < all; first += block_size) {
    const std::size_t count = std::min(block_size, all - first);
    for (std::size_t d = 0; d < n; ++d) std::fill(block.row(d), block.row(d) + count, u[d]);
    for (std::size_t i = 0; i < count; ++i)
      if (const std::size_t k = first + i; k > 0) block.row((k - 1) / 2)[i] += (k % 2 ? difference : -difference);
    margins(state, block, g.data() + first, count);
  }
  calls += all;
  Slope s{g[0], Point(n)};
  for (std::size_t d = 0; d < n; ++d) {
    const double up = g[2 * d + 1], down = g[2 * d + 2];
    const bool both = std::isfinite(up) && std::isfinite(down);
    if (both)
      s.gradient[d] = (up - down) / (2 * difference);
    else if (std::isfinite(up))
      s.gradient[d] = (up - g[0]) / difference;
    else if (std::isfinite(down))
      s.gradient[d] = (g[0] - down) / difference;
  }
  return s;
}

std::optional<DesignPoint> descend(const LimitState& state, Point u, double scale, std::uint64_t& calls) {
  const Point start = u;
  for (int step = 0; step < most_steps; ++step) {
    const Slope s = slope(state, u, calls);
    if (const auto point = settled(u, s, scale)) return point;
    if (!std::isfinite(s.g) || !(norm(s.gradient) > 0) || !std::isfinite(norm(s.gradient))) break;
    u = searched(state, u, s, step_of(u, s), calls);
    if (!(norm(u) < 4 * farthest)) break;
  }
  return cobyla(state, start, scale, calls);
}

}  // namespace engine::rare
