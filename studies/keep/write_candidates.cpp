#include <algorithm>
#include <limits>

#include "studies/ask/aim.hpp"
#include "studies/keep/schema.hpp"
#include "studies/keep/sections.hpp"

namespace studies {
namespace {

using engine::StoreWriter;

constexpr double none = std::numeric_limits<double>::quiet_NaN();

bool same(const CandidateVerdict& a, const CandidateVerdict& b) {
  return a.index == b.index && a.designation == b.designation && a.mass == b.mass &&
         a.design.nut_length == b.design.nut_length;
}

/// All that were tried; the pick comes last where it is not among them (`rate`, or a free size polished afterwards).
std::vector<const CandidateVerdict*> tried(const Answer& answer) {
  std::vector<const CandidateVerdict*> all;
  for (const auto& each : answer.candidates) all.push_back(&each);
  const auto is_pick = [&](const CandidateVerdict* each) { return same(*each, *answer.pick); };
  if (answer.pick && std::none_of(all.begin(), all.end(), is_pick)) all.push_back(&*answer.pick);
  return all;
}

/// Place of the first missed limit among the study's; empty where none is missed.
std::optional<std::size_t> missed(const CandidateVerdict& each, const Study& study) {
  for (std::size_t i = 0; each.misses && i < study.limits.size(); ++i)
    if (study.limits[i].must == *each.misses) return i;
  return std::nullopt;
}

double margin_at(const std::vector<double>& margins, std::size_t i) { return i < margins.size() ? margins[i] : none; }

double missed_margin(const CandidateVerdict& each, const Study& study) {
  if (each.over_cap) return each.needs / each.has;
  const auto at = missed(each, study);
  return at ? margin_at(each.at_odds, *at) : none;
}

double missed_need(const CandidateVerdict& each, const Study& study) {
  if (each.over_cap) return 1;
  const auto at = missed(each, study);
  return at ? study.limits[*at].least_margin() : none;
}

void write_margins(StoreWriter& file, const std::vector<const CandidateVerdict*>& all, const Study& study) {
  if (study.limits.empty()) return;
  std::vector<std::string> names;
  for (const auto& limit : study.limits) names.emplace_back(models::row(limit.must).name);
  file.put(results_row("/candidates/limit"), names);
  std::vector<double> margins, at_odds;
  for (const auto* each : all) {
    for (std::size_t i = 0; i < names.size(); ++i) {
      margins.push_back(margin_at(each->margins, i));
      at_odds.push_back(margin_at(each->at_odds, i));
    }
  }
  file.put(results_row("/candidates/margins"), margins);
  file.put(results_row("/candidates/at_odds"), at_odds);
}

}  // namespace

void write_candidates(StoreWriter& file, const Answer& answer) {
  const auto all = tried(answer);
  if (all.empty()) return;
  const Study& study = *answer.study;
  file.dimension("/candidates", "candidate", all.size());
  const auto column = [&]<class Value>(const char* name, Value, auto of) {
    std::vector<Value> values;
    for (const auto* each : all) values.push_back(static_cast<Value>(of(*each)));
    file.put(results_row(std::string("/candidates/") + name), values);
  };
  using Each = const CandidateVerdict&;
  const std::string text;
  const double number = 0;
  const std::int64_t count = 0;
  const std::uint8_t flag = 0;
  column("designation", text, [](Each each) { return each.designation; });
  column("form", text, [](Each each) { return models::name(each.design.thread.form); });
  column("diameter", number, [](Each each) { return each.design.thread.diameter; });
  column("pitch", number, [](Each each) { return each.design.thread.pitch; });
  column("starts", count, [](Each each) { return each.design.thread.starts; });
  column("pitch_diameter", number, [](Each each) { return each.design.thread.pitch_diameter; });
  column("root_diameter", number, [](Each each) { return each.design.thread.root_diameter; });
  column("nut_length", number, [](Each each) { return each.design.nut_length; });
  column("nut_outside", number, [](Each each) { return each.design.nut_outside; });
  column("lubrication", text, [](Each each) { return each.design.lubrication; });
  column("screw", text, [](Each each) { return each.design.screw.name; });
  column("nut", text, [](Each each) { return each.design.nut.name; });
  column("face", text, [](Each each) { return models::describe(each.design.face); });
  column("mass", number, [](Each each) { return each.mass; });
  column("torque", number, [](Each each) { return each.torque; });
  column("picked", flag, [&](Each each) { return answer.pick && same(each, *answer.pick); });
  column("examined", flag, [](Each each) { return each.examined; });
  column("ruled_out", flag, [](Each each) { return each.ruled_out; });
  column("passes", flag, [](Each each) { return each.passes; });
  column("fresh_failed", flag, [](Each each) { return each.fresh_failed; });
  column("misses", text, [&](Each each) { return missed_name(study, each); });
  column("has", number, [&](Each each) { return missed_margin(each, study); });
  column("needs", number, [&](Each each) { return missed_need(each, study); });
  column("why", text, [](Each each) { return each.why; });
  write_margins(file, all, study);
}

}  // namespace studies
