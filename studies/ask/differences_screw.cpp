#include "models/thread/designation.hpp"
#include "studies/ask/finding.hpp"

namespace studies {
namespace {

using engine::Dimension;
using models::Material;

std::string in_words(const models::Thread& thread) {
  models::Thread one = thread;
  one.starts = 1;
  return models::designation(one);
}

void find_thread(Finding& f) {
  const models::Thread &a = f.a.design.thread, &b = f.b.design.thread;
  if (a.form != b.form || !alike(a.diameter, b.diameter) || !alike(a.pitch, b.pitch))
    f.add({"choose.thread", "thread", said(in_words(a)), said(in_words(b))}, [](Side& into, const Side& from) {
      into.design.thread.form = from.design.thread.form;
      into.design.thread.diameter = from.design.thread.diameter;
      into.design.thread.pitch = from.design.thread.pitch;
    });
  f.field(
      "choose.starts", "starts", Dimension::none, [](auto& side) -> auto& { return side.design.thread.starts; });
  f.worded(
      "choose.made", "making of the thread", [](auto& side) -> auto& { return side.design.thread.made; },
      [](models::Made made) { return std::string(made == models::Made::cut ? "cut" : "rolled"); });
}

bool same(const Length& a, const Length& b) { return a.times_diameter == b.times_diameter && alike(a.value, b.value); }

void find_nut(Finding& f) {
  if (!same(f.a.nut_length, f.b.nut_length))
    f.add({"choose.nut_length", "nut length", said(f.a.nut_length), said(f.b.nut_length)},
          [](Side& into, const Side& from) { into.nut_length = from.nut_length; });
  const Length &a = f.a.study.choices.nut_outside, &b = f.b.study.choices.nut_outside;
  if (!same(a, b))
    f.add({"choose.nut_outside", "outside of the nut", said(a), said(b)},
          [](Side& into, const Side& from) { into.study.choices.nut_outside = from.study.choices.nut_outside; });
}

bool same(const Material& a, const Material& b) {
  return a.name == b.name && alike(a.yield, b.yield) && alike(a.ultimate, b.ultimate) && alike(a.modulus, b.modulus) &&
         alike(a.density, b.density) && a.brittle == b.brittle && a.family == b.family;
}

/// The row of a bar of so much diameter in a side's tables; the screw's own row where there is none.
const Material& bar(const Side& of, double diameter) {
  const Material* row = find_material_for(of.study.tables, of.design.screw.name, diameter);
  return row ? *row : of.design.screw;
}

/// A material by its name; where both have the same, by its strength.
std::pair<TypedValue, TypedValue> in_words(const Material& a, const Material& b) {
  if (a.name != b.name) return {said(a.name), said(b.name)};
  const auto strength = [](const Material& it) {
    return TypedValue{it.name + " of", it.brittle ? it.ultimate : it.yield, Dimension::stress};
  };
  return {strength(a), strength(b)};
}

void find_materials(Finding& f) {
  const double one = f.a.design.thread.diameter, other = f.b.design.thread.diameter;
  const bool alike_bars = same(bar(f.a, one), bar(f.b, one)) && same(bar(f.a, other), bar(f.b, other));
  if (!alike_bars) {
    const auto [from, to] = in_words(f.a.design.screw, f.b.design.screw);
    f.add({"choose.screw", "screw material", from, to}, [](Side& into, const Side& from_side) {
      into.design.screw = from_side.design.screw;
      into.study.tables.materials = from_side.study.tables.materials;
    });
  }
  if (same(f.a.design.nut, f.b.design.nut)) return;
  const auto [from, to] = in_words(f.a.design.nut, f.b.design.nut);
  f.add({"choose.nut", "nut material", from, to},
        [](Side& into, const Side& from_side) { into.design.nut = from_side.design.nut; });
}

bool same(const models::Face& a, const models::Face& b) {
  return a.kind == b.kind && alike(a.outer, b.outer) && alike(a.inner, b.inner) &&
         alike(a.mean_radius, b.mean_radius) && a.law == b.law && a.on == b.on && a.hard == b.hard;
}

void find_face(Finding& f) {
  const models::Face &a = f.a.design.face, &b = f.b.design.face;
  if (same(a, b)) return;
  const auto words = [&](const models::Face& it) {
    const char* const law = it.law == models::Face::Law::wear ? ", uniform wear" : ", uniform pressure";
    return said(describe(it) + (a.law == b.law ? "" : law));
  };
  f.add({"choose.face", "thrust face", words(a), words(b)},
        [](Side& into, const Side& from) { into.design.face = from.design.face; });
}

}  // namespace

void find_in_screw(Finding& f) {
  find_thread(f);
  find_nut(f);
  f.worded(
      "choose.lubrication", "lubrication", [](auto& side) -> auto& { return side.design.lubrication; },
      [](const std::string& word) { return word.empty() ? std::string("none typed") : word; });
  find_materials(f);
  find_face(f);
}

}  // namespace studies
