/// Compiled once per instruction set: see engine/lanes/each.hpp for the rules.
#include "engine/lanes/each.hpp"
#include "models/screw/breaking.hpp"
#include "models/screw/screw_loops.hpp"

namespace models::SCREWTINY_SET {
namespace {

constexpr double none = __builtin_nan("");

[[gnu::always_inline]] inline Draw draw_at(const Rows& rows, std::size_t i) {
  const auto of = [&](Input input) __attribute__((always_inline)) {
    return rows.x[static_cast<std::size_t>(input) * rows.x_stride + i];
  };
  return {of(Input::drive),   of(Input::load),        of(Input::thread_friction), of(Input::face_friction),
          of(Input::drag),    of(Input::screw_yield), of(Input::screw_strength),  of(Input::nut_strength),
          of(Input::modulus), of(Input::model_error), of(Input::diameters)};
}

/// A pass turned, loaded and compared with what its parts bear, at work and at the overload pull.
struct Passed {
  Turning turning, pulled;
  Loaded loaded, overloaded;
  Parts parts, overload;
};

template <bool clamp, bool pulled>
[[gnu::always_inline]] inline Passed pass(const Kernel& kernel, const Known& known, const Draw& x) {
  Passed p;
  p.turning = kernel.turn(x, clamp);
  p.loaded = kernel.load(p.turning);
  p.parts = kernel.parts(p.loaded, p.turning, x);
  if constexpr (pulled) {
    p.pulled = kernel.turn_at(known.overload_torque, x);
    p.overloaded = kernel.load(p.pulled);
    p.overload = kernel.parts(p.overloaded, p.pulled, x);
  }
  return p;
}

[[gnu::always_inline]] inline Judged judged_of(const Kernel& kernel, const Known& known, const Draw& x,
                                               const Passed& p) {
  const Turning& t = p.turning;
  Judged j;
  j.force = t.force;
  j.starting_torque = kernel.starting_torque(t, x);
  j.body = p.loaded.body;
  j.thread_root = p.loaded.thread_root;
  j.buckling = kernel.buckles_at(t, x) + known.no_column;
  j.slenderness = known.column_length / (t.d3 / 4);
  j.bearing = p.loaded.bearing;
  j.face_bearing = t.force / known.face_area;
  j.lock_margin = lock_margin(t.helix, x.thread_friction, 0);
  j.nut_body = larger(p.loaded.nut_tension, p.loaded.nut_hoop);
  j.stripping = larger(p.loaded.screw_shear, p.loaded.nut_shear);
  j.overload = p.overload.least();
  j.parts = p.parts;
  return j;
}

[[gnu::always_inline]] inline void store(const Judged& j, JudgedRows& rows, std::size_t i) {
  rows.force[i] = j.force;
  rows.starting_torque[i] = j.starting_torque;
  rows.body[i] = j.body;
  rows.thread_root[i] = j.thread_root;
  rows.buckling[i] = j.buckling;
  rows.slenderness[i] = j.slenderness;
  rows.bearing[i] = j.bearing;
  rows.face_bearing[i] = j.face_bearing;
  rows.lock_margin[i] = j.lock_margin;
  rows.nut_body[i] = j.nut_body;
  rows.stripping[i] = j.stripping;
  rows.overload[i] = j.overload;
  rows.yield_part[i] = j.parts.yield;
  rows.thread_root_part[i] = j.parts.thread_root;
  rows.buckling_part[i] = j.parts.buckling;
  rows.stripping_part[i] = j.parts.stripping;
}

/// Outputs that are the same on every pass of a design.
void describe_design(const Kernel& kernel, const Known& known, bool pulled, const Rows& rows, std::size_t passes) {
  const auto put = [&](Output output, double v) {
    double* row = rows.y + static_cast<std::size_t>(output) * rows.y_stride;
    for (std::size_t i = 0; i < passes; ++i) row[i] = v;
  };
  put(Output::engaged_turns, kernel.turns);
  put(Output::screw_mass, known.screw_mass);
  put(Output::nut_mass, known.nut_mass);
  put(Output::mass, known.screw_mass + known.nut_mass);
  put(Output::turns, known.turns);
  put(Output::stroke_time, known.stroke_time);
  if (pulled) return;
  for (const Output output : {Output::overload_force, Output::overload_torque, Output::overload_body_stress,
                              Output::overload_thread_root_stress, Output::overload_bearing_pressure,
                              Output::overload_screw_thread_shear, Output::overload_nut_thread_shear})
    put(output, none);
}

template <bool pulled>
[[gnu::always_inline]] inline void describe(const Kernel& kernel, const Known& known, const Draw& x, const Passed& p,
                                            const Judged& j, const Rows& rows, std::size_t i) {
  const auto put = [&](Output output, double v) __attribute__((always_inline)) {
    rows.y[static_cast<std::size_t>(output) * rows.y_stride + i] = v;
  };
  const Turning& t = p.turning;
  const double useful = t.force * kernel.lead / (2 * π);
  const double lowering = known.lowering_force == known.lowering_force ? known.lowering_force : t.force;
  const double r_dn = lowering_arm(t.helix, x.thread_friction);
  put(Output::force, t.force);
  put(Output::torque, t.torque);
  put(Output::starting_torque, j.starting_torque);
  put(Output::hand_force, t.torque / known.hand_arm);
  put(Output::useful_torque, useful);
  put(Output::thread_torque, t.net - t.face_torque - useful);
  put(Output::face_torque, t.face_torque);
  put(Output::drag_torque, smaller(x.drag, t.torque));
  put(Output::efficiency, t.torque > 0 ? useful / t.torque : none);
  put(Output::lowering_torque, lowering * (r_dn + t.face_arm) + x.drag);
  put(Output::lowering_torque_thread, lowering * r_dn);
  put(Output::lock_margin, lock_margin(t.helix, x.thread_friction, t.face_arm));
  put(Output::lock_margin_thread, j.lock_margin);
  put(Output::axial_stress, p.loaded.axial);
  put(Output::torsion_stress, p.loaded.torsion);
  put(Output::bending_stress, p.loaded.bending);
  put(Output::body_stress, p.loaded.body);
  put(Output::thread_root_stress, p.loaded.thread_root);
  put(Output::nut_root_stress, p.loaded.nut_root);
  put(Output::nut_hoop_stress, p.loaded.nut_hoop);
  put(Output::bearing_pressure, p.loaded.bearing);
  put(Output::face_pressure, j.face_bearing);
  put(Output::screw_thread_shear, p.loaded.screw_shear);
  put(Output::nut_thread_shear, p.loaded.nut_shear);
  put(Output::buckling_load, j.buckling);
  put(Output::slenderness, j.slenderness);
  put(Output::sliding_speed, sliding_speed(t.helix, known.rotation));
  if constexpr (pulled) {
    put(Output::overload_force, p.pulled.force);
    put(Output::overload_torque, p.pulled.torque);
    put(Output::overload_body_stress, p.overloaded.body);
    put(Output::overload_thread_root_stress, p.overloaded.thread_root);
    put(Output::overload_bearing_pressure, p.overloaded.bearing);
    put(Output::overload_screw_thread_shear, p.overloaded.screw_shear);
    put(Output::overload_nut_thread_shear, p.overloaded.nut_shear);
  }
}

/// The action, the pull and what is asked for are the same on every pass: a loop of its own for each.
template <bool clamp, bool pulled, bool outputs>
void judge_as(const Kernel& kernel, const Known& known, const Rows& rows, std::size_t passes, JudgedRows& judged) {
  const Kernel k = kernel;
  const Known c = known;
  const Rows r = rows;
  SCREWTINY_EACH
  for (std::size_t i = 0; i < passes; ++i) {
    const Draw x = draw_at(r, i);
    const Passed p = pass<clamp, pulled>(k, c, x);
    const Judged j = judged_of(k, c, x, p);
    store(j, judged, i);
    if constexpr (outputs) describe<pulled>(k, c, x, p, j, r, i);
  }
  if constexpr (outputs) describe_design(kernel, known, pulled, rows, passes);
}

template <bool clamp, bool pulled>
void judge_as(const Kernel& kernel, const Known& known, const Rows& rows, std::size_t passes, JudgedRows& judged) {
  if (rows.y)
    judge_as<clamp, pulled, true>(kernel, known, rows, passes, judged);
  else
    judge_as<clamp, pulled, false>(kernel, known, rows, passes, judged);
}

void judge(const Kernel& kernel, const Known& known, const Rows& rows, std::size_t passes, JudgedRows& judged) {
  const bool pulled = known.overload_torque == known.overload_torque;
  if (kernel.clamp)
    pulled ? judge_as<true, true>(kernel, known, rows, passes, judged)
           : judge_as<true, false>(kernel, known, rows, passes, judged);
  else
    pulled ? judge_as<false, true>(kernel, known, rows, passes, judged)
           : judge_as<false, false>(kernel, known, rows, passes, judged);
}

/// The row that a limit judges; null: the mass, the same on every pass, and what goes first, which is a margin only.
const double* value_row(Must must, const JudgedRows& rows) {
  switch (must) {
    case Must::force:
      return rows.force;
    case Must::torque:
    case Must::hand_force:
      return rows.starting_torque;
    case Must::yield:
      return rows.body;
    case Must::thread_root:
      return rows.thread_root;
    case Must::buckling:
      return rows.buckling;
    case Must::slenderness:
      return rows.slenderness;
    case Must::bearing:
      return rows.bearing;
    case Must::face_bearing:
      return rows.face_bearing;
    case Must::self_locking:
      return rows.lock_margin;
    case Must::nut_body:
      return rows.nut_body;
    case Must::stripping:
      return rows.stripping;
    case Must::overload:
      return rows.overload;
    case Must::goes_first:
    case Must::mass:
      return nullptr;
  }
  return nullptr;
}

/// margin ← of(demand, pass)
template <class Of>
[[gnu::always_inline]] inline void each(std::size_t passes, double* margin, Of of) {
  SCREWTINY_EACH
  for (std::size_t i = 0; i < passes; ++i) margin[i] = of(i);
}

/// Capacity over demand where the capacity is the drive's, the duty's, the material's or the table's.
void capacity_margin(const Kernel& kernel, const Known& known, Must must, const Rows& rows, std::size_t passes,
                     const JudgedRows& judged, double* margin) {
  const double* drive = rows.x + static_cast<std::size_t>(Input::drive) * rows.x_stride;
  const double* nut_strength = rows.x + static_cast<std::size_t>(Input::nut_strength) * rows.x_stride;
  const double to_torque = kernel.drive_to_torque;
  const auto fill = [&](auto of) __attribute__((always_inline)) { each(passes, margin, of); };
  switch (must) {
    case Must::force:
      return fill([&](std::size_t i) { return judged.force[i] / known.force; });
    case Must::torque:
      return fill([&](std::size_t i) { return over(drive[i] * to_torque, judged.starting_torque[i]); });
    case Must::hand_force:
      return fill([&](std::size_t i) { return over(drive[i], judged.starting_torque[i] / known.hand_arm); });
    case Must::yield:
      return fill([&](std::size_t i) { return judged.yield_part[i]; });
    case Must::thread_root:
      return fill([&](std::size_t i) { return judged.thread_root_part[i]; });
    case Must::nut_body:
      return fill([&](std::size_t i) { return over(nut_strength[i], judged.nut_body[i]); });
    case Must::buckling:
      return fill([&](std::size_t i) { return judged.buckling_part[i]; });
    case Must::bearing:
      return fill([&](std::size_t i) { return over(known.bearing_pressure, judged.bearing[i]); });
    case Must::face_bearing:
      return fill([&](std::size_t i) { return over(known.face_pressure, judged.face_bearing[i]); });
    case Must::stripping:
      return fill([&](std::size_t i) { return judged.stripping_part[i]; });
    case Must::self_locking:
      return fill([&](std::size_t i) { return judged.lock_margin[i]; });
    case Must::overload:
      return fill([&](std::size_t i) { return judged.overload[i]; });
    case Must::goes_first:
    case Must::slenderness:
    case Must::mass:
      return fill([&](std::size_t) { return none; });
  }
}

/// Whether the part marked breaks before all others as this pass is wound up.
void first_margin(const Kernel& kernel, Must part, const Rows& rows, std::size_t passes, double* margin) {
  const Kernel k = kernel;
  const Rows r = rows;
  const First first(part);
  each(passes, margin, [&](std::size_t i) { return first.margin(breaking_torques(k, draw_at(r, i))); });
}

void margin(const Kernel& kernel, const Known& known, const Limit& limit, const Rows& rows, std::size_t passes,
            const JudgedRows& judged, double* margin) {
  const Must must = limit.must;
  const double asked = limit.asked;
  if (must == Must::goes_first) return first_margin(kernel, limit.part, rows, passes, margin);
  if (limit.kind == Limit::Kind::margin) return capacity_margin(kernel, known, must, rows, passes, judged, margin);
  const double per = must == Must::hand_force ? known.hand_arm : 1, mass = known.screw_mass + known.nut_mass;
  const double* value = value_row(must, judged);
  const bool least = limit.kind == Limit::Kind::at_least;
  if (!value) return each(passes, margin, [&](std::size_t) { return least ? mass / asked : over(asked, mass); });
  if (least) return each(passes, margin, [&](std::size_t i) { return value[i] / per / asked; });
  each(passes, margin, [&](std::size_t i) { return over(asked, value[i] / per); });
}

}  // namespace

extern const ScrewLoops screw_loops;
const ScrewLoops screw_loops = {judge, margin};

}  // namespace models::SCREWTINY_SET
