#include "models/tables/rows.hpp"

#include <algorithm>
#include <initializer_list>
#include <limits>
#include <utility>

#include "engine/base/error.hpp"
#include "engine/base/nearest.hpp"
#include "engine/base/units.hpp"

namespace models {
namespace {

using engine::Dimension;
using engine::Node;
using engine::Place;
using Words = std::vector<std::string>;

const Words families{"steel", "bronze", "brass", "cast iron", "plastic"};
const Words lubrications{"dry", "oil", "grease"};

std::string listed(const Words& words) {
  std::string list;
  for (const std::string& word : words) list += (list.empty() ? "" : ", ") + word;
  return list;
}

/// What is wrong in one file.
class Problems {
public:
  explicit Problems(std::string file) : file_(std::move(file)) {}

  void add(Place place, std::string problem, std::string reason, std::string fix) {
    list_.push_back({file_, place.line, place.column, std::move(problem), std::move(reason), std::move(fix)});
  }
  std::size_t count() const { return list_.size(); }
  /// Throws what there is, in the order of the file.
  void throw_any() {
    std::stable_sort(list_.begin(), list_.end(), [](const engine::Problem& a, const engine::Problem& b) {
      return std::pair(a.line, a.column) < std::pair(b.line, b.column);
    });
    if (!list_.empty()) throw engine::Refusal(engine::ExitCode::study, list_);
  }

private:
  std::string file_;
  std::vector<engine::Problem> list_;
};

void unknown(Problems& problems, const engine::Key& key, const std::string& where, const Words& known) {
  const std::string near = engine::nearest(key.name, known);
  problems.add(key.place, "unknown key '" + key.name + "' " + where, "Known are " + listed(known),
               near.empty() ? "use one of these or leave it out" : "did you mean '" + near + "'?");
}

/// One row: takes its values by key and notes what is wrong with each.
class Row {
public:
  Row(const Node& table, std::string heading, Problems& problems, const Words& known)
      : table_(table), heading_(std::move(heading)), problems_(problems), before_(problems.count()) {
    for (const auto& [key, node] : table.entries)
      if (std::find(known.begin(), known.end(), key.name) == known.end())
        unknown(problems, key, "in [[" + heading_ + "]]", known);
  }

  bool has(const char* key) const { return table_.find(key) != nullptr; }
  /// True while nothing was wrong with this row.
  bool good() const { return problems_.count() == before_; }
  Place place() const { return table_.place; }

  /// A text that must be there and say something.
  std::string text(const char* key) {
    const Node* node = needed(key);
    if (!node) return "";
    if (node->kind != Node::Kind::text || node->text.find_first_not_of(' ') == std::string::npos) {
      wrong_kind(key, *node, "a text", "\"…\"");
      return "";
    }
    return node->text;
  }

  /// One of a few words.
  std::string word(const char* key, const Words& known) {
    std::string said = text(key);
    if (said.empty() || std::find(known.begin(), known.end(), said) != known.end()) return said;
    const std::string near = engine::nearest(said, known);
    wrong(key, "is '" + said + "'", "Known are " + listed(known),
          near.empty() ? "use one of these" : "did you mean '" + near + "'?");
    return "";
  }

  /// A word of the user's own, unless it looks like a slip in a known one.
  std::string own_word(const char* key, const Words& known) {
    std::string said = text(key);
    const std::string near = engine::nearest(said, known);
    if (!said.empty() && !near.empty() && near != said)
      wrong(key, "is '" + said + "'", "It is close to the known '" + near + "' but not the same",
            "did you mean '" + near + "'?");
    return said;
  }

  bool truth(const char* key) {
    const Node* node = table_.find(key);
    if (!node) return false;
    if (node->kind != Node::Kind::truth) wrong_kind(key, *node, "true or false", "true");
    return node->truth;
  }

  /// A quantity above zero, in SI; 0 where something is wrong with it.
  double quantity(const char* key, Dimension dimension, const char* example) {
    const Node* node = needed(key);
    if (!node) return 0;
    if (node->kind != Node::Kind::text) {
      wrong_kind(key, *node, "a text with a number and its unit", example);
      return 0;
    }
    const double value = parsed(key, *node, dimension);
    if (!parse_failed_ && !(value > 0))
      wrong(key, "is " + node->text, "It must be above zero", std::string("give it like ") + example);
    return parse_failed_ ? 0 : value;
  }

  /// A coefficient of friction, 0 to 1.
  double friction(const char* key) {
    const Node* node = needed(key);
    if (!node) return 0;
    if (node->kind != Node::Kind::number) {
      wrong_kind(key, *node, "a number from 0 to 1", "0.12");
      return 0;
    }
    if (!(node->number > 0 && node->number <= 1))
      wrong(key, "is not above 0 and at most 1", "A coefficient of friction is", "give it like 0.12");
    return node->number;
  }

