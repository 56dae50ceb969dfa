#pragma once
/// The standard workload of the speed table: 8 uncertain inputs → 12 outputs of a clamped screw, invented constants.
/// One formula for the product's loop and for the plain loop; baseline.py says the same in NumPy.
#include <cstddef>

namespace bench {

constexpr std::size_t input_count = 8, output_count = 12, first_limit = 8;
constexpr double pi = 3.14159265358979323846;
constexpr double lead = 5e-3, pitch = 5e-3, major = 24.5e-3, minor = 19e-3, nut = 40e-3, tan_flank = 0.26794919243112;
constexpr double face_radius = 15e-3, length = 0.485, wanted = 8000, safe_pressure = 12e6;

struct In {
  double torque, friction, face_friction, yield, modulus, model, diameter, drag;
};
struct Out {
  double force, thread_torque, efficiency, axial, torsion, combined, bearing, buckling, by_force, by_yield, by_buckling,
      by_bearing;
};

/// As an engineer writes it: 17 divisions and 2 square roots.
[[gnu::always_inline]] inline Out evaluate(const In& x) {
  Out y;
  const double d2 = 22e-3 + x.diameter, d3 = minor + x.diameter;
  const double tan_l = lead / (pi * d2), s = __builtin_sqrt(1 + tan_flank * tan_flank / (1 + tan_l * tan_l));
  const double m = x.friction * s, up = d2 / 2 * (tan_l + m) / (1 - m * tan_l);
  y.force = x.model * (x.torque - x.drag) / (up + x.face_friction * face_radius);
  y.thread_torque = y.force * up / x.model;
  y.efficiency = y.force * lead / (2 * pi * x.torque);
  y.axial = 4 * y.force / (pi * d3 * d3);
  y.torsion = 16 * y.thread_torque / (pi * d3 * d3 * d3);
  y.combined = __builtin_sqrt(y.axial * y.axial + 3 * y.torsion * y.torsion);
  y.bearing = y.force * pitch / (pi * d2 * (pitch / 2) * nut);
  const double slender = length / (d3 / 4), s2 = slender * slender;
  const double euler = pi * pi * x.modulus / s2, johnson = x.yield - x.yield * x.yield * s2 / (4 * pi * pi * x.modulus);
  y.buckling = pi * d3 * d3 / 4 * (s2 * x.yield > 2 * pi * pi * x.modulus ? euler : johnson);
  y.by_force = y.force / wanted;
  y.by_yield = x.yield / y.combined;
  y.by_buckling = y.buckling / y.force;
  y.by_bearing = safe_pressure / y.bearing;
  return y;
}

/// The same with reciprocals shared, as a block model is written: 5 divisions and 2 square roots. The two agree to
/// 2e-15.
[[gnu::always_inline]] inline Out evaluate_lean(const In& x) {
  Out y;
  const double d2 = 22e-3 + x.diameter, d3 = minor + x.diameter, per_both = 1 / (d2 * d3);
  const double per_d2 = per_both * d3, per_d3 = per_both * d2, d3_squared = d3 * d3, per_d3_squared = per_d3 * per_d3;
  const double tan_l = (lead / pi) * per_d2;
  const double m = x.friction * __builtin_sqrt(1 + tan_flank * tan_flank / (1 + tan_l * tan_l));
  // up = lift/rest; multiplied through by rest, force and thread torque have one division between them.
  const double rest = 1 - m * tan_l, lift = d2 / 2 * (tan_l + m);
  const double bare = (x.torque - x.drag) / (lift + x.face_friction * face_radius * rest);
  y.force = x.model * (bare * rest);
  y.thread_torque = bare * lift;
  y.axial = (4 / pi) * y.force * per_d3_squared;
  y.torsion = (16 / pi) * y.thread_torque * (per_d3_squared * per_d3);
  y.combined = __builtin_sqrt(y.axial * y.axial + 3 * y.torsion * y.torsion);
  y.bearing = (2 / (pi * nut)) * y.force * per_d2;
  const double per_all = 1 / (y.force * x.torque * x.modulus), per_force = per_all * x.torque * x.modulus;
  y.efficiency = (lead / (2 * pi)) * y.force * (per_all * y.force * x.modulus);
  constexpr double scaled = 16 * length * length;  // of the slenderness: s² = scaled/d3²
  const double euler = (pi * pi / scaled) * x.modulus * d3_squared;
  const double johnson =
      x.yield - (scaled / (4 * pi * pi)) * x.yield * x.yield * per_d3_squared * (per_all * y.force * x.torque);
  y.buckling = (pi / 4) * d3_squared * (2 * euler < x.yield ? euler : johnson);
  y.by_force = y.force * (1 / wanted);
  y.by_yield = x.yield / y.combined;
  y.by_buckling = y.buckling * per_force;
  y.by_bearing = (safe_pressure * pi * nut / 2) * d2 * per_force;
  return y;
}

struct Loops {
  /// Rows `stride` apart.
  void (*as_written)(const double* x, double* y, std::size_t stride, std::size_t passes);
  void (*lean)(const double* x, double* y, std::size_t stride, std::size_t passes);
  /// What the processor can do at most: eight divisions, eight square roots, 32 multiplications and additions a number.
  void (*divide)(const double* x, double* y, std::size_t n);
  void (*root)(const double* x, double* y, std::size_t n);
  void (*add_multiply)(const double* x, double* y, std::size_t n);
};

/// Of the instruction set in use.
const Loops& loops_in_use();

}  // namespace bench
