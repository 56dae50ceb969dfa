#include "tests/engine/optimisation_odds.hpp"

#include <cmath>

namespace optimisation {
namespace {

using engine::Block;
using engine::BoxProblem;
using engine::OddsProblem;
using Point = std::vector<double>;

constexpr double spread = 0.3;
constexpr std::array<double, 4> beam_spread = {.1693, .1693, .0107, .0107};

double cumulative(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

/// P(G2 < 0 | x1): X2 within the ellipse.
double inside_ellipse(double x1, double d2) {
  // (x2 + p)²/30 + (x2 + q)²/120 = 1 with p = x1 − 5 and q = 12 − x1.
  const double p = x1 - 5, q = 12 - x1, a = 1 / 30.0 + 1 / 120.0, b = p / 30 + q / 120,
               c = p * p / 30 + q * q / 120 - 1;
  const double root = b * b - a * c;
  if (!(root > 0)) return 0;
  const double low = (-b - std::sqrt(root)) / a, high = (-b + std::sqrt(root)) / a;
  return cumulative((high - d2) / spread) - cumulative((low - d2) / spread);
}

std::array<double, 5> beam_margins(double x1, double x2, double x3, double x4) {
  constexpr double load = 26688, arm = 355.6, e = 206850, g = 82740;
  const double leg = std::sqrt(2) * x1 * x2, direct = load / leg;
  const double wide = (x1 + x3) * (x1 + x3), r = std::sqrt(x2 * x2 + wide) / 2;
  const double turning = load * (arm + x2 / 2) * r / (leg * (x2 * x2 / 12 + wide / 4));
  const double shear = std::sqrt(direct * direct + 2 * direct * turning * x2 / (2 * r) + turning * turning);
  const double bending = 6 * load * arm / (x3 * x3 * x4), sag = 4 * load * arm * arm * arm / (e * x3 * x3 * x3 * x4);
  const double buckling =
      4.013 * x3 * x4 * x4 * x4 * std::sqrt(e * g) / (6 * arm * arm) * (1 - x3 / (4 * arm) * std::sqrt(e / g));
  return {1 - shear / 93.77, 1 - bending / 206.85, x4 / x1 - 1, 1 - sag / 6.35, buckling / load - 1};
}

double beam_cost(const Point& x) { return 6.74135e-5 * x[0] * x[0] * x[1] + 2.93585e-6 * x[2] * x[3] * (355.6 + x[1]); }

const Point beam_low = {3.175, 10, 10, 3.175}, beam_high = {50.8, 254, 254, 50.8};

}  // namespace

OddsProblem two_variables(double allowed) {
  OddsProblem p;
  p.lower = {0, 0};
  p.upper = {10, 10};
  p.allowed.assign(3, allowed);
  p.normals = 2;
  p.objective = [](const Point& d) { return d[0] + d[1]; };
  p.margins = [](const Point& d, const Block& z, Block& g, std::size_t n) {
    for (std::size_t i = 0; i < n; ++i) {
      const double x1 = d[0] + spread * z.row(0)[i], x2 = d[1] + spread * z.row(1)[i];
      const double s = x1 + x2 - 5, t = x1 - x2 - 12;
      g.row(0)[i] = x1 * x1 * x2 / 20 - 1;
      g.row(1)[i] = s * s / 30 + t * t / 120 - 1;
      g.row(2)[i] = 80 / (x1 * x1 + 8 * x2 + 5) - 1;
    }
  };
  return p;
}

std::array<double, 2> two_variable_odds(double d1, double d2) {
  constexpr int steps = 20000;
  constexpr double reach = 9, h = 2 * reach / steps;
  std::array<double, 2> sums{};
  for (int i = 0; i <= steps; ++i) {
    const double z = -reach + i * h, x1 = d1 + spread * z;
    const double weight = (i == 0 || i == steps ? 1
                           : i % 2              ? 4
                                                : 2) *
                          h / 3 * std::exp(-z * z / 2) / std::sqrt(2 * M_PI);
    sums[0] += weight * cumulative((20 / (x1 * x1) - d2) / spread);
    sums[1] += weight * inside_ellipse(x1, d2);
  }
  return sums;
}

Vertex two_variable_vertex(double allowed) {
  double d1 = 3.45, d2 = 3.27;
  double slope[2][2] = {};
  for (int round = 0; round < 30; ++round) {
    constexpr double h = 1e-5;
    const auto here = two_variable_odds(d1, d2);
    const auto a = two_variable_odds(d1 + h, d2), b = two_variable_odds(d1 - h, d2);
    const auto c = two_variable_odds(d1, d2 + h), e = two_variable_odds(d1, d2 - h);
    double gap[2];
    for (int k = 0; k < 2; ++k) {  // in logarithms, where Newton's steps are near straight
      gap[k] = std::log(here[k] / allowed);
      slope[k][0] = std::log(a[k] / b[k]) / (2 * h);
      slope[k][1] = std::log(c[k] / e[k]) / (2 * h);
    }
    const double det = slope[0][0] * slope[1][1] - slope[0][1] * slope[1][0];
    d1 -= (gap[0] * slope[1][1] - gap[1] * slope[0][1]) / det;
    d2 -= (gap[1] * slope[0][0] - gap[0] * slope[1][0]) / det;
  }
  // (1, 1) = −λ1 ∇ln P1 − λ2 ∇ln P2
  const double det = slope[0][0] * slope[1][1] - slope[0][1] * slope[1][0];
  return {d1, d2, d1 + d2, {-(slope[1][1] - slope[1][0]) / det, -(slope[0][0] - slope[0][1]) / det}};
}

OddsProblem scattered_beam(double allowed) {
  OddsProblem p;
  p.lower = beam_low;
  p.upper = beam_high;
  p.allowed.assign(5, allowed);
  p.normals = 4;
  p.objective = beam_cost;
  p.margins = [](const Point& d, const Block& z, Block& g, std::size_t n) {
    for (std::size_t i = 0; i < n; ++i) {
      const auto x = [&](std::size_t k) { return d[k] + beam_spread[k] * z.row(k)[i]; };
      const std::array<double, 5> m = beam_margins(x(0), x(1), x(2), x(3));
      for (std::size_t k = 0; k < m.size(); ++k) g.row(k)[i] = m[k];
    }
  };
  return p;
}

BoxProblem exact_beam() {
  return {beam_low, beam_high, 5, [](const Point& x) {
            BoxProblem::Value value{beam_cost(x), {}};
            for (const double margin : beam_margins(x[0], x[1], x[2], x[3])) value.constraints.push_back(-margin);
            return value;
          }};
}

}  // namespace optimisation
