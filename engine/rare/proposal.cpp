#include "engine/rare/proposal.hpp"

#include <algorithm>
#include <cmath>

#include "engine/rare/vectors.hpp"

namespace engine::rare {
namespace {

constexpr double share_points = 0.35, share_clusters = 0.3, share_broad = 0.25, share_origin = 0.1;
constexpr std::size_t most_clusters = 8, least_cluster = 40;

Point mean_of(const std::vector<const Point*>& points) {
  Point mean(points.front()->size());
  for (const Point* p : points)
    for (std::size_t d = 0; d < mean.size(); ++d) mean[d] += (*p)[d] / static_cast<double>(points.size());
  return mean;
}

/// Mean and the two spreads of some points, spreads slightly widened: less so the more dimensions, where it costs more.
Bump fitted(const std::vector<const Point*>& points, double weight) {
  const Point mean = mean_of(points);
  const double shift = norm(mean), n = static_cast<double>(mean.size()), count = static_cast<double>(points.size());
  Bump bump{scaled(mean, shift > 0 ? 1 / shift : 0), shift, 1, 1, weight};
  if (!(shift > 0)) bump.axis[0] = 1;
  double along = 0, across = 0;
  for (const Point* p : points) {
    const double t = dot(*p, bump.axis);
    along += (t - shift) * (t - shift) / count;
    across += (dot(*p, *p) - t * t) / count;
  }
  bump.along = std::max(0.05, 1.15 * std::sqrt(along));
  bump.across = n > 1 ? std::max(0.05, (1 + 0.3 / std::sqrt(n)) * std::sqrt(across / (n - 1))) : 1;
  return bump;
}

/// The centre each point is nearest to in angle.
std::vector<std::vector<const Point*>> assigned(const std::vector<Point>& points, const std::vector<Point>& centres) {
  std::vector<std::vector<const Point*>> clusters(centres.size());
  for (const Point& p : points) {
    std::size_t nearest = 0;
    for (std::size_t k = 1; k < centres.size(); ++k)
      if (cosine(p, centres[k]) > cosine(p, centres[nearest])) nearest = k;
    clusters[nearest].push_back(&p);
  }
  return clusters;
}

/// Spherical k-means from failures in unlike directions.
std::vector<std::vector<const Point*>> clusters_of(const std::vector<Point>& failures) {
  std::vector<Point> centres = unlike(failures, most_clusters);
  for (int pass = 0; pass < 5; ++pass) {
    const auto clusters = assigned(failures, centres);
    for (std::size_t k = 0; k < centres.size(); ++k)
      if (!clusters[k].empty()) centres[k] = mean_of(clusters[k]);
  }
  return assigned(failures, centres);
}

/// Weights by √Φ(−β), so that a farther point with a flatter surface is not starved.
void add_points(const FirstOrder& first_order, std::vector<Bump>& bumps) {
  double sum = 0;
  for (const DesignPoint& p : first_order.points) sum += std::sqrt(normal_distribution(-norm(p.u)));
  for (const DesignPoint& p : first_order.points) {
    const double length = norm(p.u), weight = std::sqrt(normal_distribution(-length)) / sum;
    if (length > 0 && weight > 1e-3) bumps.push_back({scaled(p.u, 1 / length), length, 1, 1, share_points * weight});
  }
}

void add_fitted(const std::vector<Point>& failures, std::vector<Bump>& bumps) {
  if (failures.size() < least_cluster) return;
  for (const auto& cluster : clusters_of(failures))
    if (cluster.size() >= least_cluster)
      bumps.push_back(
          fitted(cluster, share_clusters * static_cast<double>(cluster.size()) / static_cast<double>(failures.size())));
  std::vector<const Point*> all;
  for (const Point& p : failures) all.push_back(&p);
  bumps.push_back(fitted(all, share_broad));
}

}  // namespace

Mixture proposal(const FirstOrder& first_order, const std::vector<Point>& failures, std::size_t dimension) {
  std::vector<Bump> bumps;
  add_points(first_order, bumps);
  add_fitted(failures, bumps);
  double nearest = first_order.points.empty() ? 3 : norm(first_order.points.front().u);
  for (const Point& p : failures) nearest = std::min(nearest, norm(p));
  const double spread = std::max(1.0, nearest / std::sqrt(static_cast<double>(dimension)));
  Point axis(dimension);
  axis[0] = 1;
  bumps.push_back({std::move(axis), 0, spread, spread, share_origin});
  return Mixture(std::move(bumps));
}

}  // namespace engine::rare
