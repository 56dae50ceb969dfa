#include "studies/ask/verdict.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/pass/survey.hpp"
#include "studies/ask/caution.hpp"
#include "studies/ask/fresh.hpp"
#include "studies/ask/judge.hpp"
#include "studies/ask/matter.hpp"
#include "studies/ask/rare.hpp"
#include "studies/ask/worth.hpp"

namespace studies {
namespace {

using engine::Ask;
using models::Limit;

constexpr std::size_t at(models::Output output) { return static_cast<std::size_t>(output); }

Ask questions(const Study& study) {
  Ask ask;
  ask.quantiles.assign(quantile_points.begin(), quantile_points.end());
  ask.keep = study.passes.keep;
  ask.coverage = coverage_share;
  ask.tolerance = {tolerance_content, tolerance_confidence};
  for (std::size_t k = 0; k < study.limits.size(); ++k) {
    ask.thresholds.push_back({models::output_count + k, study.limits[k].least_margin()});
    ask.reaches.push_back({models::output_count + k, study.limits[k].odds.value_or(0.5)});
  }
  ask.thresholds.push_back({at(models::Output::force), std::numeric_limits<double>::min()});  // last: some force at all
  return ask;
}

OutputSummary summary_of(const engine::Survey& survey, std::size_t k, const std::vector<double>& nominal) {
  OutputSummary s;
  const engine::Moments& m = survey.moments[k];
  const bool finite = m.unbounded == 0 && m.n > 0;
  constexpr double none = std::numeric_limits<double>::quiet_NaN();
  s.nominal = nominal[k];
  s.mean = finite ? m.mean : none;
  s.spread = finite ? m.spread() : none;
  s.least = m.n > 0 ? m.least : none;
  s.most = m.n > 0 ? m.most : none;
  s.missing = m.missing;
  for (std::size_t q = 0; q < quantile_points.size(); ++q) {
    const engine::Ranked& ranked = survey.quantiles[k][q];
    s.quantiles[q] = {ranked.low, ranked.estimate, ranked.high};
  }
  const engine::Covering& covering = survey.coverage[k];
  s.symmetric = {covering.symmetric.low, covering.symmetric.high};
  s.shortest = {covering.shortest.low, covering.shortest.high};
  s.tolerance = {survey.tolerance[k].low, survey.tolerance[k].high};
  const engine::Histogram& histogram = survey.histograms[k];
  if (m.least < m.most) {
    constexpr std::size_t merged = 16;  // 256 bins are enough to draw from
    for (std::size_t b = 1; b <= engine::Histogram::bins; b += merged) {
      std::uint64_t count = 0;
      for (std::size_t i = 0; i < merged; ++i) count += histogram.count(b + i);
      s.histogram.push_back(count);
    }
    s.histogram_low = histogram.low();
    s.histogram_high = histogram.high();
  }
  if (m.unbounded > 0) s.reason = "unbounded on some passes";
  return s;
}

LimitVerdict judge(const Limit& limit, const engine::Survey& survey, std::size_t k, double nominal_margin) {
  LimitVerdict v;
  v.limit = limit;
  v.name = std::string(row(limit.must).name);
  v.dimension = limit.kind == Limit::Kind::margin ? engine::Dimension::none : row(limit.must).dimension;
  v.asked_value = limit.asked;
  v.nominal_margin = nominal_margin;
  const double margin = limit.odds ? survey.reaches[k].estimate : nominal_margin;
  v.has = limit.value(margin);
  v.spare = limit.spare(v.has);
  const auto n = static_cast<double>(survey.passes);
  v.misses = survey.passes - survey.hits[k];
  v.odds = {survey.odds[k].low, static_cast<double>(survey.hits[k]) / n, survey.odds[k].high};
  v.holds = limit.odds ? v.misses <= engine::misses_allowed(*limit.odds, survey.passes)
                       : nominal_margin >= limit.least_margin();
  v.bounds_straddle = limit.odds && v.odds.low < *limit.odds && *limit.odds < v.odds.high;
  return v;
}

/// Torque at which a part's margin comes down to 1, everything at nominal.
double reached_at(const models::ScrewModel& model, const models::Inputs& nominal, double models::Parts::*part) {
  double low = 1e-6, high = 1e9;
  if (!(model.parts_at(high, nominal).*part <= 1)) return std::numeric_limits<double>::infinity();
  for (int i = 0; i < 200 && high > low * (1 + 1e-12); ++i) {
    const double middle = std::sqrt(low * high);
    (model.parts_at(middle, nominal).*part <= 1 ? high : low) = middle;
  }
  return high;
}

std::vector<Reached> reached(const models::ScrewModel& model, const models::Inputs& nominal) {
  std::vector<Reached> all;
  const std::pair<const char*, double models::Parts::*> parts[] = {{"yield", &models::Parts::yield},
                                                                   {"thread_root", &models::Parts::thread_root},
                                                                   {"nut_body", &models::Parts::nut_body},
                                                                   {"buckling", &models::Parts::buckling},
                                                                   {"stripping", &models::Parts::stripping}};
  for (const auto& [name, part] : parts) {
    const double torque = reached_at(model, nominal, part);
    const bool root = part == &models::Parts::thread_root;
    all.push_back({name, torque, root ? reached_at(model, nominal, &models::Parts::screw_root) : torque});
  }
  std::stable_sort(all.begin(), all.end(), [](const Reached& a, const Reached& b) { return a.torque < b.torque; });
  return all;
}

/// What the hundred of the odds are: screws built where anything that moves the force differs from screw to screw.
std::string hundred(const InputLaw& inputs) {
  using models::Input;
  for (const Input input : {Input::drive, Input::load, Input::thread_friction, Input::face_friction, Input::drag,
                            Input::model_error, Input::diameters})
    if (inputs.by_screw[static_cast<std::size_t>(input)]) return "screws built";
  return "pulls";
}

/// Nominal raising torque [N·m] if the ring of the face is taken to carry uniform pressure instead of wearing evenly.
double torque_by_pressure(const models::Face& face, const std::vector<double>& nominal) {
  if (face.mean_radius || !face.outer || face.law != models::Face::Law::wear)
    return std::numeric_limits<double>::quiet_NaN();
  const double ratio = face.friction_radius(models::Face::Law::pressure) / face.friction_radius();
  return nominal[at(models::Output::torque)] + nominal[at(models::Output::face_torque)] * (ratio - 1);
}

/// Passes on which the screw jams: no force comes of the torque, or no torque moves the load.
std::uint64_t jammed(const Study& study, const engine::Survey& survey) {
  if (study.duty.action == models::Action::lift) return survey.moments[at(models::Output::torque)].unbounded;
  return survey.passes - survey.hits.back();
}

}  // namespace

void judge_fresh(const Study& study, const Candidate& candidate, const models::Design& design,
                 const engine::Running& running, Answer& answer) {
  const InputLaw inputs = input_law(study, candidate.surface);
  const models::ScrewModel model(
      study.duty, design, models::allowances(study.tables, study.duty, design, inputs.face_from_table), study.limits);
  auto [survey, settling] = fresh_survey(study, inputs, model, questions(study), running);
  const std::vector<double> nominal = model.evaluate_one(inputs.nominal);

  for (std::size_t k = 0; k < model.outputs(); ++k) {
    OutputSummary summary = summary_of(survey, k, nominal);
    if (k < models::output_count) {
      const models::NameRow& named = row(static_cast<models::Output>(k));
      summary.name = named.name;
      summary.dimension = named.dimension;
      summary.meaning = named.meaning;
      if (const std::string why = model.missing(static_cast<models::Output>(k)); !why.empty()) summary.reason = why;
    } else {
      const models::NameRow& named = row(study.limits[k - models::output_count].must);
      summary.name = "margin." + std::string(named.name);
      summary.meaning = named.meaning;
    }
    answer.outputs.push_back(std::move(summary));
  }
  for (std::size_t k = 0; k < study.limits.size(); ++k)
    answer.limits.push_back(judge(study.limits[k], survey, k, nominal[models::output_count + k]));
  answer.passes = survey.passes;
  judge_rare(study, candidate.surface, inputs, model, running, answer);
  const auto least = std::min_element(answer.limits.begin(), answer.limits.end(),
                                      [](const LimitVerdict& a, const LimitVerdict& b) { return a.spare < b.spare; });
  if (least != answer.limits.end()) answer.tightest = least->limit.must;

  answer.scatter = inputs.used;
  answer.settling = std::move(settling);
  answer.hundred = hundred(inputs);
  answer.jammed = jammed(study, survey);
  answer.reached = reached(model, inputs.nominal);
  for (std::size_t k = 0; k < models::input_count; ++k)
    if (survey.clipped[k] > 0) answer.clipped.emplace_back(row(static_cast<models::Input>(k)).name, survey.clipped[k]);
  answer.kept_inputs = std::move(survey.kept_inputs);
  answer.kept_outputs = std::move(survey.kept_outputs);

  answer.face_torque_by_pressure = torque_by_pressure(design.face, nominal);
  answer.matter = what_matters(study, inputs, model, answer, running);
  answer.worth = worth_of_choices(study, design, answer.limits, running);
  add_cautions(study, model, inputs, answer);
}

}  // namespace studies
