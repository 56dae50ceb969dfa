#include "engine/rare/design_point.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "engine/rare/descent.hpp"
#include "engine/rare/normals.hpp"
#include "engine/rare/vectors.hpp"

namespace engine::rare {
namespace {

constexpr double unlike_cosine = 0.5;
constexpr double pilot_spreads[] = {1.5, 2.5, 4};

/// Failures among a block of normals at each of a few wider spreads.
std::vector<Point> pilot(const LimitState& state, std::uint64_t key, std::uint64_t& calls) {
  std::vector<Point> failures;
  Block u(state.dimension());
  std::vector<double> g(block_size);
  std::uint64_t block = 0;
  for (const double spread : pilot_spreads) {
    Normals(key, Use::pilot, 0).fill(block++, u, block_size);
    for (std::size_t d = 0; d < u.rows(); ++d)
      for (std::size_t i = 0; i < block_size; ++i) u.row(d)[i] *= spread;
    margins(state, u, g.data(), block_size);
    calls += block_size;
    for (std::size_t i = 0; i < block_size; ++i)
      if (g[i] <= 0) failures.push_back(column(u, i));
  }
  return failures;
}

/// Up to `count` random directions, three standard deviations out.
std::vector<Point> directions(const LimitState& state, std::size_t count, std::uint64_t key) {
  Block z(state.dimension());
  count = std::min(count, block_size);
  Normals(key, Use::directions, 0).fill(0, z, count);
  std::vector<Point> points;
  for (std::size_t i = 0; i < count; ++i) {
    const Point point = column(z, i);
    points.push_back(scaled(point, 3 / norm(point)));
  }
  return points;
}

/// A third of the starts from hints, a third from the pilot, the rest random; the origin first.
std::vector<Point> starts_of(const LimitState& state, const DesignOptions& options, const std::vector<Point>& hints,
                             std::uint64_t key, std::uint64_t& calls) {
  std::vector<Point> starts = {Point(state.dimension())};
  const std::size_t third = std::max<std::size_t>(1, options.starts / 3);
  for (const Point& p : unlike(hints, third)) starts.push_back(p);
  for (const Point& p : unlike(pilot(state, key, calls), third)) starts.push_back(p);
  const std::size_t left = options.starts > starts.size() ? options.starts - starts.size() : 0;
  for (const Point& p : directions(state, left, key)) starts.push_back(p);
  return starts;
}

/// The size of ordinary margins: at the origin, or the median size along a few random directions where that is nothing.
double scale_of(const LimitState& state, std::uint64_t key, std::uint64_t& calls) {
  constexpr std::size_t n = 64;
  Block z(state.dimension());
  Normals(key, Use::directions, 1).fill(0, z, n);
  for (std::size_t d = 0; d < z.rows(); ++d) z.row(d)[0] = 0;
  std::vector<double> g(n);
  margins(state, z, g.data(), n);
  calls += n;
  if (std::isfinite(g[0]) && g[0] != 0) return std::abs(g[0]);
  std::vector<double> sizes;
  for (const double margin : g)
    if (std::isfinite(margin) && margin != 0) sizes.push_back(std::abs(margin));
  std::sort(sizes.begin(), sizes.end());
  return sizes.empty() ? 1 : sizes[sizes.size() / 2];
}

void add_distinct(std::vector<DesignPoint>& points, DesignPoint point, double apart) {
  for (DesignPoint& known : points)
    if (distance(known.u, point.u) <= apart * std::max(1.0, norm(known.u))) {
      if (norm(point.u) < norm(known.u)) known = std::move(point);
      return;
    }
  points.push_back(std::move(point));
}

}  // namespace

std::vector<Point> unlike(const std::vector<Point>& failures, std::size_t most) {
  std::vector<std::pair<double, std::size_t>> order;
  for (std::size_t i = 0; i < failures.size(); ++i) order.emplace_back(norm(failures[i]), i);
  std::sort(order.begin(), order.end());
  std::vector<Point> chosen;
  for (const auto& [length, i] : order) {
    if (chosen.size() >= most) break;
    const auto alike = [&, &p = failures[i]](const Point& c) { return cosine(c, p) > unlike_cosine; };
    if (length > 0 && std::none_of(chosen.begin(), chosen.end(), alike)) chosen.push_back(failures[i]);
  }
  return chosen;
}

FirstOrder design_points(const LimitState& state, const DesignOptions& options, const std::vector<Point>& hints,
                         std::uint64_t key, const Running& running) {
  FirstOrder found;
  const double scale = scale_of(state, key, found.calls);
  const std::vector<Point> starts = starts_of(state, options, hints, key, found.calls);
  const std::uint64_t a_search = 12 * (2 * state.dimension() + 11);
  const std::size_t begun = std::min<std::size_t>(starts.size(), std::max<std::uint64_t>(3, options.calls / a_search));
  using Search = std::pair<std::optional<DesignPoint>, std::uint64_t>;
  run_chunks(
      begun, running,
      [&](std::uint64_t k) {
        Search search;
        search.first = descend(state, starts[k], scale, search.second);
        return search;
      },
      [&](Search& search) {
        found.calls += search.second;
        if (search.first) add_distinct(found.points, std::move(*search.first), options.apart);
      });
  std::stable_sort(found.points.begin(), found.points.end(),
                   [](const DesignPoint& a, const DesignPoint& b) { return norm(a.u) < norm(b.u); });
  if (found.points.size() > options.points) found.points.resize(options.points);
  found.beta = found.points.empty() ? std::numeric_limits<double>::infinity() : found.points.front().beta;
  found.p = normal_distribution(-found.beta);
  return found;
}

}  // namespace engine::rare
