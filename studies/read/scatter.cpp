#include "studies/read/scatter.hpp"

#include <fmt/format.h>

#include "engine/base/format.hpp"
#include "studies/ask/inputs.hpp"
#include "studies/read/choose.hpp"
#include "studies/read/pairs.hpp"

namespace studies::read {
namespace {

using models::Drive;
using models::Input;

bool is_strength(Input input) {
  return input == Input::screw_yield || input == Input::screw_strength || input == Input::nut_strength;
}

std::optional<double> only(const std::vector<models::Material>& rows, double models::Material::*value) {
  return rows.size() == 1 ? std::optional<double>(rows.front().*value) : std::nullopt;
}

std::optional<double> own_value(const Study& study, Input input) {
  const Choices& c = study.choices;
  switch (input) {
    case Input::drive:
      return study.duty.drive == Drive::none ? std::nullopt : std::optional<double>(study.duty.drive_value);
    case Input::load:
      return study.duty.action == models::Action::lift ? study.duty.force : std::nullopt;
    case Input::thread_friction:
      return table_thread_friction(study);
    case Input::face_friction:
      return table_face_friction(study);
    case Input::screw_yield:
      return only(c.screw, &models::Material::yield);
    case Input::screw_strength:
      return only(c.screw, &models::Material::ultimate);
    case Input::nut_strength:
      return only(c.nut,
                  !c.nut.empty() && c.nut.front().brittle ? &models::Material::ultimate : &models::Material::yield);
    case Input::modulus:
      return only(c.screw, &models::Material::modulus);
    case Input::model_error:
      return 1;
    case Input::drag:
    case Input::diameters:
      return std::nullopt;
  }
  return std::nullopt;
}

Scattered facts_of(const Study& study, Input input) {
  Scattered of;
  of.input = input;
  of.name = input_name(study.duty, input);
  const KeyRow* row = find_key("scatter." + of.name);
  of.dimension = row->dimension;
  of.bound = row->bound;
  of.own = own_value(study, input);
  of.own_words = input == Input::drive || input == Input::load ? "as in [duty]" : "as in the table";
  const bool by_screw = is_strength(input) || input == Input::modulus || input == Input::diameters;
  of.varies = input == Input::model_error ? Varies::fixed : by_screw ? Varies::every_screw : Varies::every_pull;
  of.shape = is_strength(input) || of.friction() ? engine::Shape::lognormal : engine::Shape::normal;
  return of;
}

/// The mean typed here and the value typed in [duty] must be the same.
void check_mean(Page& page, const Scattered& of, double mean, engine::Place place) {
  if ((of.input == Input::drive || of.input == Input::load) && of.own && !same(mean, *of.own))
    page.refuse(place, fmt::format("scatter.{} lies elsewhere than the value in [duty]", of.name),
                "Both say what it is on the whole", "make the two equal, or take the mean out here");
}

void read_one(Page& page, const View& in, const Scattered& of, Scatter& scatter) {
  const engine::Node& node = *in.find(of.name);
  scatter.place = in.place(of.name);
  const bool list = node.kind == engine::Node::Kind::list;
  if (list && node.items.empty())
    page.refuse(node.place, fmt::format("scatter.{} is an empty list", of.name), "", "write at least one part");
  bool located = false, refused = false;
  std::size_t index = 0;
  for (const engine::Node* item : one_or_list(node)) {
    const std::string path = list ? fmt::format("scatter.{}[{}]", of.name, index) : "scatter." + of.name;
    const std::optional<PartRead> read = read_part(page, *item, path, of, index++ == 0);
    refused = refused || !read;
    if (!read) continue;
    if (read->handbook && node.items.size() > 1)
      page.refuse(item->place, "\"handbook\" stands beside other parts", "The table's range is all of the scatter",
                  "write it alone, or type the parts");
    if (read->sets_base && located)
      page.refuse(item->place, fmt::format("{} says again where the value lies", path),
                  "The other parts are deviations from the first",
                  "keep one mean; give the others as { spread } or { within }");
    located = located || read->sets_base;
    scatter.handbook = scatter.handbook || read->handbook;
    if (read->sets_base && !read->handbook) {
      scatter.base = read->mean ? *read->mean : read->part->marginal.median();
      if (read->mean) check_mean(page, of, *read->mean, item->place);
    }
    if (read->part) scatter.parts.push_back(*read->part);
  }
  if (!located && !refused && of.friction()) {
    scatter.base = of.own;
    if (!of.own)
      page.refuse(node.place, fmt::format("scatter.{} does not say where the friction lies", of.name),
                  "The table has no single value for all that may be chosen", "type its mean, or { low, high }");
  }
}

/// Scatter of something that the duty does not have.
void refuse_idle(Page& page, const View& in) {
  const models::Duty& duty = page.study.duty;
  const auto idle = [&](const char* key, const char* why) {
    if (in.has(key))
      page.refuse(in.place(key), fmt::format("'scatter.{}' has nothing to scatter", key), why, "take it out");
  };
  if (duty.drive == Drive::hand_force) idle("torque", "The drive is a hand force: its scatter is scatter.hand_force");
  if (duty.drive == Drive::torque || duty.drive == Drive::motor)
    idle("hand_force", "The drive is a torque: its scatter is scatter.torque");
  if (duty.drive == Drive::none) {
    idle("torque", "[duty] has no drive");
    idle("hand_force", "[duty] has no drive");
  }
  if (duty.action == models::Action::clamp) idle("load", "A clamp has no load: its force follows from the torque");
}

void read_shared(Page& page, const View& in) {
  Study& study = page.study;
  study.shared_friction = page.number_or_default(in, "shared_friction");
  if (!in.has("shared_friction")) return;
  if (!(study.shared_friction > -1 && study.shared_friction < 1))
    page.refuse(in.find("shared_friction")->place,
                fmt::format("scatter.shared_friction = {} is out of range", as_typed(*in.find("shared_friction"))),
                "It is a correlation", "use a value between -1 and 1, both left out");
  const auto fixed = [&](Input input) {
    const Scatter& scatter = study.scatter[static_cast<std::size_t>(input)];
    return !scatter.handbook && scatter.parts.empty();
  };
  if (fixed(Input::thread_friction) || fixed(Input::face_friction))
    page.caution(Level::notice, "shared_friction does nothing beside a friction that is held fixed.",
                 "scatter.shared_friction");
}

}  // namespace

void read_scatter(Page& page) {
  const View in = page.table(page.top(), "scatter");
  Study& study = page.study;
  refuse_idle(page, in);
  for (std::size_t k = 0; k < models::input_count; ++k) {
    const Scattered of = facts_of(study, static_cast<Input>(k));
    Scatter scatter;
    scatter.input = of.input;
    const bool idle = (of.input == Input::drive && study.duty.drive == Drive::none) ||
                      (of.input == Input::load && study.duty.action == models::Action::clamp);
    if (in.has(of.name) && !idle) {
      read_one(page, in, of, scatter);
    } else if (of.friction()) {
      scatter.handbook = true;
      page.echo_default("scatter." + of.name, std::nullopt);
    } else if (!idle) {
      study.held_fixed.push_back(of.name);
    }
    study.scatter.push_back(scatter);
  }
  read_shared(page, in);
  read_correlation(page, in);
}

}  // namespace studies::read
