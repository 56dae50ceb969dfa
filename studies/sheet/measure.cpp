#include "studies/sheet/measure.hpp"

#include "studies/sheet/figure.hpp"

namespace studies::sheet {
namespace {

using engine::Dimension;
using models::Output;

Measure of_clamp(const Scene& scene) {
  Measure m{Output::force, Dimension::force, "force", scene.study.duty.force, "", "are asked"};
  const LimitVerdict* v = verdict_on(scene.answer, {models::Must::force});
  if (v && v->limit.kind == models::Limit::Kind::at_least) m.wall = v->limit.asked;
  if (m.wall) m.wall_label = scene.his.given(*m.wall, m.dimension) + " asked";
  return m;
}

Measure of_lift(const Scene& scene) {
  const models::Duty& duty = scene.study.duty;
  const bool by_hand = duty.handle.has_value();
  Measure m{Output::torque, Dimension::torque, "torque", {}, "", "are allowed"};
  if (by_hand) m.output = Output::hand_force, m.dimension = Dimension::force, m.name = "force of each hand";
  const LimitVerdict* v = verdict_on(scene.answer, {by_hand ? models::Must::hand_force : models::Must::torque});
  if (v && v->limit.kind == models::Limit::Kind::at_most) {
    m.wall = v->limit.asked;
    m.wall_label = scene.his.given(*m.wall, m.dimension) + " allowed";
  } else if (duty.drive != models::Drive::none) {
    m.wall = by_hand ? duty.drive_torque() / (*duty.handle * duty.hands) : duty.drive_torque();
    m.wall_label = "there are " + scene.his(*m.wall, m.dimension);
    m.wall_verb = "are there";
  }
  return m;
}

}  // namespace

const LimitVerdict* verdict_on(const Answer& answer, std::initializer_list<models::Must> musts) {
  for (const models::Must must : musts)
    for (const LimitVerdict& v : answer.limits)
      if (v.limit.must == must) return &v;
  return nullptr;
}

Measure measure(const Scene& scene) { return scene.clamp() ? of_clamp(scene) : of_lift(scene); }

Spread3 spread3(const std::vector<double>& values) {
  return {quantile(values, 0.05), quantile(values, 0.5), quantile(values, 0.95)};
}

}  // namespace studies::sheet
