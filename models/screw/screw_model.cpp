#include "models/screw/screw_model.hpp"

#include <algorithm>
#include <limits>

namespace models {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

StripBasis basis_of(const std::vector<Limit>& limits) {
  for (const Limit& limit : limits)
    if (limit.must == Must::stripping) return limit.basis;
  return StripBasis::yield;
}

Draw draw_of(const Inputs& x) { return {x[0], x[1], x[2], x[3], x[4], x[5], x[6], x[7], x[8], x[9], x[10]}; }

}  // namespace

ScrewModel::ScrewModel(const Duty& duty, const Design& design, const Allowances& allowances, std::vector<Limit> limits)
    : duty_(duty),
      design_(design),
      limits_(std::move(limits)),
      kernel_(duty, design, allowances.thread_start, allowances.face_start, basis_of(limits_)),
      face_area_(design.face.area()),
      rotation_(duty.screw_speed.value_or(duty.travel_speed ? *duty.travel_speed / kernel_.lead : 0)) {
  const double d2 = kernel_.pitch_diameter, D_o = design.nut_outside, L_e = design.nut_length;
  const double travel = duty.travel.value_or(duty.free_length.value_or(0)), length = travel + L_e + duty.end_length;
  known_.hand_arm = duty.handle ? *duty.handle * duty.hands : none;
  known_.force = duty.force.value_or(none);
  known_.lowering_force = duty.lowering_force.value_or(none);
  known_.overload_torque = duty.overload ? duty.overload->torque : none;
  known_.bearing_pressure = allowances.bearing_pressure;
  known_.face_pressure = allowances.face_pressure;
  known_.face_area = face_area_ > 0 ? face_area_ : none;
  known_.column_length = kernel_.column ? kernel_.free_length : none;
  known_.no_column = kernel_.column ? 0 : none;
  known_.rotation = rotation_ > 0 ? rotation_ : none;
  known_.turns = travel > 0 ? travel / kernel_.lead : none;
  known_.stroke_time = travel > 0 && rotation_ > 0 ? travel / kernel_.lead / rotation_ : none;
  known_.screw_mass = design.screw.density * π / 4 * d2 * d2 * length;
  known_.nut_mass = design.nut.density * π / 4 * (D_o * D_o - d2 * d2) * L_e;
}

void ScrewModel::evaluate(const engine::Block& x, engine::Block& y, std::size_t passes) const {
  constexpr std::size_t stride = engine::Block::stride;
  run({x.row(0), stride, y.row(0), stride}, limits_, y.row(0) + output_count * stride, passes);
}

void ScrewModel::evaluate_margins(const engine::Block& x, engine::Block& margins, std::size_t passes) const {
  constexpr std::size_t stride = engine::Block::stride;
  run({x.row(0), stride, nullptr, stride}, limits_, margins.row(0), passes);
}

void ScrewModel::evaluate_margin(std::size_t limit, const engine::Block& x, engine::Block& y, std::size_t passes,
                                 std::size_t first) const {
  constexpr std::size_t stride = engine::Block::stride;
  run({x.row(0) + first, stride, nullptr, stride}, std::span(limits_).subspan(limit, 1), y.row(0), passes);
}

std::vector<double> ScrewModel::evaluate_one(const Inputs& x) const {
  std::vector<double> y(outputs());
  run({x.data(), 1, y.data(), 1}, limits_, y.data() + output_count, 1);
  return y;
}

void ScrewModel::run(Rows rows, std::span<const Limit> limits, double* margins, std::size_t passes) const {
  const ScrewLoops& loops = screw_loops();
  JudgedRows judged;
  for (std::size_t from = 0; from < passes; from += JudgedRows::width) {
    const std::size_t n = std::min(JudgedRows::width, passes - from);
    const Rows part{rows.x + from, rows.x_stride, rows.y ? rows.y + from : nullptr, rows.y_stride};
    loops.judge(kernel_, known_, part, n, judged);
    for (std::size_t k = 0; k < limits.size(); ++k)
      loops.margin(kernel_, known_, limits[k], part, n, judged, margins + k * rows.y_stride + from);
  }
}

Parts ScrewModel::parts_at(double torque, const Inputs& x) const {
  const Draw draw = draw_of(x);
  const Turning turning = kernel_.turn_at(torque, draw);
  return kernel_.parts(kernel_.load(turning), turning, draw);
}

}  // namespace models
