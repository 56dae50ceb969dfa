#include "engine/draw/quintic.hpp"

#include <cmath>
#include <limits>

namespace engine {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// Σ p[i] sⁱ through values at the squares of the first three nodes: Newton's differences.
std::array<double, 3> parabola(double first, double second, double third) {
  constexpr double s0 = 1, s1 = nodes[1] * nodes[1], s2 = nodes[2] * nodes[2];
  const double one = (second - first) / (s1 - s0), next = (third - second) / (s2 - s1), two = (next - one) / (s2 - s0);
  return {first - s0 * one + s0 * s1 * two, one - (s0 + s1) * two, two};
}

}  // namespace

double at(const Quintic& p, double t) {
  double sum = 0;
  for (std::size_t i = p.size(); i-- > 0;) sum = sum * t + p[i];
  return sum;
}

Accuracy::Accuracy(const Marginal& marginal) : scale_(marginal.spread()), median_(marginal.median()) {
  if (!std::isfinite(scale_)) scale_ = marginal.b;
}

bool Accuracy::holds(double drawn, double exact) const {
  constexpr double near = 1e-11, rounding = 4 * std::numeric_limits<double>::epsilon();
  return std::abs(drawn - exact) <= near * (scale_ + std::abs(exact - median_)) + rounding * std::abs(exact);
}

std::pair<double, double> ends(const Marginal& m) {
  if (!m.window.whole()) return {std::nextafter(m.window.least, infinity), std::nextafter(m.window.most, -infinity)};
  switch (m.shape) {
    case Shape::uniform:
    case Shape::triangular:
    case Shape::beta:
      return {m.a, m.b};
    case Shape::weibull:
      return {m.a, infinity};
    case Shape::lognormal:
      return {0, infinity};
    default:
      return {-infinity, infinity};
  }
}

Quintic through(const std::array<double, 6>& values) {
  const auto even = [&](std::size_t i) { return (values[i] + values[5 - i]) / 2; };
  const auto odd = [&](std::size_t i) { return (values[i] - values[5 - i]) / 2 / nodes[i]; };
  const auto e = parabola(even(0), even(1), even(2)), o = parabola(odd(0), odd(1), odd(2));
  return {e[0], o[0], e[1], o[1], e[2], o[2]};
}

}  // namespace engine
