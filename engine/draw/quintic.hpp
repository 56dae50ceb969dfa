#pragma once
/// Polynomials of degree 5 that stand for a quantile function over a short stretch; for the tables of the room.
#include <array>
#include <optional>
#include <utility>

#include "engine/draw/marginal.hpp"

namespace engine {

/// From the constant up, t from −1 to 1.
using Quintic = std::array<double, 6>;

double at(const Quintic& p, double t);

/// How near a table must come to the values of a distribution: between its nodes within 1e-11 of spread + |x − median|,
/// the student's scale in place of a spread that it does not have, and 4 units in the last place.
class Accuracy {
public:
  explicit Accuracy(const Marginal& marginal);
  bool holds(double drawn, double exact) const;

private:
  double scale_, median_;
};

/// The least and the most value of a distribution, themselves included.
std::pair<double, double> ends(const Marginal& marginal);

/// Through f at the extremes of Chebyshev's polynomial of degree 5, its even and its odd part apart.
Quintic through(const std::array<double, 6>& values);
/// Where those are taken: t of each value, from the right: cos 0°, cos 36° … cos 180°.
inline constexpr std::array<double, 6> nodes = {
    1, 0.80901699437494742, 0.30901699437494742, -0.30901699437494742, -0.80901699437494742, -1};
/// Halfway between them in angle.
inline constexpr std::array<double, 5> checks = {0.95105651629515357, 0.58778525229247313, 0, -0.58778525229247313,
                                                 -0.95105651629515357};

/// A polynomial through f, if it comes near enough in between.
/// @param f  t in [−1, 1] → exact value
template <class F>
std::optional<Quintic> fitted(F f, const Accuracy& accuracy) {
  std::array<double, 6> values;
  for (std::size_t i = 0; i < nodes.size(); ++i) values[i] = f(nodes[i]);
  const Quintic p = through(values);
  for (const double t : checks)
    if (!accuracy.holds(at(p, t), f(t))) return std::nullopt;
  return p;
}

}  // namespace engine
