#pragma once
/// Torque and force of a power screw with Coulomb friction: one pass, plain doubles, inlined into the block kernel.
/// Nut length does not enter: with Coulomb friction it has no say in torque or force.
/// @source Shigley, Mechanical Engineering Design, 9th ed., Eqs. 8-1 to 8-6, exact in the normal flank angle
#include <cmath>
#include <numbers>

namespace models {

/// The thread's part of every torque formula, for one pitch diameter.
struct Helix {
  double d2 = 0;     ///< pitch diameter [m]
  double tan_λ = 0;  ///< lead / (π d2)
  double s = 1;      ///< 1/cos α_n, with tan α_n = tan α_l · cos λ
};

/// @param lead            [m]
/// @param pitch_diameter  d2 [m], > 0
/// @param tan_flank       tan α_l, axial plane
[[gnu::always_inline]] inline Helix helix(double lead, double pitch_diameter, double tan_flank) {
  const double tan_λ = lead / (std::numbers::pi * pitch_diameter);
  const double cos2_λ = 1 / (1 + tan_λ * tan_λ);
  return {pitch_diameter, tan_λ, std::sqrt(1 + tan_flank * tan_flank * cos2_λ)};
}

/// Raising arm r_up [m]: torque through the thread per unit of axial force, (d2/2)(tan λ + μ s)/(1 − μ s tan λ).
/// @return +infinity when the screw jams (μ s tan λ ≥ 1)
[[gnu::always_inline]] inline double raising_arm(const Helix& h, double friction) {
  const double m = friction * h.s, below = 1 - m * h.tan_λ;
  return below > 0 ? h.d2 / 2 * (h.tan_λ + m) / below : __builtin_inf();
}

/// Lowering arm r_dn [m]: (d2/2)(μ s − tan λ)/(1 + μ s tan λ); negative where the load drives the screw back.
[[gnu::always_inline]] inline double lowering_arm(const Helix& h, double friction) {
  const double m = friction * h.s;
  return h.d2 / 2 * (m - h.tan_λ) / (1 + m * h.tan_λ);
}

/// Axial force [N] that a torque makes: F = m·max(0, (T − T_0)/(r_up + r_face)); 0 where the screw jams.
/// @param arm          r_up + r_face [m]
/// @param drag         T_0 [N·m]
/// @param model_error  m, factor on force
[[gnu::always_inline]] inline double force_of_torque(double torque, double arm, double drag, double model_error) {
  const double net = torque - drag;
  return net > 0 ? model_error * net / arm : 0;
}

/// lock_margin of thread and face: [μ s + (2 r_face/d2)(1 + μ s tan λ)]/tan λ; 1 where r_dn + r_face = 0.
/// With r_face = 0 it is that of the thread alone, μ s/tan λ.
[[gnu::always_inline]] inline double lock_margin(const Helix& h, double friction, double face_arm) {
  const double m = friction * h.s;
  return (m + 2 * face_arm / h.d2 * (1 + m * h.tan_λ)) / h.tan_λ;
}

/// Sliding speed of the flanks [m/s]: v = π d2 n / cos λ, n in rev/s.
[[gnu::always_inline]] inline double sliding_speed(const Helix& h, double rotation) {
  return std::numbers::pi * h.d2 * rotation * std::sqrt(1 + h.tan_λ * h.tan_λ);
}

}  // namespace models
