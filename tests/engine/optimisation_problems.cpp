#include "tests/engine/optimisation_problems.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace optimisation {
namespace {

using engine::BoxProblem;
using Point = std::vector<double>;
using Value = BoxProblem::Value;

constexpr double pi = 3.14159265358979323846;

double square(double x) { return x * x; }
double cube(double x) { return x * x * x; }

/// Torsional stiffness of the weld group, as a paper writes it.
double stiffness(BeamJ j, double h, double l, double t) {
  const double arm = square((h + t) / 2), root = std::sqrt(2);
  if (j == BeamJ::h_over_root) return 2 * (h * l / root * (l * l / 12 + arm));
  return 2 * (root * h * l * (l * l / (j == BeamJ::standard ? 12 : 4) + arm));
}

/// Volume that a vessel of radius R lacks, made up by a cylinder: its length.
double length_for_volume(double r) { return (1296000 - 4.0 / 3 * pi * cube(r)) / (pi * r * r); }

double vessel_cost(double shell, double head, double r, double l) {
  return .6224 * shell * r * l + 1.7781 * head * r * r + 3.1661 * shell * shell * l + 19.84 * shell * shell * r;
}

/// The cost at the least radius that gives the volume with the longest cylinder, with the length that the greatest
/// radius needs: both rise in R and L, so nothing in the cell costs less.
double vessel_bound(double shell, double head, double longest) {
  const double widest = std::min({200.0, shell / .0193, head / .00954});
  if (widest < 10 || length_for_volume(widest) > longest) return std::nan("");
  double low = 10, high = widest;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (length_for_volume(middle) > longest ? low : high) = middle;
  }
  return vessel_cost(shell, head, low, std::max(10.0, length_for_volume(widest)));
}

std::vector<double> sixteenths() {
  std::vector<double> grid;
  for (int i = 1; i <= 99; ++i) grid.push_back(.0625 * i);
  return grid;
}

double reducer_weight(double x3, const Point& x) {
  const double x1 = x[0], x2 = x[1], x4 = x[2], x5 = x[3], x6 = x[4], x7 = x[5];
  return .7854 * x1 * x2 * x2 * (3.3333 * x3 * x3 + 14.9334 * x3 - 43.0934) - 1.508 * x1 * (x6 * x6 + x7 * x7) +
         7.4777 * (cube(x6) + cube(x7)) + .7854 * (x4 * x6 * x6 + x5 * x7 * x7);
}

}  // namespace

BoxProblem tutorial() {
  return {{-10, 0}, {10, 10}, 2, [](const Point& x) {
            return Value{std::sqrt(x[1]), {cube(2 * x[0]) - x[1], cube(1 - x[0]) - x[1]}};
          }};
}

BoxProblem hock_schittkowski_71() {
  return {Point(4, 1), Point(4, 5), 2, [](const Point& x) {
            double product = 1, squares = 0;
            for (const double v : x) product *= v, squares += v * v;
            return Value{x[0] * x[3] * (x[0] + x[1] + x[2]) + x[2], {1 - product / 25, squares / 40 - 1}};
          }};
}

BoxProblem welded_beam(BeamJ j) {
  return {{.1, .1, .1, .1}, {2, 10, 10, 2}, 7, [j](const Point& x) {
            constexpr double load = 6000, arm = 14, e = 30e6, g = 12e6;
            const double h = x[0], l = x[1], t = x[2], b = x[3];
            const double r = std::sqrt(l * l / 4 + square((h + t) / 2)), direct = load / (std::sqrt(2) * h * l);
            const double turning = load * (arm + l / 2) * r / stiffness(j, h, l, t);
            const double shear = std::sqrt(square(direct) + direct * turning * l / r + square(turning));
            const double buckling = 4.013 * e * std::sqrt(t * t * std::pow(b, 6) / 36) / square(arm) *
                                    (1 - t / (2 * arm) * std::sqrt(e / (4 * g)));
            const double bar = .04811 * t * b * (14 + l);
            return Value{1.10471 * h * h * l + bar,
                         {shear / 13600 - 1, 6 * load * arm / (b * t * t) / 30000 - 1,
                          4 * load * cube(arm) / (e * cube(t) * b) / .25 - 1, h / b - 1, .125 / h - 1,
                          (.10471 * h * h + bar) / 5 - 1, 1 - buckling / load}};
          }};
}

BoxProblem spring() {
  return {{.05, .25, 2}, {2, 1.3, 15}, 4, [](const Point& x) {
            const double d = x[0], wide = x[1], n = x[2];
            const double stress =
                (4 * wide * wide - d * wide) / (12566 * (wide * cube(d) - square(d * d))) + 1 / (5108 * d * d);
            // D = d has no spring: the stress formula divides by nothing there and turns negative beyond.
            return Value{(n + 2) * wide * d * d,
                         {1 - cube(wide) * n / (71785 * square(d * d)), wide > d ? stress - 1 : 1,
                          1 - 140.45 * d / (wide * wide * n), (wide + d) / 1.5 - 1}};
          }};
}

