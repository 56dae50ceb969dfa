#include "studies/say/json_parts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/format.hpp"
#include "studies/ask/aim.hpp"
#include "studies/say/cautions.hpp"
#include "studies/say/limits.hpp"
#include "studies/say/sentences.hpp"

namespace studies::say {
namespace {

using engine::Dimension;
using Kind = models::Limit::Kind;

Json name_or_null(const std::optional<models::Must>& must) {
  return must ? Json(models::row(*must).name) : Json(nullptr);
}

Json asks_json(const LimitVerdict& it, Notes& notes) {
  const Json odds = it.limit.odds ? Json(*it.limit.odds) : Json(nullptr);
  if (it.limit.kind == Kind::margin) return Json{{"margin", notes.number(it.asked_value, it.name)}, {"odds", odds}};
  return Json{{it.limit.kind == Kind::at_least ? "at_least" : "at_most",
               quantity(notes, it.asked_value, it.dimension, it.name)},
              {"odds", odds}};
}

/// An output that has a name and no formula yet.
OutputSummary without_value(const models::NameRow& row) {
  OutputSummary it;
  it.name = row.name;
  it.dimension = row.dimension;
  it.nominal = it.mean = it.spread = NAN;
  it.quantiles.fill({NAN, NAN, NAN});
  it.reason = "not computed in this version";
  return it;
}

/// A change in the terms in which it is typed.
Json change_json(const Study& study, const Relaxation& it, Notes& notes) {
  const std::string limit = it.kind == Change::Kind::limit ? std::string(models::row(it.must).name)
                            : it.kind == Change::Kind::cap ? "cap." + name(study.caps[it.cap].of)
                                                           : "";
  const std::string what = name(it.kind) + (limit.empty() ? "" : " " + limit);
  return Json{{"change", name(it.kind)},
              {"limit", limit.empty() ? Json(nullptr) : Json(limit)},
              {"was", notes.number(it.was, what)},
              {"to", notes.number(it.to, what)},
              {"unit", unit(it.of_margin ? Dimension::none : it.dimension)}};
}

/// What a candidate first misses.
Json missed_json(const Study& study, const CandidateVerdict& it, Notes& notes) {
  Json object{{"designation", it.designation},
              {"mass", quantity(notes, it.mass > 0 ? it.mass : NAN, Dimension::mass, it.designation + " mass")},
              {"misses", name_or_null(it.misses)},
              {"has", nullptr},
              {"needs", nullptr}};
  if (it.misses) {
    const std::string name = it.designation + " " + std::string(models::row(*it.misses).name);
    object["has"] = notes.number(it.has, name);
    object["needs"] = notes.number(it.needs, name);
  } else if (it.over_cap) {
    const std::string cap = missed_name(study, it);
    object["misses"] = cap;
    object["has"] = notes.number(it.has, cap);
    object["needs"] = notes.number(it.needs, cap);
  }
  if (!it.why.empty()) object["why"] = it.why;
  return object;
}

}  // namespace

Json verdict_json(const Answer& answer) {
  return Json{{"holds", answer.pick.has_value() && answer.holds()},
              {"sentence", verdict_sentence(answer)},
              {"governs", answer.sized ? name_or_null(answer.governs) : Json(nullptr)},
              {"tightest", name_or_null(answer.tightest)}};
}

Json design_json(const CandidateVerdict& screw, Notes& notes) {
  const models::Design& design = screw.design;
  const models::Thread& thread = design.thread;
  const auto length = [&](double value, const char* name) { return quantity(notes, value, Dimension::length, name); };
  return Json{{"designation", screw.designation},
              {"form", models::name(thread.form)},
              {"diameter", length(thread.diameter, "diameter")},
              {"pitch", length(thread.pitch, "pitch")},
              {"lead", length(thread.lead(), "lead")},
              {"starts", thread.starts},
              {"pitch_diameter", length(thread.pitch_diameter, "pitch_diameter")},
              {"root_diameter", length(thread.root_diameter, "root_diameter")},
              {"nut_length", length(design.nut_length, "nut_length")},
              {"screw", design.screw.name},
              {"nut", design.nut.name},
              {"lubrication", design.lubrication},
              {"face", models::describe(design.face)},
              {"mass", quantity(notes, screw.mass, Dimension::mass, "mass")}};
}

Json pick_json(const Answer& answer, Notes& notes) {
  return answer.pick ? design_json(*answer.pick, notes) : Json(nullptr);
}

Json outputs_json(const Answer& answer, Notes& notes) {
  Json outputs = Json::object();
  if (!answer.pick) return outputs;
  std::vector<OutputSummary> all = answer.outputs;
  for (const models::NameRow& row : models::not_computed()) all.push_back(without_value(row));
  for (const OutputSummary& it : all) {
    const auto number = [&](double value) { return notes.number(value, it.name, it.reason); };
    Json quantiles = Json::object();
    for (std::size_t i = 0; i < quantile_points.size(); ++i)
      quantiles[fmt::format("{}", quantile_points[i])] = bounded(notes, it.quantiles[i], it.name, it.reason);
    const auto ends = [&](const Ends& e) { return Json{{"low", number(e.low)}, {"high", number(e.high)}}; };
    Json tolerance{{"content", tolerance_content}, {"confidence", tolerance_confidence}};
    tolerance.update(ends(it.tolerance));
    outputs[it.name] =
        Json{{"unit", unit(it.dimension)},
             {"nominal", number(it.nominal)},
             {"mean", number(it.mean)},
             {"spread", number(it.spread)},
             {"quantiles", std::move(quantiles)},
             {"coverage",
              Json{{"share", coverage_share}, {"symmetric", ends(it.symmetric)}, {"shortest", ends(it.shortest)}}},
             {"tolerance", std::move(tolerance)}};
    if (it.missing > 0 && it.reason.empty())
      notes.add(it.name, fmt::format("no value on {} of {} passes", engine::count_in_full(it.missing),
                                     engine::count_in_full(answer.passes)));
  }
  return outputs;
}

Json limits_json(const Answer& answer, Notes& notes) {
  Json limits = Json::array();
  if (!answer.pick) return limits;
  for (const LimitVerdict& it : answer.limits) {
    const std::string name = "margin." + it.name;
    Json odds = bounded(notes, it.odds, name);
    odds["passes"] = answer.passes;
    limits.push_back(Json{{"name", it.name},
                          {"asks", asks_json(it, notes)},
                          {"has", quantity(notes, it.has, said_in(it.limit), name)},
                          {"spare", notes.number(it.spare, name)},
                          {"nominal_margin", notes.number(it.nominal_margin, name)},
                          {"odds", std::move(odds)},
                          {"holds", it.holds}});
  }
  return limits;
}

Json search_json(const Answer& answer, Notes& notes) {
  const SearchReport& it = answer.search;
  return Json{{"candidates", it.candidates},
              {"examined", it.examined},
              {"ruled_out", it.ruled_out},
              {"proven", it.proven},
              {"gap", notes.number(it.gap, "search.gap")},
              {"model_calls", it.model_calls}};
}

Json lighter_json(const Answer& answer, Notes& notes) {
  Json lighter = Json::array();
  for (const CandidateVerdict& it : answer.lighter) {
    lighter.push_back(missed_json(*answer.study, it, notes));
    lighter.back()["admit"] = it.admit ? change_json(*answer.study, *it.admit, notes) : Json(nullptr);
  }
  return lighter;
}

Json neighbour_json(const Study& study, const std::optional<Neighbour>& neighbour, Notes& notes) {
  if (!neighbour) return nullptr;
  Json object = missed_json(study, neighbour->verdict, notes);
  object["all_missed"] = Json::array();
  for (const models::Must must : neighbour->misses) object["all_missed"].push_back(models::row(must).name);
  return object;
}

Json relax_json(const Answer& answer, Notes& notes) {
  Json relax = Json::array();
  for (const Relaxation& it : answer.relax) {
    relax.push_back(change_json(*answer.study, it, notes));
    relax.back()["admits"] = it.admits;
  }
  return relax;
}

Json reached_json(const Answer& answer, Notes& notes) {
  Json reached = Json::array();
  if (!answer.pick) return reached;
  for (const Reached& it : answer.reached)
    reached.push_back(Json{{"limit", it.limit},
                           {"torque", Json{{"value", notes.number(it.torque, "reached." + it.limit,
                                                                  std::isinf(it.torque) ? "no torque reaches it" : "")},
                                           {"unit", unit(Dimension::torque)}}}});
  return reached;
}

Json scatter_json(const Answer& answer) {
  Json scatter = Json::array();
  for (const ScatterUsed& it : answer.scatter)
    scatter.push_back(
        Json{{"name", it.name}, {"shape", it.shape}, {"varies", it.varies}, {"source", it.source}, {"said", it.said}});
  for (const std::string& held : answer.study->held_fixed) {
    const auto same = [&](const ScatterUsed& used) { return used.name == held; };
    if (std::any_of(answer.scatter.begin(), answer.scatter.end(), same)) continue;
    scatter.push_back(Json{{"name", held},
                           {"shape", "fixed"},
                           {"varies", "fixed"},
                           {"source", "held fixed: not stated"},
                           {"said", "held fixed"}});
  }
  return scatter;
}

Json cautions_json(const Answer& answer) {
  Json cautions = Json::array();
  for (const Caution& it : all_cautions(answer))
    cautions.push_back(Json{{"level", name(it.level)}, {"text", it.text}, {"why", it.why}});
  return cautions;
}

Json provenance_json(const Answer& answer) {
  const Study& study = *answer.study;
  return Json{{"study_digest", study.digest},
              {"tables_digest", study.tables_digest},
              {"key", study.passes.key},
              {"plan", name(study.passes.plan)},
              {"passes", answer.passes}};
}

}  // namespace studies::say
