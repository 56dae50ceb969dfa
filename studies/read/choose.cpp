#include "studies/read/choose.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "engine/base/nearest.hpp"
#include "engine/base/utf8.hpp"
#include "studies/read/suggest.hpp"

namespace studies::read {

using engine::Node;

std::vector<const Node*> one_or_list(const Node& node) {
  std::vector<const Node*> all;
  if (node.kind != Node::Kind::list) return {&node};
  for (const Node& item : node.items) all.push_back(&item);
  return all;
}

void refuse_twice(Page& page, const Node& node, const std::string& path) {
  std::set<std::string> seen;
  for (const Node* item : one_or_list(node))
    if (!seen.insert(as_typed(*item)).second)
      page.refuse(item->place, fmt::format("{} holds {} twice", path, as_typed(*item)), "", "take one out");
}

namespace {

/// The nodes of a key that must be typed, an empty list refused.
std::vector<const Node*> items_of(Page& page, const View& choose, const std::string& key) {
  const Node* node = choose.find(key);
  if (!node) {
    const KeyRow* row = find_key(choose.under(key));
    if (!page.spoiled(choose))
      page.refuse(choose.place(key), fmt::format("'choose.{}' is missing", key), std::string(row->help),
                  fmt::format("write {} = \"…\" into [choose]", key));
    return {};
  }
  if (node->kind == Node::Kind::list && node->items.empty())
    page.refuse(node->place, fmt::format("choose.{} is an empty list", key), "", "write at least one value");
  refuse_twice(page, *node, choose.under(key));
  return one_or_list(*node);
}

/// What the table holds of a material.
void echo_row(Page& page, const std::string& path, const models::Material& row) {
  const auto echo = [&](const char* name, double si, engine::Dimension dimension) {
    if (si > 0)
      page.echo_other(path + "." + name, fmt::format("{} ({})", row.name, row.kind), si, dimension,
                      "table: " + row.source);
  };
  echo("yield", row.yield, engine::Dimension::stress);
  echo("ultimate", row.ultimate, engine::Dimension::stress);
  echo("modulus", row.modulus, engine::Dimension::stress);
  echo("density", row.density, engine::Dimension::density);
}

std::vector<models::Material> read_materials(Page& page, const View& choose, const std::string& key) {
  std::vector<std::string> names;
  for (const models::Material& row : page.study.tables.materials)
    if (std::find(names.begin(), names.end(), row.name) == names.end()) names.push_back(row.name);
  std::vector<models::Material> all;
  for (const Node* item : items_of(page, choose, key)) {
    if (item->kind != Node::Kind::text) {
      page.refuse_kind(*item, choose.under(key), "the name of a material");
      continue;
    }
    const models::Material* row = find_material(page.study.tables, item->text);
    if (!row) {
      const std::string near = engine::nearest(item->text, names);
      page.refuse(item->place, fmt::format("unknown material '{}'", engine::excerpt(item->text)), "",
                  near.empty() ? "use one of: " + one_of(names) + ", or a row of your own in tables"
                               : fmt::format("write '{}'", near));
      continue;
    }
    page.echo(choose.under(key), *item, std::nullopt, engine::Dimension::none);
    echo_row(page, choose.under(key), *row);
    all.push_back(*row);
  }
  return all;
}

void refuse_brittle_screws(Page& page, const View& choose) {
  if (page.top().find("scatter") && page.top().find("scatter")->find("screw_yield")) return;
  for (const models::Material& screw : page.study.choices.screw)
    if (!(screw.yield > 0))
      page.refuse(choose.find("screw")->place, fmt::format("'{}' has no yield strength", screw.name),
                  "A brittle screw cannot be judged", "choose a ductile material for the screw");
}

void read_lubrication(Page& page, const View& choose) {
  std::vector<std::string> words = {"dry", "oil", "grease"};
  for (const models::ThreadFriction& row : page.study.tables.thread_friction)
    if (std::find(words.begin(), words.end(), row.lubrication) == words.end()) words.push_back(row.lubrication);
  std::vector<std::string>& all = page.study.choices.lubrication;
  if (choose.has("lubrication"))
    for (const Node* item : items_of(page, choose, "lubrication"))
      if (page.known(*item, "choose.lubrication", words)) {
        page.echo("choose.lubrication", *item, std::nullopt, engine::Dimension::none);
        all.push_back(item->text);
      }
  if (all.empty()) all.push_back("");
}

void read_made(Page& page, const View& choose) {
  const bool rolled = page.word_or_default(choose, "made", {"cut", "rolled"}) == "rolled";
  page.study.choices.made = rolled ? models::Made::rolled : models::Made::cut;
}

void mind_rolled(Page& page) {
  const Choices& c = page.study.choices;
  const auto other = [](const auto& thread) { return thread.form != models::Form::trapezoidal; };
  if (c.made == models::Made::rolled && (std::any_of(c.thread.sizes.begin(), c.thread.sizes.end(), other) ||
                                         std::any_of(c.thread.free.begin(), c.thread.free.end(), other)))
    page.caution(Level::notice,
                 "A rolled root is reckoned smaller for trapezoidal threads only: other forms keep their cut size.",
                 "choose.made = \"rolled\"");
}

}  // namespace

void read_choose(Page& page) {
  const View choose = page.table(page.top(), "choose");
  read_made(page, choose);
  items_of(page, choose, "thread");
  read_thread(page, choose);
  items_of(page, choose, "nut_length");
  read_nut(page, choose);
  read_lubrication(page, choose);
  page.study.choices.screw = read_materials(page, choose, "screw");
  refuse_brittle_screws(page, choose);
  page.study.choices.nut = read_materials(page, choose, "nut");
  items_of(page, choose, "face");
  read_face(page, choose);
  mind_rolled(page);
}

}  // namespace studies::read
