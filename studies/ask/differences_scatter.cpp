#include <fmt/format.h>

#include <algorithm>

#include "engine/base/format.hpp"
#include "studies/ask/finding.hpp"

namespace studies {
namespace {

using engine::Dimension;
using models::Input;

std::size_t index_of(Input input) { return static_cast<std::size_t>(input); }

bool same(const engine::Marginal& a, const engine::Marginal& b) {
  if (a.shape != b.shape) return false;
  if (a.shape == engine::Shape::draws) return a.column->values == b.column->values;
  return alike(a.a, b.a) && alike(a.b, b.b) && alike(a.c, b.c) && alike(a.d, b.d) &&
         alike(a.window.least, b.window.least) && alike(a.window.most, b.window.most);
}

bool same(const Scatter& a, const Scatter& b) {
  return a.handbook == b.handbook && alike(a.base, b.base) &&
         std::equal(a.parts.begin(), a.parts.end(), b.parts.begin(), b.parts.end(),
                    [](const ScatterPart& one, const ScatterPart& other) {
                      return one.role == other.role && one.varies == other.varies && same(one.marginal, other.marginal);
                    });
}

std::string in_words(Varies varies) {
  return varies == Varies::every_pull ? "every pull" : varies == Varies::every_screw ? "every screw" : "fixed";
}

/// How an input scatters.
/// @param fully  how each part varies too
TypedValue scatter_words(const Scatter& it, Dimension dimension, bool fully) {
  if (it.handbook) return said("handbook");
  if (it.parts.empty()) return it.base ? said(*it.base, dimension) : said("held fixed");
  std::string words;
  for (const ScatterPart& part : it.parts)
    words += (words.empty() ? "" : " and ") + part.said + (fully ? ", " + in_words(part.varies) : "");
  return said(words);
}

bool reads_alike(const TypedValue& a, const TypedValue& b) { return a.words == b.words && alike(a.si, b.si); }

Difference difference(const Side& a, const Side& b, Input input) {
  const Scatter &from = a.study.scatter[index_of(input)], &to = b.study.scatter[index_of(input)];
  const std::string key = input_name(a.study.duty, input);
  const bool value = input == Input::thread_friction || input == Input::face_friction;
  std::string name(input == Input::drive ? (key == "torque" ? "torque" : "hand force") : models::row(input).words);
  if (!value) name = "scatter of the " + name;
  const bool by_hand = input == Input::drive && key != "torque";
  const Dimension dimension = input != Input::drive ? models::row(input).dimension
                              : by_hand             ? Dimension::force
                                                    : Dimension::torque;
  const bool fully = reads_alike(scatter_words(from, dimension, false), scatter_words(to, dimension, false));
  return {"scatter." + key, name, scatter_words(from, dimension, fully), scatter_words(to, dimension, fully)};
}

bool has_draws(const Scatter& it) {
  return std::any_of(it.parts.begin(), it.parts.end(),
                     [](const ScatterPart& part) { return part.marginal.shape == engine::Shape::draws; });
}

/// Whether a value typed in [duty] brings the scatter along, so that it is not a difference of its own.
bool comes_along(const Finding& f, Input input) {
  const models::Duty &a = f.a.study.duty, &b = f.b.study.duty;
  if (input == Input::drive && a.drive != b.drive) return true;
  if (input != Input::drive && input != Input::load) return false;
  const bool moved = input == Input::drive ? !alike(a.drive_value, b.drive_value) : !alike(a.force, b.force);
  return moved && value_in_scatter(f.a, f.b, input);
}

/// Every input that scatters otherwise. Columns of files of draws are taken together: rows are drawn whole.
void find_inputs(Finding& f) {
  Alterable draws;
  for (std::size_t k = 0; k < models::input_count; ++k) {
    const auto input = static_cast<Input>(k);
    const Scatter &from = f.a.study.scatter[k], &to = f.b.study.scatter[k];
    if (same(from, to) || comes_along(f, input)) continue;
    if (!has_draws(from) && !has_draws(to)) {
      f.add(difference(f.a, f.b, input), scatter_of(input));
      continue;
    }
    draws.alteration.differences.push_back(difference(f.a, f.b, input));
    draws.takes.push_back(scatter_of(input));
  }
  if (!draws.takes.empty()) f.add(std::move(draws));
}

bool same(const std::vector<Correlated>& a, const std::vector<Correlated>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const Correlated& one, const Correlated& other) {
    return one.one == other.one && one.other == other.other && alike(one.correlation, other.correlation);
  });
}

