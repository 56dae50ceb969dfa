#include "models/screw/screw_model.hpp"

#include <limits>

namespace models {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

StripBasis basis_of(const std::vector<Limit>& limits) {
  for (const Limit& limit : limits)
    if (limit.must == Must::stripping) return limit.basis;
  return StripBasis::yield;
}

Draw draw_at(const engine::Block& x, std::size_t i) {
  const auto of = [&](Input input) { return x.row(static_cast<std::size_t>(input))[i]; };
  return {of(Input::drive),   of(Input::load),        of(Input::thread_friction), of(Input::face_friction),
          of(Input::drag),    of(Input::screw_yield), of(Input::screw_strength),  of(Input::nut_strength),
          of(Input::modulus), of(Input::model_error), of(Input::diameters)};
}

Draw draw_of(const Inputs& x) { return {x[0], x[1], x[2], x[3], x[4], x[5], x[6], x[7], x[8], x[9], x[10]}; }

}  // namespace

/// A pass as far as every limit needs it.
struct ScrewModel::Judged {
  Turning turning, pulled;
  Loaded loaded, overloaded;
  Parts parts, overload;
};

ScrewModel::ScrewModel(const Duty& duty, const Design& design, const Allowances& allowances, std::vector<Limit> limits)
    : duty_(duty),
      design_(design),
      allowances_(allowances),
      limits_(std::move(limits)),
      kernel_(duty, design, allowances.thread_start, allowances.face_start, basis_of(limits_)),
      face_area_(design.face.area()),
      rotation_(duty.screw_speed.value_or(duty.travel_speed ? *duty.travel_speed / kernel_.lead : 0)) {
  const double d2 = kernel_.pitch_diameter, D_o = design.nut_outside, L_e = design.nut_length;
  const double length = duty.travel.value_or(duty.free_length.value_or(0)) + L_e + duty.end_length;
  screw_mass_ = design.screw.density * π / 4 * d2 * d2 * length;
  nut_mass_ = design.nut.density * π / 4 * (D_o * D_o - d2 * d2) * L_e;
}

void ScrewModel::evaluate(const engine::Block& x, engine::Block& y, std::size_t passes) const {
  std::vector<double> column(outputs());
  for (std::size_t i = 0; i < passes; ++i) {
    const Draw draw = draw_at(x, i);
    const Judged judged = judge(draw);
    describe(draw, judged, column.data());
    for (std::size_t k = 0; k < limits_.size(); ++k) column[output_count + k] = margin(limits_[k], draw, judged);
    for (std::size_t k = 0; k < column.size(); ++k) y.row(k)[i] = column[k];
  }
}

void ScrewModel::evaluate_margins(const engine::Block& x, engine::Block& margins, std::size_t passes) const {
  for (std::size_t i = 0; i < passes; ++i) {
    const Draw draw = draw_at(x, i);
    const Judged judged = judge(draw);
    for (std::size_t k = 0; k < limits_.size(); ++k) margins.row(k)[i] = margin(limits_[k], draw, judged);
  }
}

void ScrewModel::evaluate_margin(std::size_t limit, const engine::Block& x, engine::Block& y, std::size_t passes) const {
  const Limit& one = limits_[limit];
  const bool turns_only = one.must == Must::force || one.must == Must::torque || one.must == Must::hand_force ||
                          one.must == Must::self_locking;
  Judged judged{};
  for (std::size_t i = 0; i < passes; ++i) {
    const Draw draw = draw_at(x, i);
    if (turns_only) judged.turning = kernel_.turn(draw);
    else judged = judge(draw);
    y.row(0)[i] = margin(one, draw, judged);
  }
}

std::vector<double> ScrewModel::evaluate_one(const Inputs& x) const {
  const Draw draw = draw_of(x);
  const Judged judged = judge(draw);
  std::vector<double> y(outputs());
  describe(draw, judged, y.data());
  for (std::size_t k = 0; k < limits_.size(); ++k) y[output_count + k] = margin(limits_[k], draw, judged);
  return y;
}

ScrewModel::Judged ScrewModel::judge(const Draw& x) const {
  Judged j;
  j.turning = kernel_.turn(x);
  j.loaded = kernel_.load(j.turning);
  j.parts = kernel_.parts(j.loaded, j.turning, x);
  if (duty_.overload) {
    j.pulled = kernel_.turn_at(duty_.overload->torque, x);
    j.overloaded = kernel_.load(j.pulled);
    j.overload = kernel_.parts(j.overloaded, j.pulled, x);
  }
  return j;
}

Parts ScrewModel::parts_at(double torque, const Inputs& x) const {
  const Draw draw = draw_of(x);
  const Turning turning = kernel_.turn_at(torque, draw);
  return kernel_.parts(kernel_.load(turning), turning, draw);
}

/// What a limit of a value judges: the output of its name, but a lift's torque and hand force as they start from rest.
double ScrewModel::value(Must must, const Draw& x, const Judged& j) const {
  const auto& [turning, pulled, loaded, overloaded, parts, overload] = j;
  switch (must) {
    case Must::force:
      return turning.force;
    case Must::torque:
      return kernel_.starting_torque(turning, x);
    case Must::hand_force:
      return kernel_.starting_torque(turning, x) / (duty_.handle.value_or(none) * duty_.hands);
    case Must::yield:
      return loaded.body;
    case Must::thread_root:
      return loaded.thread_root;
    case Must::buckling:
      return kernel_.column ? kernel_.buckles_at(turning, x) : none;
    case Must::slenderness:
      return kernel_.column ? kernel_.free_length / (turning.d3 / 4) : none;
    case Must::bearing:
      return loaded.bearing;
    case Must::face_bearing:
      return face_area_ > 0 ? turning.force / face_area_ : none;
    case Must::self_locking:
      return lock_margin(turning.helix, x.thread_friction, 0);
    case Must::mass:
      return screw_mass_ + nut_mass_;
    case Must::nut_body:
      return std::max(loaded.nut_tension, loaded.nut_hoop);
    case Must::stripping:
      return std::max(loaded.screw_shear, loaded.nut_shear);
    case Must::overload:
      return overload.least();
  }
  return none;
}

