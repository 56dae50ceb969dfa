#include "studies/read/aim.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "engine/base/nearest.hpp"
#include "engine/base/utf8.hpp"
#include "models/screw/screw_model.hpp"
#include "studies/ask/aim.hpp"
#include "studies/read/choose.hpp"
#include "studies/read/suggest.hpp"

namespace studies::read {
namespace {

using engine::Node;
using models::Output;
using What = Quantity::What;

/// Everything that an aim may name in this study.
std::vector<std::string> names(const Study& study) {
  std::vector<std::string> all = {"nut_length"};
  for (std::size_t k = 0; k < models::output_count; ++k) all.emplace_back(row(static_cast<Output>(k)).name);
  for (const models::Limit& limit : study.limits)
    for (const char* of : {"margin.", "odds."}) all.push_back(of + std::string(row(limit.must).name));
  return all;
}

/// Why a quantity cannot be sought under this study's duty; empty where it can.
std::string lacking(const Study& study, const Quantity& of) {
  const models::Duty& duty = study.duty;
  if (of.what != What::output) return "";
  const bool lift = duty.action == models::Action::lift;
  if (lift && of.output == Output::force) return "a lift's force is its load, the same for every screw";
  const bool effort = of.output == Output::torque || of.output == Output::hand_force;
  if (!lift && effort && !force_asked(study))
    return "a clamp's torque is given, and no force is asked that it could be the torque for";
  for (const models::Face& face : study.choices.face)
    if (const std::string why = models::missing(duty, face, of.output); !why.empty()) return why;
  return "";
}

std::string fix_for(const std::string& name, const Study& study) {
  const std::string near = engine::nearest(name, names(study));
  if (!near.empty()) return fmt::format("write '{}'", near);
  return "name an output (mass, torque, turns, …), nut_length, or margin.… or odds.… of a limit in [must]";
}

/// A limit's margin or odds: "odds.force".
std::optional<Quantity> of_limit(Page& page, const Node& node, const std::string& name) {
  const std::size_t dot = name.find('.');
  const std::string what = name.substr(0, dot);
  const std::optional<models::Must> must = models::must_named(name.substr(dot + 1));
  if (!must || (what != "margin" && what != "odds")) return std::nullopt;
  if (!limit_of(page.study, *must)) {
    page.refuse(node.place, fmt::format("'{}' has no limit to go by", name),
                fmt::format("{} is not among the limits of this study", name.substr(dot + 1)),
                fmt::format("write {} = {{ … }} into [must]", name.substr(dot + 1)));
    return Quantity{What::margin, Output::mass, *must};  // refused once is enough
  }
  return Quantity{what == "odds" ? What::odds : What::margin, Output::mass, *must};
}

/// The quantity that a name stands for; none where it was refused.
std::optional<Quantity> quantity_named(Page& page, const Node& node, const std::string& name, const std::string& path) {
  if (name == "nut_length") return Quantity{What::nut_length};
  if (const std::optional<Output> output = models::output_named(name)) {
    const Quantity of{What::output, *output};
    const std::string why = lacking(page.study, of);
    if (why.empty()) return of;
    page.refuse(node.place, fmt::format("{} cannot be reckoned for '{}'", path, name), why, "name something else");
    return std::nullopt;
  }
  if (const std::optional<Quantity> of = of_limit(page, node, name)) return of;
  for (const models::NameRow& later : models::not_computed())
    if (name == later.name) {
      page.refuse(node.place, fmt::format("'{}' is not built yet", name),
                  fmt::format("This version cannot reckon with {}", later.words), "name something else");
      return std::nullopt;
    }
  page.refuse(node.place, fmt::format("unknown word '{}' for {}", engine::excerpt(name), path), "",
              fix_for(name, page.study));
  return std::nullopt;
}

void read_aims(Page& page, const View& aim, const std::string& key, bool most) {
  const Node* typed = aim.find(key);
  if (!typed) return;
  std::vector<Aim>& aims = page.study.aims;
  if (typed->kind == Node::Kind::list && typed->items.empty())
    page.refuse(typed->place, fmt::format("{} is an empty list", aim.under(key)), "", "name one or two quantities");
  for (const Node* node : one_or_list(*typed)) {
    if (node->kind != Node::Kind::text) {
      page.refuse_kind(*node, aim.under(key), "the name of an output in quotes");
      continue;
    }
    const std::optional<Quantity> of = quantity_named(page, *node, node->text, aim.under(key));
    if (!of) continue;
    page.echo(aim.under(key), *node, std::nullopt, engine::Dimension::none);
    if (std::any_of(aims.begin(), aims.end(), [&](const Aim& other) { return other.of == *of; }))
      page.refuse(node->place, fmt::format("'{}' is aimed at twice", node->text), "", "take one out");
    aims.push_back({*of, most});
    if (aims.size() == 3)
      page.refuse(node->place, "more than two aims", "Two of them can be set against each other on a curve",
                  "keep two, and cap the rest: cap = { … }");
  }
}

/// A free diameter or pitch is sought along smooth quantities, and a share of passes is none.
void refuse_odds_of_free(Page& page, const View& aim) {
  const std::vector<Aim>& aims = page.study.aims;
  if (page.study.choices.thread.free.empty() || aims.size() != 1 || aims.front().of.what != What::odds) return;
  page.refuse(aim.node->place, "odds alone cannot be the aim where diameter or pitch are free",
              "They are sought along quantities that go smoothly",
              "aim at the margin of that limit, or at two things: the odds and the mass");
}

void read_caps(Page& page, const View& aim) {
  const View caps = page.table(aim, "cap");
  if (!caps.node) return;
  for (const auto& [key, node] : caps.node->entries) {
    const std::string path = caps.under(key.name);
    if (key.name.starts_with("margin.") || key.name.starts_with("odds.")) continue;  // an unknown key, refused
    const std::optional<Quantity> of = quantity_named(page, node, key.name, path);
    if (!of) continue;
    const std::optional<double> most = page.value(node, path, dimension_of(*of), Bound::above_zero);
    if (most) page.study.caps.push_back({*of, *most});
  }
}

}  // namespace

void read_aim(Page& page) {
  const View aim = page.table(page.top(), "aim");
  page.study.aim_typed = page.top().has("aim");
  page.study.aims.clear();
  read_aims(page, aim, "least", false);
  read_aims(page, aim, "most", true);
  if (page.study.aims.empty()) {
    page.study.aims = {{}};
    if (!aim.has("least") && !aim.has("most")) page.echo_default("aim.least", std::nullopt);
  }
  refuse_odds_of_free(page, aim);
  read_caps(page, aim);
}

}  // namespace studies::read
