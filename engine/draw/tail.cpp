#include "engine/draw/tail.hpp"

#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>

namespace engine {
namespace {

/// The share in the tail beyond −|z|; never 0.
double beyond(double z) { return std::max(normal_distribution(-std::abs(z)), 1e-300); }

/// From the low end below the mode, from the high end above it, whichever tail z lies in.
double triangular_value(const Marginal& m, double z) {
  const double width = m.b - m.a, left = (m.c - m.a) / width, tail = beyond(z);
  const double below = z < 0 ? tail : 1 - tail, above = z < 0 ? 1 - tail : tail;
  if (below < left) return m.a + std::sqrt(below * width * (m.c - m.a));
  return m.b - std::sqrt(above * width * (m.b - m.c));
}

double student_value(const Marginal& m, double z) {
  const double t = boost::math::quantile(boost::math::students_t_distribution<double>(m.c), beyond(z));
  return z < 0 ? m.a + m.b * t : m.a - m.b * t;
}

}  // namespace

double tail_value(const Marginal& m, double z) {
  switch (m.shape) {
    case Shape::fixed:
      return m.a;
    case Shape::normal:
      return m.a + m.b * z;
    case Shape::lognormal:
      return std::exp(m.a + m.b * z);
    case Shape::uniform:
      return z < 0 ? m.a + (m.b - m.a) * beyond(z) : m.b - (m.b - m.a) * beyond(z);
    case Shape::triangular:
      return triangular_value(m, z);
    case Shape::student:
      return student_value(m, z);
  }
  return m.a;
}

}  // namespace engine
