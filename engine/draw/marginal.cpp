#include "engine/draw/marginal.hpp"

#include <algorithm>
#include <boost/math/quadrature/tanh_sinh.hpp>
#include <cmath>

#include "engine/draw/shape.hpp"

namespace engine {
namespace {

/// ∫ f(x(u)) du over (0, 1), in halves so that both tails keep their digits.
template <class F>
double expected(const Marginal& m, F f) {
  boost::math::quadrature::tanh_sinh<double> rule;
  return rule.integrate([&](double u) { return f(m.quantile(u, 1 - u)); }, 0.0, 0.5) +
         rule.integrate([&](double rest) { return f(m.quantile(1 - rest, rest)); }, 0.0, 0.5);
}

/// A student with a tail left that is too long for a moment of this order.
bool endless(const Marginal& m, double order) {
  return m.shape == Shape::student && m.c <= order && (std::isinf(m.window.least) || std::isinf(m.window.most));
}

}  // namespace

double Marginal::mean() const {
  if (window.whole()) return whole_mean(*this);
  return endless(*this, 1) ? a : expected(*this, [](double x) { return x; });
}

double Marginal::median() const { return shape == Shape::fixed ? a : quantile(0.5); }

double Marginal::spread() const {
  if (window.whole()) return whole_spread(*this);
  if (endless(*this, 2)) return std::numeric_limits<double>::quiet_NaN();
  const double middle = mean();
  return std::sqrt(expected(*this, [&](double x) { return (x - middle) * (x - middle); }));
}

double Marginal::quantile(double u) const { return quantile(u, 1 - u); }

double Marginal::quantile(double u, double rest) const {
  if (window.whole()) return whole_quantile(*this, {u, rest});
  const Share share{window.lost_below + window.kept * u, window.lost_above + window.kept * rest};
  constexpr double all = std::numeric_limits<double>::infinity();
  return std::clamp(whole_quantile(*this, share), std::nextafter(window.least, all), std::nextafter(window.most, -all));
}

double Marginal::distribution(double x) const {
  if (x <= window.least) return 0;
  if (x >= window.most) return 1;
  const Share share = whole_share(*this, x);
  if (window.whole()) return share.below;
  return share.below <= share.above ? (share.below - window.lost_below) / window.kept
                                    : 1 - (share.above - window.lost_above) / window.kept;
}

}  // namespace engine
