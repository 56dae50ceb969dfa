#pragma once
/// One pass of the screw in plain doubles: what was drawn → how it turns → what it is loaded with → what that leaves.
/// Inlined into the block loops of screw_lanes.cpp; constants of the design are worked out once.
#include "engine/lanes/each.hpp"
#include "models/screw/design.hpp"
#include "models/screw/duty.hpp"
#include "models/screw/limit.hpp"
#include "models/screw/strength.hpp"
#include "models/screw/torque.hpp"

namespace models {

using engine::larger;
using engine::smaller;

/// What scatters, for one pass; the rows of Input by name.
struct Draw {
  double drive, load, thread_friction, face_friction, drag, yield, ultimate, nut_strength, modulus, model_error,
      deviation;
};

/// The screw turning against one force.
struct Turning {
  Helix helix;
  double d3 = 0;
  double arm = 0;                ///< r_up + r_face [m]
  double face_arm = 0;           ///< r_face [m]
  double force = 0;              ///< F [N]
  double net = 0;                ///< torque without drag [N·m]
  double torque = 0;             ///< T [N·m]
  double face_torque = 0;        ///< F r_face/m [N·m]
  double moment_per_torque = 0;  ///< handle bending over torque: overhang/handle of a one-armed pull, else 0
};

/// Stresses at one force and torque [Pa].
struct Loaded {
  double axial = 0, torsion = 0, bending = 0, body = 0, thread_root = 0, nut_root = 0, nut_tension = 0, nut_hoop = 0;
  double bearing = 0, screw_shear = 0, nut_shear = 0;
};

/// A number for each part that can break. Its margin: capacity over demand, unbounded where nothing is demanded.
struct Parts {
  double yield = 0, thread_root = 0, buckling = 0, stripping = 0, nut_body = 0;
  double screw_root = 0, nut_root = 0;  ///< of thread_root, the screw's own first turn and the nut's
  /// Of those that the overload limit judges: all but the nut's body.
  [[gnu::always_inline]] double least() const {
    return smaller(smaller(yield, thread_root), smaller(buckling, stripping));
  }
};

/// Capacity over demand; unbounded where nothing is demanded, not a number where the demand is none.
[[gnu::always_inline]] inline double over(double capacity, double demand) {
  return demand <= 0 ? __builtin_inf() : capacity / demand;
}

/// A design under a duty, ready to be passed through.
struct Kernel {
  Kernel(const Duty& duty, const Design& design, double thread_start, double face_start, StripBasis basis);

  /// @param as_clamp  the action: torque in and force out, else load in and torque out; a constant where it is compiled
  /// in
  [[gnu::always_inline]] Turning turn(const Draw& x, bool as_clamp) const {
    Turning t = at_rest(x);
    const double available = x.drive * drive_to_torque;
    t.force = as_clamp ? force_of_torque(available, t.arm, x.drag, x.model_error) : x.load;
    t.net = as_clamp ? larger(0.0, available - x.drag) : (t.force > 0 ? t.force * t.arm / x.model_error : 0.0);
    t.torque = as_clamp ? available : t.net + x.drag;
    t.face_torque = t.force > 0 ? t.force * t.face_arm / x.model_error : 0.0;
    t.moment_per_torque = moment_per_torque;
    return t;
  }

  /// As a clamp at a given torque, whatever the action: the overload pull, and winding up until something breaks. The
  /// handle bends the screw as in the overload pull; where none is given, as in the working pull.
  [[gnu::always_inline]] Turning turn_at(double torque, const Draw& x) const {
    Turning t = at_rest(x);
    t.force = force_of_torque(torque, t.arm, x.drag, x.model_error);
    t.net = larger(0.0, torque - x.drag);
    t.torque = torque;
    t.moment_per_torque = overload_moment_per_torque;
    t.face_torque = t.force > 0 ? t.force * t.face_arm / x.model_error : 0.0;
    return t;
  }

  /// Torque [N·m] that starts the same force from rest.
  [[gnu::always_inline]] double starting_torque(const Turning& t, const Draw& x) const {
    const double start_arm = raising_arm(t.helix, thread_start * x.thread_friction) + face_start * t.face_arm;
    return (t.force > 0 ? t.force * start_arm / x.model_error : 0.0) + x.drag;
  }

