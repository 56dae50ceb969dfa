#include "studies/read/must.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "engine/base/format.hpp"
#include "models/screw/breaking.hpp"
#include "studies/read/suggest.hpp"

namespace studies::read {
namespace {

using models::Action;
using models::Drive;
using models::Limit;
using models::Must;

/// In which of the three ways a limit can be asked.
struct Ways {
  bool margin, at_least, at_most;
};

Ways ways(Must must) {
  switch (must) {
    case Must::force:
    case Must::self_locking:
      return {true, true, true};
    case Must::buckling:
      return {true, true, false};
    case Must::torque:
    case Must::hand_force:
    case Must::yield:
    case Must::thread_root:
    case Must::bearing:
    case Must::face_bearing:
      return {true, false, true};
    case Must::nut_body:
    case Must::stripping:
    case Must::overload:
    case Must::goes_first:
      return {true, false, false};
    case Must::slenderness:
    case Must::mass:
      return {false, false, true};
  }
  return {true, false, false};
}

std::string ways_in_words(Must must) {
  std::vector<std::string> words;
  if (ways(must).margin) words.push_back("margin");
  if (ways(must).at_least) words.push_back("at_least");
  if (ways(must).at_most) words.push_back("at_most");
  return one_of(words);
}

std::string name_of(Must must) { return std::string(row(must).name); }

/// What the duty lacks for this limit, and the fix; empty where nothing.
struct Lack {
  std::string what, fix;
};

Lack lack(const Study& study, Must must, Limit::Kind kind) {
  const models::Duty& d = study.duty;
  const bool lift = d.action == Action::lift, margin = kind == Limit::Kind::margin;
  switch (must) {
    case Must::force:
      if (lift) return {"a lift's force is its load", "limit torque or hand_force instead"};
      if (margin && !d.force)
        return {"no force is asked in [duty] that a margin could be taken against",
                "write at_least = \"…\", or force = \"…\" into [duty]"};
      break;
    case Must::torque:
      if (!lift) return {"a clamp's torque is given", "limit force instead"};
      if (margin && d.drive == Drive::none)
        return {"no drive is given that a margin could be taken against",
                "write at_most = \"…\", or a drive into [duty]"};
      break;
    case Must::hand_force:
      if (!lift) return {"a clamp's hand force is given", "limit force instead"};
      if (!d.handle) return {"no handle is given", "write handle = \"…\" into [duty]"};
      if (margin && d.drive != Drive::hand_force)
        return {"no hand force is given that a margin could be taken against",
                "write at_most = \"…\", or hand_force = \"…\" into [duty]"};
      break;
    case Must::buckling:
    case Must::slenderness:
      if (!d.screw_in_compression)
        return {"a screw in tension does not buckle", "take the limit out, or write screw_in = \"compression\""};
      if (!d.free_length && !d.travel)
        return {"neither free_length nor travel is given", "write free_length = \"…\" or travel = \"…\" into [duty]"};
      break;
    case Must::overload:
      if (!d.overload) return {"no overload pull is given", "write overload = { torque = \"…\" } into [duty]"};
      break;
    default:
      break;
  }
  return {};
}

/// The margin asked where none is typed; the brittle nut's for stripping.
double usual_margin(Page& page, const View& view, Must must) {
  const auto& nuts = page.study.choices.nut;
  const auto brittle = [](const models::Material& nut) { return nut.brittle; };
  constexpr double brittle_stripping = 4;
  if (must != Must::stripping || std::none_of(nuts.begin(), nuts.end(), brittle)) {
    page.echo_default(view.under("margin"), 1);
    return 1;
  }
  if (!std::all_of(nuts.begin(), nuts.end(), brittle))
    page.refuse(view.node->place, "some nuts are brittle and some are not",
                "Their usual margins against stripping differ: 4 and 1", "write margin = …");
  page.echo_other(view.under("margin"), "4", brittle_stripping, engine::Dimension::none, "default: a brittle nut");
  return brittle_stripping;
}

/// Margin, at_least or at_most; none where it was refused.
std::optional<Limit> read_asked(Page& page, const View& view, Must must) {
  Limit limit;
  limit.must = must;
  std::vector<std::string> typed;
  for (const char* key : {"margin", "at_least", "at_most"})
    if (view.has(key)) typed.push_back(key);
  if (typed.size() > 1) {
    page.refuse(view.place(typed[1]),
                fmt::format("must.{} is asked twice: {} and {}", name_of(must), typed[0], typed[1]), "",
                "keep one of them");
    return std::nullopt;
  }
  const std::string way = typed.empty() ? "margin" : typed[0];
  const Ways fits = ways(must);
  if (!(way == "margin" ? fits.margin : way == "at_least" ? fits.at_least : fits.at_most)) {
    const std::string problem = typed.empty() ? fmt::format("must.{} does not say what is asked", name_of(must))
                                              : fmt::format("must.{} cannot be asked by {}", name_of(must), way);
    if (!typed.empty() || !page.spoiled(view))
      page.refuse(typed.empty() ? view.node->place : view.place(way), problem, "",
                  "write " + ways_in_words(must) + " = …");
    return std::nullopt;
  }
  limit.kind = way == "margin" ? Limit::Kind::margin : way == "at_least" ? Limit::Kind::at_least : Limit::Kind::at_most;
  const Lack missing = lack(page.study, must, limit.kind);
  if (!missing.what.empty()) {
    page.refuse(view.place(way), fmt::format("must.{} cannot be judged: {}", name_of(must), missing.what), "",
                missing.fix);
    return std::nullopt;
  }
  if (typed.empty()) {
    limit.asked = usual_margin(page, view, must);
    return limit;
  }
  const engine::Dimension dimension = way == "margin" ? engine::Dimension::none : row(must).dimension;
  const std::optional<double> asked = page.value(*view.find(way), view.under(way), dimension, Bound::above_zero);
  if (!asked) return std::nullopt;
  limit.asked = *asked;
  return limit;
}

void read_basis(Page& page, const View& view, Limit& limit) {
  if (limit.must == Must::stripping)
    limit.basis = page.word_or_default(view, "basis", {"yield", "ultimate"}) == "ultimate"
                      ? models::StripBasis::ultimate
                      : models::StripBasis::yield;
  else if (view.has("basis"))
    page.refuse(view.place("basis"), fmt::format("must.{} has no basis", name_of(limit.must)),
                "Only stripping is judged by one of two strengths", "take it out");
}

/// The names of the parts that can go first.
std::vector<std::string> breaking_parts() {
  std::vector<std::string> names;
  for (std::size_t k = 0; k < models::must_count; ++k)
    if (models::breaks(static_cast<Must>(k))) names.push_back(name_of(static_cast<Must>(k)));
  return names;
}

/// first = true: if somebody pulls too hard, this part is to break before all others. A limit beside the one it is
/// typed on, with the same odds.
std::optional<Limit> read_first(Page& page, const View& view, const Limit& of, const std::optional<Limit>& earlier) {
  if (!view.has("first") || !page.truth_or_false(view, "first")) return std::nullopt;
  if (!models::breaks(of.must)) {
    page.refuse(view.place("first"), fmt::format("must.{} cannot go first", name_of(of.must)),
                "It is no part that breaks when somebody pulls too hard",
                "take it out, or write it on " + one_of(breaking_parts()));
    return std::nullopt;
  }
  if (earlier) {
    page.refuse(view.place("first"),
                fmt::format("two parts are to go first: {} and {}", name_of(earlier->part), name_of(of.must)),
                "Only one can be the first to break", "keep first = true on one of them");
    return std::nullopt;
  }
  return Limit{Must::goes_first, Limit::Kind::margin, 1, of.odds, of.basis, of.must};
}

/// Two forces asked of one clamp.
void check_force(Page& page, const View& view, const Limit& limit) {
  const std::optional<double>& force = page.study.duty.force;
  if (limit.must != Must::force || !force) return;
  if (limit.kind == Limit::Kind::at_most)
    page.refuse(view.place("at_most"), "two limits of the force: the one asked in [duty] and at_most here",
                "A name holds one limit", "take one of them out");
  if (limit.kind == Limit::Kind::at_least && !same(limit.asked, *force))
    page.refuse(view.place("at_least"), "the force asked here differs from the one in [duty]",
                "Both say what the clamp must reach", "make the two equal, or take one out");
}

/// The limits that the duty implies where none of that name is typed.
void add_implied(Page& page, const View& must) {
  const models::Duty& d = page.study.duty;
  if (d.action == Action::clamp && d.force && !must.has("force")) {
    page.study.limits.push_back(
        {Must::force, Limit::Kind::at_least, *d.force, std::nullopt, models::StripBasis::yield});
    page.echo_other("must.force.at_least", "duty.force", d.force, engine::Dimension::force,
                    "default: the force asked in [duty], at nominal");
  }
  if (d.action == Action::lift && d.drive != Drive::none && !must.has("torque") && !must.has("hand_force")) {
    page.study.limits.push_back({Must::torque, Limit::Kind::margin, 1, std::nullopt, models::StripBasis::yield});
    page.echo_other("must.torque.margin", "1", 1, engine::Dimension::none,
                    "default: the drive in [duty] is what there is, at nominal");
  }
}

}  // namespace

void read_must(Page& page) {
  const View must = page.table(page.top(), "must");
  std::optional<Limit> first;
  for (std::size_t k = 0; k < models::must_count; ++k) {
    if (static_cast<Must>(k) == Must::goes_first) continue;  // typed as first = true on a part
    const View view = page.table(must, name_of(static_cast<Must>(k)));
    if (!view.node) continue;
    std::optional<Limit> limit = read_asked(page, view, static_cast<Must>(k));
    const std::optional<double> odds = page.number(view, "odds");
    if (!limit) continue;
    limit->odds = odds;
    read_basis(page, view, *limit);
    check_force(page, view, *limit);
    page.study.limits.push_back(*limit);
    if (const std::optional<Limit> this_one = read_first(page, view, *limit, first)) first = this_one;
  }
  if (first) page.study.limits.push_back(*first);
  add_implied(page, must);
  std::stable_sort(page.study.limits.begin(), page.study.limits.end(),
                   [](const Limit& a, const Limit& b) { return a.must < b.must; });
}

}  // namespace studies::read
