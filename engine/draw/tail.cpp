#include "engine/draw/tail.hpp"

#include <algorithm>

#include "engine/lanes/point_math.hpp"

namespace engine {
namespace {

/// Φ(z), never quite 0.
double share(double z) { return std::max(normal_distribution(z), 1e-300); }

}  // namespace

double tail_value(const Marginal& m, double z) {
  if (m.window.whole() && m.shape == Shape::normal) return m.a + m.b * z;
  if (m.window.whole() && m.shape == Shape::lognormal) return exponential(m.a + m.b * z);
  return m.quantile(share(z), share(-z));
}

}  // namespace engine