std::string in_words(const std::vector<Correlated>& all) {
  std::string words;
  for (const Correlated& it : all)
    words += fmt::format("{}{} with {} {}", words.empty() ? "" : ", ", it.name, it.other_name,
                         engine::plain(it.correlation));
  return words.empty() ? "none" : words;
}

void find_ties(Finding& f) {
  f.field(
      "scatter.shared_friction", "shared friction", Dimension::none,
      [](auto& side) -> auto& { return side.study.shared_friction; });
  const std::vector<Correlated>&a = f.a.study.correlations, &b = f.b.study.correlations;
  if (same(a, b)) return;
  f.add({"scatter.correlation", "correlation", said(in_words(a)), said(in_words(b))},
        [](Side& into, const Side& from) { into.study.correlations = from.study.correlations; });
}

template <class Row>
TypedValue range_words(const Row* row) {
  if (!row) return said("no row");
  const bool single = row->low == 0 && row->high == 0;
  return said(single ? "one value" : fmt::format("{} to {}", engine::plain(row->low), engine::plain(row->high)));
}

/// A row of the tables, looked up for the screws of both sides.
template <class Row, class Look, class Same>
void find_rows(Finding& f, const char* key, const char* name, std::vector<Row> models::Tables::*rows, Look look,
               Same same_row) {
  const models::Tables &a = f.a.study.tables, &b = f.b.study.tables;
  const auto equal = [&](const models::Design& design) {
    const Row *one = look(a, design), *other = look(b, design);
    return one && other ? same_row(*one, *other) : !one && !other;
  };
  if (equal(f.a.design) && equal(f.b.design)) return;
  f.add({key, name, range_words(look(a, f.a.design)), range_words(look(b, f.b.design))},
        [rows](Side& into, const Side& from) { into.study.tables.*rows = from.study.tables.*rows; });
}

bool from_handbook(const Finding& f, Input input) {
  return f.a.study.scatter[index_of(input)].handbook || f.b.study.scatter[index_of(input)].handbook;
}

void find_frictions(Finding& f) {
  if (from_handbook(f, Input::thread_friction))
    find_rows<models::ThreadFriction>(
        f, "tables.thread_friction", "thread friction of the tables", &models::Tables::thread_friction,
        [](const models::Tables& tables, const models::Design& it) {
          return find_thread_friction(tables, it.screw, it.nut, it.lubrication);
        },
        [](const auto& one, const auto& other) { return alike(one.low, other.low) && alike(one.high, other.high); });
  if (from_handbook(f, Input::face_friction))
    find_rows<models::FaceFriction>(
        f, "tables.face_friction", "face friction of the tables", &models::Tables::face_friction,
        [](const models::Tables& tables, const models::Design& it) {
          const bool rolls = it.face.kind == models::Face::Kind::rolling;
          return find_face_friction(tables, rolls ? "rolling" : "pad", it.face.on, it.face.hard);
        },
        [](const auto& one, const auto& other) {
          return alike(one.running, other.running) && alike(one.low, other.low) && alike(one.high, other.high) &&
                 alike(one.starting, other.starting);
        });
}

/// The safe pressures of thread and face.
void find_pressures(Finding& f) {
  const auto by = [](const Side& tables, const Side& of) {
    return models::allowances(tables.study.tables, of.study.duty, of.design, false);
  };
  const auto equal = [](double a, double b) { return alike(a, b) || (std::isnan(a) && std::isnan(b)); };
  const auto same_for = [&](const Side& of) {
    const models::Allowances a = by(f.a, of), b = by(f.b, of);
    return equal(a.bearing_pressure, b.bearing_pressure) && equal(a.face_pressure, b.face_pressure);
  };
  if (same_for(f.a) && same_for(f.b)) return;
  f.add(
      {"tables.bearing_pressure", "safe pressure of the tables", said(by(f.a, f.a).bearing_pressure, Dimension::stress),
       said(by(f.b, f.b).bearing_pressure, Dimension::stress)},
      [](Side& into, const Side& from) { into.study.tables.bearing_pressure = from.study.tables.bearing_pressure; });
}

}  // namespace

bool value_in_scatter(const Side& a, const Side& b, Input input) {
  return a.study.scatter[index_of(input)].base || b.study.scatter[index_of(input)].base;
}

Take scatter_of(Input input) {
  return [k = index_of(input)](Side& into, const Side& from) {
    into.study.scatter[k] = from.study.scatter[k];
    into.taken[k] = true;
  };
}

void find_in_scatter(Finding& f) {
  find_inputs(f);
  find_ties(f);
  find_frictions(f);
  find_pressures(f);
}

}  // namespace studies