  /// Notes something wrong with a value.
  void wrong(const char* key, const std::string& problem, const std::string& reason, const std::string& fix) {
    const Node* node = table_.find(key);
    problems_.add(node ? node->place : table_.place, std::string("'") + key + "' in [[" + heading_ + "]] " + problem,
                  reason, fix);
  }

private:
  const Node* needed(const char* key) {
    const Node* node = table_.find(key);
    if (!node)
      problems_.add(table_.place, "[[" + heading_ + "]] has no '" + key + "'", "Every such row gives it",
                    std::string("add the line ") + key + " = …");
    return node;
  }

  void wrong_kind(const char* key, const Node& node, const std::string& due, const std::string& example) {
    const bool empty = node.kind == Node::Kind::text && node.text.find_first_not_of(' ') == std::string::npos;
    wrong(key, empty ? "is empty" : "is " + node.kind_in_words(), "Due is " + due,
          std::string("write ") + key + " = " + example);
  }

  double parsed(const char* key, const Node& node, Dimension dimension) {
    parse_failed_ = false;
    try {
      return engine::parse_quantity(node.text, dimension).si;
    } catch (const engine::QuantityError& error) {
      parse_failed_ = true;
      problems_.add(node.place, std::string("'") + key + "' in [[" + heading_ + "]]: " + error.problem, error.reason,
                    error.fix);
      return 0;
    }
  }