double ScrewModel::margin(const Limit& limit, const Draw& x, const Judged& judged) const {
  if (limit.kind == Limit::Kind::at_least) return value(limit.must, x, judged) / limit.asked;
  if (limit.kind == Limit::Kind::at_most) return over(limit.asked, value(limit.must, x, judged));
  return capacity_margin(limit, x, judged);
}

/// Capacity over demand where the capacity is the drive's, the duty's, the material's or the table's.
double ScrewModel::capacity_margin(const Limit& limit, const Draw& x, const Judged& judged) const {
  const double demand = value(limit.must, x, judged);
  switch (limit.must) {
    case Must::force:
      return demand / duty_.force.value_or(none);
    case Must::torque:
      return over(x.drive * kernel_.drive_to_torque, demand);
    case Must::hand_force:
      return over(x.drive, demand);
    case Must::yield:
      return judged.parts.yield;
    case Must::thread_root:
      return judged.parts.thread_root;
    case Must::nut_body:
      return over(x.nut_strength, demand);
    case Must::buckling:
      return judged.parts.buckling;
    case Must::bearing:
      return over(allowances_.bearing_pressure, demand);
    case Must::face_bearing:
      return over(allowances_.face_pressure, demand);
    case Must::stripping:
      return judged.parts.stripping;
    case Must::self_locking:
    case Must::overload:
      return demand;
    case Must::slenderness:
    case Must::mass:
      return none;
  }
  return none;
}

void ScrewModel::describe(const Draw& x, const Judged& j, double* y) const {
  const auto put = [&](Output output, double v) { y[static_cast<std::size_t>(output)] = v; };
  const Turning& t = j.turning;
  const double useful = t.force * kernel_.lead / (2 * π), lowering = duty_.lowering_force.value_or(t.force);
  const double r_dn = lowering_arm(t.helix, x.thread_friction);
  const double travel = duty_.travel.value_or(duty_.free_length.value_or(0)), turns = travel / kernel_.lead;
  put(Output::force, t.force);
  put(Output::torque, t.torque);
  put(Output::starting_torque, kernel_.starting_torque(t, x));
  put(Output::hand_force, duty_.handle ? t.torque / (*duty_.handle * duty_.hands) : none);
  put(Output::useful_torque, useful);
  put(Output::thread_torque, t.net - t.face_torque - useful);
  put(Output::face_torque, t.face_torque);
  put(Output::drag_torque, std::min(x.drag, t.torque));
  put(Output::efficiency, t.torque > 0 ? useful / t.torque : none);
  put(Output::lowering_torque, lowering * (r_dn + t.face_arm) + x.drag);
  put(Output::lowering_torque_thread, lowering * r_dn);
  put(Output::lock_margin, lock_margin(t.helix, x.thread_friction, t.face_arm));
  put(Output::lock_margin_thread, lock_margin(t.helix, x.thread_friction, 0));
  put(Output::axial_stress, j.loaded.axial);
  put(Output::torsion_stress, j.loaded.torsion);
  put(Output::bending_stress, j.loaded.bending);
  put(Output::body_stress, j.loaded.body);
  put(Output::thread_root_stress, j.loaded.thread_root);
  put(Output::nut_root_stress, j.loaded.nut_root);
  put(Output::nut_hoop_stress, j.loaded.nut_hoop);
  put(Output::bearing_pressure, j.loaded.bearing);
  put(Output::face_pressure, face_area_ > 0 ? t.force / face_area_ : none);
  put(Output::screw_thread_shear, j.loaded.screw_shear);
  put(Output::nut_thread_shear, j.loaded.nut_shear);
  put(Output::buckling_load, kernel_.column ? kernel_.buckles_at(t, x) : none);
  put(Output::slenderness, kernel_.column ? kernel_.free_length / (t.d3 / 4) : none);
  put(Output::engaged_turns, kernel_.turns);
  put(Output::sliding_speed, rotation_ > 0 ? sliding_speed(t.helix, rotation_) : none);
  put(Output::screw_mass, screw_mass_);
  put(Output::nut_mass, nut_mass_);
  put(Output::mass, screw_mass_ + nut_mass_);
  put(Output::turns, travel > 0 ? turns : none);
  put(Output::stroke_time, travel > 0 && rotation_ > 0 ? turns / rotation_ : none);
  const bool pulled = duty_.overload.has_value();
  put(Output::overload_force, pulled ? j.pulled.force : none);
  put(Output::overload_torque, pulled ? j.pulled.torque : none);
  put(Output::overload_body_stress, pulled ? j.overloaded.body : none);
  put(Output::overload_thread_root_stress, pulled ? j.overloaded.thread_root : none);
  put(Output::overload_bearing_pressure, pulled ? j.overloaded.bearing : none);
  put(Output::overload_screw_thread_shear, pulled ? j.overloaded.screw_shear : none);
  put(Output::overload_nut_thread_shear, pulled ? j.overloaded.nut_shear : none);
}

}  // namespace models
