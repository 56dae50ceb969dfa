#include <limits>

#include "models/screw/screw_model.hpp"

namespace models {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

/// Rotation of the screw [rev/s]; 0 where the duty gives no speed.
double rotation(const Duty& duty, const Thread& thread) {
  return duty.screw_speed.value_or(duty.travel_speed ? *duty.travel_speed / thread.lead() : 0);
}

double safe_pressure(const Tables& tables, const Material& one, const Material& other, double speed) {
  const BearingPressure* row = find_bearing_pressure(tables, one, other, speed);
  return row ? row->pressure : none;
}

}  // namespace

Allowances allowances(const Tables& tables, const Duty& duty, const Design& design, bool face_from_table) {
  const double n = rotation(duty, design.thread);
  const Helix h = helix(design.thread.lead(), design.thread.pitch_diameter, design.thread.tan_load_flank);
  Material opposite;
  opposite.family = design.face.on;
  Allowances a;
  a.bearing_pressure = safe_pressure(tables, design.screw, design.nut, sliding_speed(h, n));
  a.face_pressure = safe_pressure(tables, design.screw, opposite, 2 * π * design.face.friction_radius() * n);
  const bool lift = duty.action == Action::lift;
  a.thread_start = duty.start.value_or(lift ? 1.4 : 1.0);
  const std::string kind = design.face.kind == Face::Kind::rolling ? "rolling" : "pad";
  const FaceFriction* row =
      face_from_table ? find_face_friction(tables, kind, design.face.on, design.face.hard) : nullptr;
  const bool paired = row && row->running > 0 && row->starting > 0;
  a.face_start = duty.start.value_or(!lift ? 1.0 : paired ? row->starting / row->running : 1.4);
  return a;
}

std::string missing(const Duty& duty, const Face& face, Output output) {
  const bool travels = duty.travel.value_or(duty.free_length.value_or(0)) > 0;
  const bool turns = duty.screw_speed.value_or(0) > 0 || duty.travel_speed.value_or(0) > 0;
  switch (output) {
    case Output::hand_force:
      return duty.handle ? "" : "no handle is given";
    case Output::face_pressure:
      return face.area() > 0 ? "" : "the area of the face is not known (give outer and inner instead of mean_radius)";
    case Output::buckling_load:
    case Output::slenderness:
      if (!duty.screw_in_compression) return "the screw is in tension";
      return duty.free_length || duty.travel ? "" : "neither free_length nor travel is given";
    case Output::sliding_speed:
      return turns ? "" : "no speed is given";
    case Output::turns:
      return travels ? "" : "no travel is given";
    case Output::stroke_time:
      return turns && travels ? "" : "no speed or no travel is given";
    case Output::overload_force:
    case Output::overload_torque:
    case Output::overload_body_stress:
    case Output::overload_thread_root_stress:
    case Output::overload_bearing_pressure:
    case Output::overload_screw_thread_shear:
    case Output::overload_nut_thread_shear:
      return duty.overload ? "" : "no overload pull is given";
    default:
      return "";
  }
}

}  // namespace models
