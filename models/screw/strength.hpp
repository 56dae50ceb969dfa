#pragma once
/// Stresses of the screw and the nut under one axial force and torque: one pass, plain doubles, inlined into the
/// kernel.
/// @source Shigley, Mechanical Engineering Design, 9th ed., Eqs. 8-7 to 8-11, generalised to any flank angles
#include <cmath>
#include <numbers>

namespace models {

inline constexpr double π = std::numbers::pi;

/// σ = 4F/(π d3²), a magnitude [Pa].
[[gnu::always_inline]] inline double axial_stress(double force, double d3) { return 4 * force / (π * d3 * d3); }
/// τ = 16 T/(π d3³) [Pa].
[[gnu::always_inline]] inline double torsion_stress(double torque, double d3) {
  return 16 * torque / (π * d3 * d3 * d3);
}
/// σ_b = 32 M/(π d3³) [Pa].
[[gnu::always_inline]] inline double bending_stress(double moment, double d3) {
  return 32 * moment / (π * d3 * d3 * d3);
}

/// σ_v = √((σ + σ_b)² + 3τ²) [Pa].
[[gnu::always_inline]] inline double combined_stress(double axial, double bending, double torsion) {
  const double normal = axial + bending;
  return std::sqrt(normal * normal + 3 * torsion * torsion);
}

/// von Mises stress [Pa] at the root of the screw's first turn, which carries the share k1 of the force: σ_x = 6 k1 F
/// arm
/// /(π d3 b²) with b the root width and arm (d2 − d3)/2, σ_y = −σ (the worst fibre), τ_yz = τ.
/// @param share       k1 = max(0.38, 1/N)
/// @param tan_flanks  tan α_l + tan α_o
[[gnu::always_inline]] inline double thread_root_stress(double force, double axial, double torsion, double share,
                                                        double pitch, double d2, double d3, double tan_flanks) {
  const double depth = d2 - d3, b = pitch / 2 + depth * tan_flanks / 2;
  const double x = 6 * share * force * (depth / 2) / (π * d3 * b * b), y = -axial;
  return std::sqrt((x * x + y * y + (x - y) * (x - y)) / 2 + 3 * torsion * torsion);
}

/// Bending stress [Pa] at the root of the nut's first turn: 6 k1 F (D4 − d2)/2 /(π D4 b_n²).
[[gnu::always_inline]] inline double nut_root_stress(double force, double share, double pitch, double d2, double D4,
                                                     double tan_flanks) {
  const double depth = D4 - d2, b = pitch / 2 + depth * tan_flanks / 2;
  return 6 * share * force * (depth / 2) / (π * D4 * b * b);
}

/// Tensile stress [Pa] of the nut body: F over the ring between D4 and D_o.
[[gnu::always_inline]] inline double nut_tension(double force, double D_o, double D4) {
  return 4 * force / (π * (D_o * D_o - D4 * D4));
}

/// Hoop stress [Pa] of the nut body as a thick ring under p_r = F tan α_l/(π d2 L_e).
[[gnu::always_inline]] inline double nut_hoop_stress(double force, double tan_flank, double d2, double L_e, double D_o,
                                                     double D4) {
  const double p_r = force * tan_flank / (π * d2 * L_e);
  return p_r * (D_o * D_o + D4 * D4) / (D_o * D_o - D4 * D4);
}

/// Shear area [m²] across the screw's threads, at the nut's minor diameter: π D1 L_e [1/2 + (d2 − D1)(tan α_l + tan
/// α_o)/(2P)].
/// @source ASME B1.5 and B1.1 App. B, form of the equation
[[gnu::always_inline]] inline double screw_shear_area(double D1, double L_e, double d2, double pitch,
                                                      double tan_flanks) {
  return π * D1 * L_e * (0.5 + (d2 - D1) * tan_flanks / (2 * pitch));
}

/// Shear area [m²] across the nut's threads, at the screw's major diameter: π d L_e [1/2 + (d − d2)(tan α_l + tan
/// α_o)/(2P)].
[[gnu::always_inline]] inline double nut_shear_area(double d, double L_e, double d2, double pitch, double tan_flanks) {
  return π * d * L_e * (0.5 + (d - d2) * tan_flanks / (2 * pitch));
}

/// Shear strength [Pa] of a brittle nut from its tensile strength: S_ut S_uc/(S_ut + S_uc) with S_uc = 3.6 S_ut.
[[gnu::always_inline]] inline double brittle_shear_strength(double tensile) { return tensile * 3.6 / 4.6; }

/// Load [N] at which a column of circular section d3 buckles: Euler above the transition slenderness, J. B. Johnson
/// below.
/// @param length     free length L [m], ≥ 0
/// @param end        end constant C [-]
/// @source Shigley 9th ed., Eqs. 4-42 and 4-46, Table 4-2
[[gnu::always_inline]] inline double buckling_load(double d3, double length, double end, double modulus, double yield) {
  const double area = π * d3 * d3 / 4, slenderness = length / (d3 / 4), s2 = slenderness * slenderness;
  const double transition2 = 2 * π * π * end * modulus / yield;
  const double euler = end * π * π * modulus / s2;
  const double johnson = yield - yield * yield * s2 / (4 * π * π * end * modulus);
  return area * (s2 > transition2 ? euler : johnson);
}

}  // namespace models
