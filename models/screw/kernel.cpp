#include "models/screw/kernel.hpp"

#include <limits>

namespace models {
namespace {

double shear_strength_ratio(const Material& nut, bool ultimate) {
  if (nut.brittle) return brittle_shear_strength(1.0);
  return ultimate ? 0.6 * nut.ultimate / nut.yield : 0.577;
}

/// Moment of the handle per torque: its overhang over its radius, 0 for two opposed hands or where not known.
double bending_arm(std::optional<double> overhang, std::optional<double> handle, double hands) {
  return overhang && handle && hands != 2 ? *overhang / *handle : 0;
}

}  // namespace

Kernel::Kernel(const Duty& duty, const Design& design, double thread_start_, double face_start_, StripBasis basis)
    : clamp(duty.action == Action::clamp),
      column(duty.screw_in_compression && (duty.free_length || duty.travel)),
      drive_to_torque(duty.drive_to_torque),
      thread_start(thread_start_),
      face_start(face_start_) {
  const Thread& thread = design.thread;
  lead = thread.lead();
  pitch = thread.pitch;
  pitch_diameter = thread.pitch_diameter;
  root_diameter = thread.root_diameter;
  nut_minor = thread.nut_minor;
  nut_major = thread.nut_major;
  depth = thread.working_depth();
  tan_flank = thread.tan_load_flank;
  tan_flanks = thread.tan_load_flank + thread.tan_other_flank;
  nut_length = design.nut_length;
  nut_outside = design.nut_outside;
  turns = design.engaged_turns();
  share = larger(0.38, 1 / turns);
  friction_radius = design.face.friction_radius();
  moment_per_torque = bending_arm(duty.handle_overhang, duty.handle, duty.hands);
  overload_moment_per_torque = moment_per_torque;
  if (const std::optional<Overload>& pull = duty.overload)
    overload_moment_per_torque =
        bending_arm(duty.handle_overhang, pull->handle ? pull->handle : duty.handle, pull->hands);
  free_length = duty.free_length.value_or(duty.travel.value_or(0) + nut_length / 2);
  end = end_constant(duty.ends);
  nut_shear = nut_shear_area(thread.diameter, nut_length, pitch_diameter, pitch, tan_flanks);
  full_path = engine::choice(duty.torque_path == TorquePath::full);
  thread_path = engine::choice(duty.torque_path == TorquePath::thread);
  no_column = column ? 0 : std::numeric_limits<double>::infinity();
  const bool by_ultimate = basis == StripBasis::ultimate;
  shear_of_yield = by_ultimate ? 0 : 0.577;
  shear_of_ultimate = by_ultimate ? 0.6 : 0;
  nut_shear_strength_ratio = shear_strength_ratio(design.nut, by_ultimate);
}

double end_constant(Ends ends) {
  switch (ends) {
    case Ends::fixed_free:
      return 0.25;
    case Ends::rounded_rounded:
      return 1;
    case Ends::fixed_rounded:
    case Ends::fixed_fixed:
      return 1.2;
  }
  return 0.25;
}

}  // namespace models