  [[gnu::always_inline]] Loaded load(const Turning& t) const {
    const double section = engine::chosen(full_path, t.torque, thread_path, t.net - t.face_torque, t.face_torque);
    const double d2 = t.helix.d2, d3 = t.d3;
    Loaded s;
    s.axial = axial_stress(t.force, d3);
    s.torsion = torsion_stress(section, d3);
    s.bending = t.moment_per_torque > 0 ? bending_stress(t.torque * t.moment_per_torque, d3) : 0.0;
    s.body = larger(combined_stress(s.axial, s.bending, s.torsion), std::sqrt(3.0) * torsion_stress(t.torque, d3));
    s.thread_root = thread_root_stress(t.force, s.axial, s.torsion, share, pitch, d2, d3, tan_flanks);
    s.nut_root = nut_root_stress(t.force, share, pitch, pitch_diameter, nut_major, tan_flanks);
    s.nut_tension = nut_tension(t.force, nut_outside, nut_major);
    s.nut_hoop = nut_hoop_stress(t.force, tan_flank, d2, nut_length, nut_outside, nut_major);
    s.bearing = t.force / (π * d2 * depth * turns);
    s.screw_shear = t.force / screw_shear_area(nut_minor, nut_length, d2, pitch, tan_flanks);
    s.nut_shear = t.force / nut_shear;
    return s;
  }

  [[gnu::always_inline]] double buckles_at(const Turning& t, const Draw& x) const {
    return larger(0.0, buckling_load(t.d3, free_length, end, x.modulus, x.yield));
  }

  [[gnu::always_inline]] Parts parts(const Loaded& s, const Turning& t, const Draw& x) const {
    const double screw_shear = shear_of_yield * x.yield + shear_of_ultimate * x.ultimate;
    const double nut_shears = nut_shear_strength_ratio * x.nut_strength;
    Parts p;
    p.yield = over(x.yield, s.body);
    p.screw_root = over(x.yield, s.thread_root);
    p.nut_root = over(x.nut_strength, s.nut_root);
    p.thread_root = smaller(p.screw_root, p.nut_root);
    p.buckling = over(buckles_at(t, x), t.force) + no_column;
    p.stripping = smaller(over(screw_shear, s.screw_shear), over(nut_shears, s.nut_shear));
    p.nut_body = over(x.nut_strength, larger(s.nut_tension, s.nut_hoop));
    return p;
  }

  bool clamp, column;
  double drive_to_torque, thread_start, face_start;
  double lead, pitch, pitch_diameter, root_diameter, nut_minor, nut_major, depth, tan_flank, tan_flanks;
  double nut_length, nut_outside, turns;
  double share;                                          ///< of the force on the first turn, k1
  double friction_radius;                                ///< r_m of the face
  double moment_per_torque, overload_moment_per_torque;  ///< handle bending, working and overload pull
  double free_length, end;                               ///< of the column
  double nut_shear;                                      ///< shear area of the nut's threads [m²]
  // What does not vary from pass to pass is a number rather than a condition: conditions keep a loop from vectorising.
  engine::Choice full_path, thread_path;     ///< which torque the loaded section carries; else the face's
  double no_column;                          ///< 0 for a column, else +infinity: an unbounded margin
  double shear_of_yield, shear_of_ultimate;  ///< shear strength of the screw over each, one of them 0
  double nut_shear_strength_ratio;           ///< shear strength of the nut over its nut_strength

private:
  [[gnu::always_inline]] Turning at_rest(const Draw& x) const {
    Turning t;
    t.helix = models::helix(lead, pitch_diameter + x.deviation, tan_flank);
    t.d3 = root_diameter + x.deviation;
    t.face_arm = x.face_friction * friction_radius;
    t.arm = raising_arm(t.helix, x.thread_friction) + t.face_arm;
    return t;
  }
};

/// End constant C: 1/4, 1, and the recommended 1.2 for the two fixed cases.
/// @source Shigley, Mechanical Engineering Design, 9th ed., Table 4-2
double end_constant(Ends ends);

}  // namespace models