BoxProblem speed_reducer(double x3, double least_x5) {
  return {{2.6, .7, 7.3, least_x5, 2.9, 5}, {3.6, .8, 8.3, 8.3, 3.9, 5.5}, 11, [x3](const Point& x) {
            const double x1 = x[0], x2 = x[1], x4 = x[2], x5 = x[3], x6 = x[4], x7 = x[5];
            const double mesh = x1 * x2 * x2 * x3;
            const auto stress = [&](double length, double torque, double d) {
              return std::sqrt(square(745 * length / (x2 * x3)) + torque) / (.1 * cube(d));
            };
            return Value{reducer_weight(x3, x),
                         {27 / mesh - 1, 397.5 / (mesh * x3) - 1, 1.93 * cube(x4) / (x2 * x3 * square(x6 * x6)) - 1,
                          1.93 * cube(x5) / (x2 * x3 * square(x7 * x7)) - 1, stress(x4, 16.9e6, x6) / 1100 - 1,
                          stress(x5, 157.5e6, x7) / 850 - 1, x2 * x3 / 40 - 1, 5 * x2 / x1 - 1, x1 / (12 * x2) - 1,
                          (1.5 * x6 + 1.9) / x4 - 1, (1.1 * x7 + 1.9) / x5 - 1}};
          }};
}

std::vector<Known> continuous() {
  const char* beam =
      "Coello, Computers in Industry 41 (2000), J = 2[√2 h l (l²/12 + ((h+t)/2)²)]; 1.724852308597 "
      "in print, recomputed";
  return {
      {"tutorial", tutorial(), std::sqrt(8.0 / 27), {1.0 / 3, 8.0 / 27}, "NLopt's tutorial; exact: √(8/27)"},
      {"Hock & Schittkowski 71",
       hock_schittkowski_71(),
       17.0140172892,
       {1, 4.74299964, 3.82114998, 1.37940829},
       "Test Examples for Nonlinear Programming Codes (1981), 71: 17.0140173, recomputed"},
      {"welded beam, l²/12",
       welded_beam(BeamJ::standard),
       1.724852309,
       {.20572964, 3.47048867, 9.03662391, .20572964},
       beam},
      {"welded beam, l²/4",
       welded_beam(BeamJ::l_over_four),
       1.695247165,
       {.20572964, 3.253120, 9.03662391, .20572964},
       "J = 2[√2 h l (l²/4 + …)], a variant in print: 1.6952471, recomputed"},
      {"welded beam, h l/√2", welded_beam(BeamJ::h_over_root), 2.218151, {}, "J = 2[h l/√2 (l²/12 + …)], recomputed"},
      {"spring",
       spring(),
       .0126652328,
       {.051689061, .356717736, 11.28896},
       "Belegundu (1982), Arora (1989): .012665232788 in print, recomputed"},
      {"speed reducer, 7.3 ≤ x5",
       speed_reducer(17, 7.3),
       2994.4710661,
       {3.5, .7, 7.3, 7.7153199, 3.3502147, 5.2866545},
       "Golinski (1970); 2994.471066247639 in print, recomputed"},
      {"speed reducer, 7.8 ≤ x5",
       speed_reducer(17, 7.8),
       2996.3481650,
       {3.5, .7, 7.3, 7.8, 3.3502147, 5.2866832},
       "Golinski (1970); 2996.348165 in print, recomputed"},
  };
}

BoxProblem vessel(double shell, double head, double longest) {
  return {{10, 10}, {200, longest}, 3, [=](const Point& x) {
            const double r = x[0], l = x[1];
            return Value{vessel_cost(shell, head, r, l),
                         {.0193 * r / shell - 1, .00954 * r / head - 1,
                          1 - (pi * r * r * l + 4.0 / 3 * pi * cube(r)) / 1296000}};
          }};
}

KnownMixed pressure_vessel(double longest) {
  const bool up_to_200 = longest == 200;
  return {up_to_200 ? "pressure vessel, L ≤ 200" : "pressure vessel, L ≤ 240",
          {{sixteenths(), sixteenths()},
           [longest](const Point& c) { return vessel(c[0], c[1], longest); },
           [longest](const Point& c) { return vessel_bound(c[0], c[1], longest); }},
          up_to_200 ? 6059.714335048436 : 5850.383060329,
          up_to_200 ? Point{.8125, .4375} : Point{.75, .375},
          up_to_200 ? Point{42.0984455958549, 176.636595842439} : Point{38.8601036, 221.3654714},
          up_to_200 ? "Sandgren (1990); Kannan & Kramer (1994); 6059.714335048436, Yang et al. (2013), recomputed"
                    : "the same with the L ≤ 240 that its fourth constraint prints, recomputed"};
}

KnownMixed speed_reducer_mixed(double least_x5) {
  const bool wide = least_x5 < 7.5;
  std::vector<double> teeth;
  for (int z = 17; z <= 28; ++z) teeth.push_back(z);
  // Over the box the weight rises in each of its sides, so that the lower corner is its least.
  return {wide ? "speed reducer, teeth too, 7.3 ≤ x5" : "speed reducer, teeth too, 7.8 ≤ x5",
          {{teeth},
           [least_x5](const Point& c) { return speed_reducer(c[0], least_x5); },
           [least_x5](const Point& c) {
             return reducer_weight(c[0], {2.6, .7, 7.3, least_x5, 2.9, 5});
           }},
          wide ? 2994.4710661 : 2996.3481650,
          {17},
          {3.5, .7, 7.3, wide ? 7.7153199 : 7.8, 3.3502147, wide ? 5.2866545 : 5.2866832},
          "Golinski (1970), x3 a whole number 17 … 28, recomputed"};
}

std::vector<KnownMixed> mixed() {
  return {pressure_vessel(200), pressure_vessel(240), speed_reducer_mixed(7.3), speed_reducer_mixed(7.8)};
}

}  // namespace optimisation