  const Node& table_;
  std::string heading_;
  Problems& problems_;
  std::size_t before_;
  bool parse_failed_ = false;
};

Material material(const Node& node, Problems& problems) {
  Row row(node, "material", problems,
          {"name", "family", "brittle", "yield", "ultimate", "modulus", "density", "kind", "up_to", "source"});
  Material m;
  m.name = row.text("name");
  m.family = row.own_word("family", families);
  m.brittle = row.truth("brittle");
  if (!m.brittle) m.yield = row.quantity("yield", Dimension::stress, "\"310 MPa\"");
  m.ultimate = row.quantity("ultimate", Dimension::stress, "\"570 MPa\"");
  m.modulus = row.quantity("modulus", Dimension::stress, "\"207 GPa\"");
  m.density = row.quantity("density", Dimension::density, "\"7800 kg/m3\"");
  m.kind = row.word("kind", {"minimum", "typical"});
  if (row.has("up_to")) m.up_to = row.quantity("up_to", Dimension::length, "\"25 mm\"");
  m.source = row.text("source");
  if (m.brittle && row.has("yield"))
    row.wrong("yield", "stands beside brittle = true", "A brittle material has no yield strength",
              "leave one of them out");
  if (row.good() && m.yield > m.ultimate)
    row.wrong("yield", "is above 'ultimate'", "A material breaks only after it has yielded", "check which is which");
  return m;
}

/// Reads a range of practice.
void range(Row& row, double& low, double& high) {
  low = row.friction("low");
  high = row.friction("high");
  if (row.good() && low > high) row.wrong("low", "is above 'high'", "A range runs from low to high", "swap them");
}

ThreadFriction thread_friction(const Node& node, Problems& problems) {
  Row row(node, "thread_friction", problems, {"screw", "nut", "lubrication", "low", "high", "source"});
  ThreadFriction f;
  f.screw = row.own_word("screw", families);
  f.nut = row.own_word("nut", families);
  f.lubrication = row.own_word("lubrication", lubrications);
  range(row, f.low, f.high);
  f.source = row.text("source");
  return f;
}

/// The numbers of a face: one running value, or a range.
void face_numbers(Row& row, FaceFriction& f) {
  const bool single = row.has("running") || row.has("starting"), spread = row.has("low") || row.has("high");
  if (single && spread)
    row.wrong(row.has("low") ? "low" : "high", "stands beside 'running' or 'starting'",
              "A face has one value or a range", "leave one of them out");
  if (spread) return range(row, f.low, f.high);
  f.running = row.friction("running");
  if (row.has("starting")) f.starting = row.friction("starting");
  if (row.good() && f.starting > 0 && f.starting < f.running)
    row.wrong("starting", "is below 'running'", "Starting takes at least the running friction", "check which is which");
}

FaceFriction face_friction(const Node& node, Problems& problems) {
  Row row(node, "face_friction", problems, {"kind", "on", "hard", "running", "starting", "low", "high", "source"});
  FaceFriction f;
  f.kind = row.word("kind", {"pad", "rolling"});
  if (f.kind == "pad") f.on = row.own_word("on", families);
  f.hard = row.truth("hard");
  for (const char* key : {"on", "hard"})
    if (f.kind == "rolling" && row.has(key))
      row.wrong(key, "stands in a rolling row", "A rolling bearing does not touch the face", "leave it out");
  face_numbers(row, f);
  f.source = row.text("source");
  return f;
}

double pressure_speed(Row& row) {
  if (row.has("speed") == row.has("up_to_speed")) {
    row.wrong(row.has("speed") ? "speed" : "up_to_speed",
              row.has("speed") ? "stands beside 'up_to_speed'" : "is missing",
              "A row says the speed it holds for, once",
              R"(give one of up_to_speed = "0.05 m/s", speed = "hand", speed = "above")");
    return 0;
  }
  if (row.has("up_to_speed")) return row.quantity("up_to_speed", Dimension::speed, "\"0.05 m/s\"");
  return row.word("speed", {"hand", "above"}) == "above" ? std::numeric_limits<double>::infinity() : 0;
}

BearingPressure bearing_pressure(const Node& node, Problems& problems) {
  Row row(node, "bearing_pressure", problems, {"screw", "nut", "speed", "up_to_speed", "pressure", "source"});
  BearingPressure p;
  p.screw = row.own_word("screw", families);
  p.nut = row.own_word("nut", families);
  p.up_to_speed = pressure_speed(row);
  p.pressure = row.quantity("pressure", Dimension::stress, "\"11 MPa\"");
  p.source = row.text("source");
  return p;
}

bool same_row(const Material& a, const Material& b) { return same_thing(a, b) && a.up_to == b.up_to; }
bool same_row(const ThreadFriction& a, const ThreadFriction& b) { return same_thing(a, b); }
bool same_row(const FaceFriction& a, const FaceFriction& b) { return same_thing(a, b); }
bool same_row(const BearingPressure& a, const BearingPressure& b) {
  return same_thing(a, b) && a.up_to_speed == b.up_to_speed;
}

/// A sized row after one for every size (or for a larger one) would never be taken.
bool hides(const Material& earlier, const Material& later) {
  return same_thing(earlier, later) && (earlier.up_to == 0 || (later.up_to > 0 && later.up_to < earlier.up_to));
}
template <class Any>
bool hides(const Any&, const Any&) {
  return false;
}

/// Reads one row into its list; a row twice is a problem.
template <class Any>
void add_row(std::vector<Any>& rows, const Node& node, Problems& problems, Any (*read)(const Node&, Problems&)) {
  const std::size_t before = problems.count();
  Any row = read(node, problems);
  if (problems.count() != before) return;
  for (const Any& earlier : rows) {
    if (same_row(earlier, row))
      return problems.add(node.place, "the same row stands twice in this file", "Only one of them can hold",
                          "leave one of them out");
    if (hides(earlier, row))
      return problems.add(node.place, "an earlier row of this name holds for every size of this one",
                          "The first row that holds is taken", "give each row its 'up_to', the smallest first");
  }
  rows.push_back(std::move(row));
}

/// Reads a row of the table with this heading.
void add_row(Tables& tables, const std::string& heading, const Node& node, Problems& problems) {
  if (heading == "material") return add_row(tables.materials, node, problems, material);
  if (heading == "thread_friction") return add_row(tables.thread_friction, node, problems, thread_friction);
  if (heading == "face_friction") return add_row(tables.face_friction, node, problems, face_friction);
  add_row(tables.bearing_pressure, node, problems, bearing_pressure);
}

bool is_list_of_tables(const Node& node) {
  return node.kind == Node::Kind::list && std::all_of(node.items.begin(), node.items.end(),
                                                      [](const Node& item) { return item.kind == Node::Kind::table; });
}

}  // namespace

bool same_thing(const Material& a, const Material& b) { return a.name == b.name; }
bool same_thing(const ThreadFriction& a, const ThreadFriction& b) {
  return a.screw == b.screw && a.nut == b.nut && a.lubrication == b.lubrication;
}
bool same_thing(const FaceFriction& a, const FaceFriction& b) {
  return a.kind == b.kind && a.on == b.on && a.hard == b.hard;
}
bool same_thing(const BearingPressure& a, const BearingPressure& b) { return a.screw == b.screw && a.nut == b.nut; }

Tables rows_of(const Node& root, const std::string& file) {
  const Words headings{"material", "thread_friction", "face_friction", "bearing_pressure"};
  Tables tables;
  Problems problems(file);
  for (const auto& [key, node] : root.entries) {
    if (std::find(headings.begin(), headings.end(), key.name) == headings.end())
      unknown(problems, key, "in a tables file", headings);
    else if (!is_list_of_tables(node))
      problems.add(key.place, "'" + key.name + "' is " + node.kind_in_words(), "Its rows are tables of their own",
                   "head each row with [[" + key.name + "]]");
    else
      for (const Node& row : node.items) add_row(tables, key.name, row, problems);
  }
  problems.throw_any();
  return tables;
}

}  // namespace models
