#include "studies/ask/aim.hpp"

#include <algorithm>
#include <cmath>

namespace studies {
namespace {

using models::Output;
using What = Quantity::What;

constexpr std::size_t at(Output output) { return static_cast<std::size_t>(output); }

/// The torque that makes the force asked of a clamp: force goes in a straight line with the torque beyond drag.
double torque_of_clamp(const Study& study, const std::vector<double>& nominal) {
  const double force = nominal[at(Output::force)], drag = nominal[at(Output::drag_torque)];
  const std::optional<double> asked = force_asked(study);
  if (!asked) return nominal[at(Output::torque)];
  if (!(force > 0)) return std::numeric_limits<double>::infinity();  // it jams
  return (nominal[at(Output::torque)] - drag) * *asked / force + drag;
}

Goes with_length(const Study& study, Output output) {
  const bool grows = column_grows(study.duty);
  switch (output) {
    case Output::mass:
    case Output::screw_mass:
    case Output::nut_mass:
    case Output::engaged_turns:
      return Goes::up;
    case Output::slenderness:
      return grows ? Goes::up : Goes::level;
    case Output::buckling_load:
      return grows ? Goes::down : Goes::level;
    case Output::thread_root_stress:
    case Output::nut_root_stress:
    case Output::nut_hoop_stress:
    case Output::bearing_pressure:
    case Output::screw_thread_shear:
    case Output::nut_thread_shear:
    case Output::overload_thread_root_stress:
    case Output::overload_bearing_pressure:
    case Output::overload_screw_thread_shear:
    case Output::overload_nut_thread_shear:
      return Goes::down;
    default:
      return Goes::level;
  }
}

Goes goes(WithLength with) {
  switch (with) {
    case WithLength::proportional:
    case WithLength::never_falls:
      return Goes::up;
    case WithLength::never_rises:
      return Goes::down;
    case WithLength::independent:
      return Goes::level;
    case WithLength::mixed:
      break;
  }
  return Goes::unsteady;
}

double of_design(const SharedPasses& shared, const Candidate& candidate, const models::Design& design,
                 const Quantity& quantity) {
  const models::ScrewModel screw = shared.model(candidate, design);
  return at_nominal(shared.study(), quantity, design, shared.nominal(candidate, screw));
}

bool keeps_to(double share) { return share <= 1 + 1e-12; }

/// The length between one that keeps to a cap and one that does not, as far as it keeps to it.
template <class Keeps>
double furthest(double keeps, double exceeds, Keeps keeps_at) {
  constexpr int halvings = 50;
  for (int i = 0; i < halvings && keeps != exceeds; ++i) {
    const double middle = (keeps + exceeds) / 2;
    (keeps_at(middle) ? keeps : exceeds) = middle;
  }
  return keeps;
}

}  // namespace

std::string name(const Quantity& quantity) {
  switch (quantity.what) {
    case What::nut_length:
      return "nut_length";
    case What::margin:
      return "margin." + std::string(row(quantity.must).name);
    case What::odds:
      return "odds." + std::string(row(quantity.must).name);
    case What::output:
      break;
  }
  return std::string(row(quantity.output).name);
}

std::string missed_name(const Study& study, const CandidateVerdict& verdict) {
  if (verdict.over_cap) return "cap." + name(study.caps[*verdict.over_cap].of);
  return verdict.misses ? std::string(row(*verdict.misses).name) : "";
}

engine::Dimension dimension_of(const Quantity& quantity) {
  if (quantity.what == What::nut_length) return engine::Dimension::length;
  return quantity.what == What::output ? row(quantity.output).dimension : engine::Dimension::none;
}

std::optional<std::size_t> limit_of(const Study& study, models::Must must) {
  for (std::size_t k = 0; k < study.limits.size(); ++k)
    if (study.limits[k].must == must) return k;
  return std::nullopt;
}

std::optional<double> force_asked(const Study& study) {
  if (study.duty.force) return study.duty.force;
  const std::optional<std::size_t> k = limit_of(study, models::Must::force);
  if (!k || study.limits[*k].kind != models::Limit::Kind::at_least) return std::nullopt;
  return study.limits[*k].asked;
}

double at_nominal(const Study& study, const Quantity& quantity, const models::Design& design,
                  const std::vector<double>& nominal) {
  if (quantity.what == What::nut_length) return design.nut_length;
  if (quantity.what != What::output) return nominal[models::output_count + *limit_of(study, quantity.must)];
  if (study.duty.action == models::Action::clamp) {
    if (quantity.output == Output::torque) return torque_of_clamp(study, nominal);
    if (quantity.output == Output::hand_force)
      return torque_of_clamp(study, nominal) / (*study.duty.handle * study.duty.hands);
  }
  return nominal[at(quantity.output)];
}

double aimed(const SharedPasses& shared, const Candidate& candidate, const models::Design& design, const Aim& aim) {
  if (aim.of.what != What::odds) {
    const double value = of_design(shared, candidate, design, aim.of);
    return aim.most ? -value : value;
  }
  const double share = shared.shares(candidate, design)[*limit_of(shared.study(), aim.of.must)];
  return aim.most ? 1 - share : share;
}

double quantity_of(const Aim& aim, double aimed) {
  if (!aim.most) return aimed;
  return aim.of.what == What::odds ? 1 - aimed : -aimed;
}

Goes with_length(const Study& study, const Quantity& quantity) {
  if (quantity.what == What::nut_length) return Goes::up;
  if (quantity.what == What::output) return with_length(study, quantity.output);
  return goes(with_length(study, study.limits[*limit_of(study, quantity.must)]));
}

Goes with_length(const Study& study, const Aim& aim) {
  const Goes of = with_length(study, aim.of);
  if (!aim.most || of == Goes::level || of == Goes::unsteady) return of;
  return of == Goes::up ? Goes::down : Goes::up;
}

double mass_of(const SharedPasses& shared, const Candidate& candidate, const models::Design& design) {
  return aimed(shared, candidate, design, {});
}

double effort(const SharedPasses& shared, const Candidate& candidate, const models::Design& design) {
  const Study& study = shared.study();
  const bool by_force = study.duty.action == models::Action::clamp && !force_asked(study);
  return aimed(shared, candidate, design, {{What::output, by_force ? Output::force : Output::torque}, by_force});
}

const Aim& deciding_aim(const Study& study) {
  for (const Aim& aim : study.aims)
    if (with_length(study, aim) != Goes::level) return aim;
  return study.aims.front();
}

bool straight_with_length(const Aim& aim) {
  if (aim.most) return false;
  if (aim.of.what == What::nut_length) return true;
  if (aim.of.what != What::output) return false;
  switch (aim.of.output) {
    case Output::mass:
    case Output::screw_mass:
    case Output::nut_mass:
    case Output::engaged_turns:
      return true;
    default:
      return false;
  }
}

double over(const SharedPasses& shared, const Candidate& candidate, const models::Design& design, const Cap& cap) {
  return of_design(shared, candidate, design, cap.of) / cap.at_most;
}

std::optional<std::size_t> over_cap(const SharedPasses& shared, const Candidate& candidate,
                                    const models::Design& design) {
  const std::vector<Cap>& caps = shared.study().caps;
  for (std::size_t k = 0; k < caps.size(); ++k)
    if (!keeps_to(over(shared, candidate, design, caps[k]))) return k;
  return std::nullopt;
}

std::optional<std::size_t> over_cap(const SharedPasses& shared, const Candidate& candidate,
                                    const models::Thread& thread) {
  if (shared.study().caps.empty()) return std::nullopt;
  const auto over = [&](double nut) {
    return over_cap(shared, candidate, design_of(shared.study(), candidate, thread, nut));
  };
  if (!candidate.nut_range) return over(candidate.nut_length->of(thread.diameter));
  const auto [least, most] = nut_bounds(candidate, thread);
  const auto [from, to] = nut_room(shared, candidate, thread);
  if (least > most || from <= to) return std::nullopt;
  const std::optional<std::size_t> shortest = over(least);
  return shortest ? shortest : over(most);
}

std::pair<double, double> nut_room(const SharedPasses& shared, const Candidate& candidate,
                                   const models::Thread& thread) {
  auto [from, to] = nut_bounds(candidate, thread);
  for (const Cap& cap : shared.study().caps) {
    if (from > to) break;
    const auto keeps = [&](double nut) {
      return keeps_to(over(shared, candidate, design_of(shared.study(), candidate, thread, nut), cap));
    };
    const bool shortest = keeps(from), longest = keeps(to);
    if (!shortest && !longest) return {1, 0};
    if (!longest) to = furthest(from, to, keeps);
    if (!shortest) from = furthest(to, from, keeps);
  }
  return {from, to};
}

}  // namespace studies
