#include "studies/ask/change.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/base/format.hpp"
#include "studies/ask/aim.hpp"
#include "studies/ask/inputs.hpp"
#include "studies/say/figures.hpp"
#include "studies/say/units_of_his.hpp"

namespace studies {
namespace {

using engine::Dimension;
using models::Input;
using models::Limit;
using models::Must;
using Kind = Change::Kind;

constexpr double shortest = 0.2, strongest = 3;

/// In what a limit is typed.
enum class By { value, margin, force, drive };

/// A drive whose values are typed in [scatter] is not what the duty says: then its margin changes.
bool drive_by_duty(const Study& study) {
  const Scatter& drive = study.scatter[static_cast<std::size_t>(Input::drive)];
  return !drive.base && std::all_of(drive.parts.begin(), drive.parts.end(),
                                    [](const ScatterPart& part) { return part.role != ScatterPart::Role::value; });
}

By by(const Study& study, const Limit& limit) {
  if (limit.kind != Limit::Kind::margin) return By::value;
  if (limit.must == Must::force && study.duty.force) return By::force;
  const bool drive = limit.must == Must::torque || limit.must == Must::hand_force;
  return drive && drive_by_duty(study) ? By::drive : By::margin;
}

Scatter& scatter(Study& study, Input input) { return study.scatter[static_cast<std::size_t>(input)]; }
const Scatter& scatter(const Study& study, Input input) { return study.scatter[static_cast<std::size_t>(input)]; }

/// Times as strong, as far as the strength itself is typed.
void strengthen(Scatter& scatter, double times) {
  if (scatter.base) *scatter.base *= times;
  for (ScatterPart& part : scatter.parts)
    if (part.role == ScatterPart::Role::value) part.marginal = engine::scaled(part.marginal, times);
}

void strengthen(models::Material& material, double times) {
  material.yield *= times;
  material.ultimate *= times;
}

void strengthen_screws(Study& study, double times) {
  for (models::Material& row : study.tables.materials) {
    const auto same = [&](const models::Material& screw) { return screw.name == row.name; };
    if (std::any_of(study.choices.screw.begin(), study.choices.screw.end(), same)) strengthen(row, times);
  }
  for (models::Material& screw : study.choices.screw) strengthen(screw, times);
  strengthen(scatter(study, Input::screw_yield), times);
  strengthen(scatter(study, Input::screw_strength), times);
}

void change_limit(Study& study, std::size_t k, double to) {
  Limit& limit = study.limits[k];
  models::Duty& duty = study.duty;
  switch (by(study, limit)) {
    case By::force:
      duty.force = to;
      return;
    case By::drive:
      duty.drive_value = limit.must == Must::torque ? to / duty.drive_to_torque : to;
      return;
    case By::value:
      if (limit.must == Must::force && duty.force) duty.force = to;
      limit.asked = to;
      return;
    case By::margin:
      limit.asked = to;
  }
}

std::optional<double>& length(Study& study) {
  return study.duty.free_length ? study.duty.free_length : study.duty.travel;
}

/// Whether a strength's margin grows no faster than the strength: not where a deviation in itself is typed.
bool grows_with(const Study& study, std::initializer_list<Input> strengths) {
  for (const Input input : strengths)
    for (const ScatterPart& part : scatter(study, input).parts)
      if (part.role == ScatterPart::Role::added) return false;
  return true;
}

double gain_of_length(const Study& study, double to, Must must) {
  const models::Duty& duty = study.duty;
  const bool column = must == Must::buckling || must == Must::slenderness || must == Must::overload;
  if (column && duty.screw_in_compression) return std::pow(terms(study, {Kind::free_length, 0}).was / to, 2);
  const bool weighs = must == Must::mass && !(duty.free_length && duty.travel);
  return weighs ? std::numeric_limits<double>::infinity() : 1;
}

bool of_screw(Must must) {
  return must == Must::yield || must == Must::thread_root || must == Must::buckling || must == Must::stripping ||
         must == Must::overload;
}

bool of_nut(Must must) {
  return must == Must::thread_root || must == Must::nut_body || must == Must::stripping || must == Must::overload;
}

double typed(const engine::Shown& shown, Dimension dimension, say::Toward toward) {
  const double value = say::to_three(shown.value, toward);
  if (shown.unit.empty()) return value;
  return engine::parse_quantity(engine::plain(value) + " " + shown.unit, dimension).si;
}

}  // namespace

std::string name(Kind kind) {
  switch (kind) {
    case Kind::limit:
      return "limit";
    case Kind::free_length:
      return "free_length";
    case Kind::screw_strength:
      return "screw_strength";
    case Kind::nut_strength:
      return "nut_strength";
    case Kind::cap:
      return "cap";
  }
  return "";
}

std::vector<Change> changes(const Study& study) {
  std::vector<Change> all;
  for (std::size_t k = 0; k < study.limits.size(); ++k) all.push_back({Kind::limit, k});
  if (study.duty.free_length || study.duty.travel.value_or(0) > 0) all.push_back({Kind::free_length, 0});
  all.push_back({Kind::screw_strength, 0});
  all.push_back({Kind::nut_strength, 0});
  return all;
}

Terms terms(const Study& study, Change change) {
  const models::Duty& duty = study.duty;
  if (change.kind == Kind::free_length)
    return {duty.free_length ? *duty.free_length : *duty.travel, Dimension::length, false};
  if (change.kind == Kind::cap)
    return {study.caps[change.limit].at_most, dimension_of(study.caps[change.limit].of), false};
  if (change.kind != Kind::limit) return {1, Dimension::none, false};
  const Limit& limit = study.limits[change.limit];
  const Dimension dimension = row(limit.must).dimension;
  switch (by(study, limit)) {
    case By::value:
      return {limit.asked, dimension, false};
    case By::force:
      return {*duty.force, dimension, false};
    case By::drive:
      return {limit.must == Must::torque ? duty.drive_torque() : duty.drive_value, dimension, false};
    case By::margin:
      break;
  }
  return {limit.asked, Dimension::none, true};
}

double asked_for(const Study& study, std::size_t k, double margin) {
  const Limit& limit = study.limits[k];
  const double was = terms(study, {Kind::limit, k}).was;
  switch (by(study, limit)) {
    case By::value:
      return limit.value(margin);
    case By::force:
      return was * margin / limit.asked;
    case By::drive:
      return was * limit.asked / margin;
    case By::margin:
      break;
  }
  return margin;
}

bool is_drive(const Study& study, Change change) {
  return change.kind == Kind::limit && by(study, study.limits[change.limit]) == By::drive;
}

Study changed(const Study& study, Change change, double to) {
  Study other = study;
  switch (change.kind) {
    case Kind::limit:
      change_limit(other, change.limit, to);
      break;
    case Kind::free_length:
      length(other) = to;
      break;
    case Kind::screw_strength:
      strengthen_screws(other, to);
      break;
    case Kind::nut_strength:
      for (models::Material& nut : other.choices.nut) strengthen(nut, to);
      strengthen(scatter(other, Input::nut_strength), to);
      break;
    case Kind::cap:
      other.caps[change.limit].at_most = to;
      break;
  }
  return other;
}

Surface changed(Surface surface, Change change, double to) {
  if (change.kind == Kind::screw_strength) strengthen(surface.screw, to);
  if (change.kind == Kind::nut_strength) strengthen(surface.nut, to);
  return surface;
}

bool drawn_alike(const Study& study, Change change) {
  return change.kind == Kind::free_length || (change.kind == Kind::limit && !is_drive(study, change));
}

double farthest(const Study& study, Change change) {
  return change.kind == Kind::free_length ? shortest * terms(study, change).was : strongest;
}

double most_gain(const Study& study, Change change, double to, const Limit& limit) {
  constexpr double unknown = std::numeric_limits<double>::infinity();
  if (limit.must == Must::goes_first && change.kind != Kind::limit) return unknown;
  switch (change.kind) {
    case Kind::limit: {
      const bool own = limit.must == study.limits[change.limit].must;
      return own || (is_drive(study, change) && by(study, limit) == By::drive) ? unknown : 1;
    }
    case Kind::free_length:
      return gain_of_length(study, to, limit.must);
    case Kind::screw_strength:
      if (!of_screw(limit.must)) return 1;
      return grows_with(study, {Input::screw_yield, Input::screw_strength}) ? to : unknown;
    case Kind::nut_strength:
      if (!of_nut(limit.must)) return 1;
      return grows_with(study, {Input::nut_strength}) ? to : unknown;
    case Kind::cap:
      return 1;
  }
  return unknown;
}

double relative(double was, double to) { return std::abs(to / was - 1); }

double as_said(const Study& study, Change change, double to) {
  const Terms in = terms(study, change);
  const engine::Shown shown = say::HisUnits(study).shown(to, in.dimension);
  const bool up = to > in.was;
  const double one = typed(shown, in.dimension, up ? say::Toward::up : say::Toward::down);
  if (up ? one >= to : one <= to) return one;
  // A unit that counts the other way round, as threads to an inch, or a last figure lost in its factor.
  const double other = typed(shown, in.dimension, up ? say::Toward::down : say::Toward::up);
  return (up ? other >= to : other <= to) ? other : one;
}

}  // namespace studies
