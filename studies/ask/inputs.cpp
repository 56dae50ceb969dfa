#include "studies/ask/inputs.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/base/format.hpp"
#include "studies/ask/ties.hpp"

namespace studies {
namespace {

using engine::Marginal;
using models::Input;

constexpr double inside_of_practice = 0.8;

/// One input, ready for the law: its base, nominal value and parts with how each varies.
struct Resolved {
  double base = 0, nominal = 0;
  std::vector<ScatterPart> parts;
  bool from_table = false;
};

engine::Refusal no_row(const std::string& what, const std::string& fix) {
  return engine::Refusal(engine::ExitCode::study, engine::Problem{"", 0, 0, what, "the tables hold no such row", fix});
}

ScatterPart practice(const Marginal& marginal, std::string said, std::string source) {
  return {marginal, ScatterPart::Role::value, Varies::every_pull, std::move(said), std::move(source)};
}

std::string range_in_words(double low, double high) {
  return fmt::format("{} to {} inside 80 of 100", engine::plain(low), engine::plain(high));
}

ScatterPart thread_friction(const Study& study, const Surface& surface) {
  const models::ThreadFriction* row =
      find_thread_friction(study.tables, surface.screw, surface.nut, surface.lubrication);
  if (!row)
    throw no_row(fmt::format("no friction of {} on {}, {}", surface.screw.name, surface.nut.name, surface.lubrication),
                 "type thread_friction in [scatter]");
  return practice(engine::range_of_practice(row->low, row->high, inside_of_practice),
                  range_in_words(row->low, row->high), row->source);
}

ScatterPart face_friction(const Study& study, const Surface& surface) {
  const models::Face& face = surface.face;
  const std::string kind = face.kind == models::Face::Kind::rolling ? "rolling" : "pad";
  const models::FaceFriction* row = find_face_friction(study.tables, kind, face.on, face.hard);
  if (!row) throw no_row("no friction of the face " + describe(face), "type face_friction in [scatter]");
  const double low = row->running > 0 ? 0.8 * row->running : row->low;
  const double high = row->running > 0 ? 1.25 * row->running : row->high;
  return practice(engine::range_of_practice(low, high, inside_of_practice), range_in_words(low, high), row->source);
}

double own_value(const Study& study, const Surface& surface, Input input) {
  switch (input) {
    case Input::drive:
      return study.duty.drive_value;
    case Input::load:
      return study.duty.action == models::Action::lift ? study.duty.force.value_or(0) : 0;
    case Input::screw_yield:
      return surface.screw.yield;
    case Input::screw_strength:
      return surface.screw.ultimate;
    case Input::nut_strength:
      return surface.nut.brittle ? surface.nut.ultimate : surface.nut.yield;
    case Input::modulus:
      return surface.screw.modulus;
    case Input::model_error:
      return 1;
    default:
      return 0;
  }
}

Resolved resolve(const Study& study, const Surface& surface, const Scatter& scatter) {
  Resolved r;
  r.parts = scatter.parts;
  if (scatter.handbook) {
    r.parts = {scatter.input == Input::thread_friction ? thread_friction(study, surface)
                                                       : face_friction(study, surface)};
    r.from_table = true;
  }
  r.base = scatter.base.value_or(own_value(study, surface, scatter.input));
  r.nominal = r.base;
  for (const ScatterPart& part : r.parts)
    if (part.role == ScatterPart::Role::value) {
      if (!scatter.base) r.nominal = part.marginal.median();
      r.base = 0;
    }
  return r;
}

std::string in_words(Varies varies) {
  return varies == Varies::every_pull ? "every pull" : varies == Varies::every_screw ? "every screw" : "fixed";
}

double least_possible(Input input) { return input == Input::diameters ? -std::numeric_limits<double>::infinity() : 0; }

/// The same mean and spread in another shape, where there is one.
Marginal reshaped(const Marginal& marginal, engine::Shape shape) {
  if (!is_reshaped(marginal) || marginal.shape == shape) return marginal;
  return shape == engine::Shape::normal ? engine::normal(marginal.mean(), marginal.spread())
                                        : engine::lognormal(marginal.mean(), marginal.spread());
}

engine::Dimension dimension_of(const Study& study, Input input) {
  if (input != Input::drive) return row(input).dimension;
  return study.duty.drive == models::Drive::hand_force ? engine::Dimension::force : engine::Dimension::torque;
}

}  // namespace

std::string input_name(const models::Duty& duty, Input input) {
  if (input != Input::drive) return std::string(row(input).name);
  return duty.drive == models::Drive::hand_force ? "hand_force" : "torque";
}

bool is_reshaped(const Marginal& marginal) {
  return (marginal.shape == engine::Shape::normal || marginal.shape == engine::Shape::lognormal) &&
         marginal.window.whole() && marginal.mean() > 0 && marginal.spread() > 0;
}

InputLaw input_law(const Study& study, const Surface& surface, std::optional<engine::Shape> friction) {
  std::vector<double> base(models::input_count), floors(models::input_count);
  std::vector<engine::Part> parts;
  std::vector<Varies> varies;
  models::Inputs nominal{};
  std::vector<ScatterUsed> used;
  std::vector<bool> by_screw(models::input_count);
  bool face_from_table = false;
  for (std::size_t k = 0; k < models::input_count; ++k) {
    const auto input = static_cast<Input>(k);
    Resolved r = resolve(study, surface, study.scatter[k]);
    if (friction && (input == Input::thread_friction || input == Input::face_friction))
      for (ScatterPart& part : r.parts) part.marginal = reshaped(part.marginal, *friction);
    base[k] = r.base;
    nominal[k] = r.nominal;
    floors[k] = least_possible(input);
    face_from_table = face_from_table || (input == Input::face_friction && r.from_table);
    for (const ScatterPart& part : r.parts) {
      parts.push_back({k, part.role == ScatterPart::Role::factor, part.marginal});
      varies.push_back(part.varies);
      by_screw[k] = by_screw[k] || part.varies == Varies::every_screw;
      used.push_back({input_name(study.duty, input), name(part.marginal.shape), in_words(part.varies), part.source,
                      r.nominal, dimension_of(study, input), part.said});
    }
  }
  for (const Correlated& pair : study.correlations)
    if (const auto it =
            std::find_if(used.begin(), used.end(), [&](const ScatterUsed& u) { return u.name == pair.name; });
        it != used.end())
      it->said += fmt::format(", correlation {} with {}", engine::plain(pair.correlation), pair.other_name);
  return {engine::Law(base, floors, parts, ties(study, parts, varies)), nominal, used, by_screw, face_from_table};
}

}  // namespace studies
