#include "studies/say/compare_words.hpp"
#include "studies/say/json_value.hpp"
#include "studies/say/words.hpp"

namespace studies {
namespace {

using namespace say;

Json result_json(const Answer& answer, const std::string& path) {
  return Json{{"file", path},
              {"study", answer.study->path},
              {"title", answer.study->title},
              {"designation", answer.pick->designation},
              {"holds", answer.holds()},
              {"key", answer.study->passes.key},
              {"passes", answer.passes}};
}

Json value_json(const TypedValue& it, const HisUnits& his, Notes& notes, const std::string& name) {
  const std::string unit = it.words == "diameters" ? "d" : engine::si_unit(it.dimension);
  return Json{{"words", value_words(it, his)},
              {"value", it.si ? notes.number(*it.si, name) : Json(nullptr)},
              {"unit", it.si && !unit.empty() ? Json(unit) : Json(nullptr)}};
}

/// @param change  its place in `attribution[].by`, null where it moves nothing
Json difference_json(const Difference& it, const Json& change, const HisUnits& his, Notes& notes) {
  return Json{{"key", it.key},
              {"name", it.name},
              {"from", value_json(it.from, his, notes, it.key)},
              {"to", value_json(it.to, his, notes, it.key)},
              {"change", change}};
}

Json changes_json(const Compared& it, Notes& notes) {
  const HisUnits his(*it.a.study);
  Json all = Json::array();
  for (std::size_t i = 0; i < it.comparison.alterations.size(); ++i)
    for (const Difference& d : it.comparison.alterations[i].differences)
      all.push_back(difference_json(d, i, his, notes));
  for (const Difference& d : it.comparison.besides) all.push_back(difference_json(d, nullptr, his, notes));
  return all;
}

Json output_json(const OutputSummary& it, Notes& notes) {
  return Json{{"nominal", notes.number(it.nominal, it.name, it.reason)},
              {"mean", notes.number(it.mean, it.name, it.reason)},
              {"spread", notes.number(it.spread, it.name, it.reason)},
              {"low", notes.number(it.quantiles[2].estimate, it.name, it.reason)},
              {"high", notes.number(it.quantiles[6].estimate, it.name, it.reason)}};
}

Json outputs_json(const Compared& it, Notes& notes) {
  Json all = Json::object();
  for (const OutputSummary& from : it.a.outputs)
    for (const OutputSummary& to : it.b.outputs)
      if (from.name == to.name)
        all[from.name] = Json{{"unit", unit(from.dimension)},
                              {"a", output_json(from, notes)},
                              {"b", output_json(to, notes)},
                              {"change", notes.number(to.nominal - from.nominal, from.name, from.reason)}};
  return all;
}

const LimitVerdict* limit_of(const Answer& answer, models::Must must) {
  for (const LimitVerdict& it : answer.limits)
    if (it.limit.must == must) return &it;
  return nullptr;
}

/// Null where the limit is not asked.
Json limit_json(const LimitVerdict* it, Notes& notes) {
  if (!it) return nullptr;
  return Json{{"asked", Json{{"value", notes.number(it->asked_value, it->name)},
                             {"odds", it->limit.odds ? Json(*it->limit.odds) : Json(nullptr)}}},
              {"has", notes.number(it->has, it->name)},
              {"nominal_margin", notes.number(it->nominal_margin, it->name)},
              {"odds", bounded(notes, it->odds, it->name)},
              {"holds", it->holds}};
}

Json limits_json(const Compared& it, Notes& notes) {
  Json all = Json::array();
  for (std::size_t m = 0; m < models::must_count; ++m) {
    const auto must = static_cast<models::Must>(m);
    const LimitVerdict *a = limit_of(it.a, must), *b = limit_of(it.b, must);
    if (a || b)
      all.push_back(Json{{"name", models::row(must).name}, {"a", limit_json(a, notes)}, {"b", limit_json(b, notes)}});
  }
  return all;
}

Json moved_json(const Moved& it, Notes& notes) {
  const std::string name = it.of.name();
  Json by = Json::array();
  for (const double share : it.by) by.push_back(notes.number(share, name));
  return Json{{"of", name},
              {"unit", it.of.kind == Measure::Kind::shortfall ? Json("of 100") : unit(it.of.dimension())},
              {"a", notes.number(it.from, name)},
              {"b", notes.number(it.to, name)},
              {"change", bounded(notes, it.change, name)},
              {"told", it.told()},
              {"by", std::move(by)}};
}

}  // namespace

std::string compare_json(const Compared& it) {
  Notes notes;
  Json object{{"program", "screwtiny"}, {"version", SCREWTINY_VERSION}};
  object["a"] = result_json(it.a, it.a_path);
  object["b"] = result_json(it.b, it.b_path);
  object["sentence"] = compare_sentence(it);
  object["changes"] = changes_json(it, notes);
  object["outputs"] = outputs_json(it, notes);
  object["limits"] = limits_json(it, notes);
  object["attribution"] = Json::array();
  for (const Moved& moved : it.comparison.moved) object["attribution"].push_back(moved_json(moved, notes));
  object["common"] = Json{{"passes", it.comparison.passes},
                          {"screws", it.comparison.mixtures},
                          {"orders", it.comparison.every_order ? "all" : "forwards and backwards"}};
  object["notes"] = notes.list();
  return one_line(object);
}

}  // namespace studies
