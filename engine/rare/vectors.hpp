#pragma once
/// Plain vector arithmetic of points in standard normal space.
#include <cmath>
#include <numeric>

#include "engine/rare/subset.hpp"

namespace engine::rare {

inline double dot(const Point& a, const Point& b) { return std::inner_product(a.begin(), a.end(), b.begin(), 0.0); }
inline double norm(const Point& a) { return std::sqrt(dot(a, a)); }
inline double distance(const Point& a, const Point& b) {
  return std::sqrt(std::transform_reduce(a.begin(), a.end(), b.begin(), 0.0, std::plus<>(),
                                         [](double x, double y) { return (x - y) * (x - y); }));
}
inline Point scaled(Point a, double factor) {
  for (double& x : a) x *= factor;
  return a;
}
/// Cosine of the angle between two points as seen from the origin; 0 where one is the origin.
inline double cosine(const Point& a, const Point& b) {
  const double lengths = norm(a) * norm(b);
  return lengths > 0 ? dot(a, b) / lengths : 0;
}
inline Point column(const Block& u, std::size_t i) {
  Point point(u.rows());
  for (std::size_t d = 0; d < u.rows(); ++d) point[d] = u.row(d)[i];
  return point;
}

}  // namespace engine::rare
