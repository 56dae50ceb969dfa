#include "studies/ask/rare.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/base/error.hpp"
#include "engine/base/format.hpp"
#include "engine/pass/survey.hpp"
#include "engine/summary/interval.hpp"
#include "studies/ask/friction_shape.hpp"
#include "studies/ask/rare_odds.hpp"

namespace studies {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();
/// A share of the margin: what a margin that only just misses lacks where the search for it cannot tell.
constexpr double hair = 1e-12;

/// Confidence of a count from which on it contradicts: one study in some thousands would cry wolf.
constexpr double surely_apart = 0.9999;

bool holds_at(double shortfall, double asked) { return 1 - shortfall >= asked; }

/// What a margin can be at most or least, having been judged.
double on_its_side(double margin, double least, bool holds) {
  return holds ? std::max(margin, least) : std::min(margin, least - hair * std::abs(least));
}

/// What one limit is asked of a screw whose rare odds are sought.
struct Asked {
  const Study& study;
  const Surface& surface;
  const InputLaw& inputs;
  const Margin margin;
  double odds;
  double middle;  ///< median or nominal margin
  const engine::Running& running;
};

std::vector<FailurePoint> points_of(const engine::rare::FirstOrder& first_order, const engine::Law& law) {
  std::vector<FailurePoint> points;
  engine::Block z(law.dimensions()), x(law.inputs());
  std::vector<std::uint64_t> clipped(law.inputs());
  for (const engine::rare::DesignPoint& it : first_order.points) {
    for (std::size_t d = 0; d < law.dimensions(); ++d) z.row(d)[0] = it.u[d];
    law.transform_normals(z, x, 1, clipped);
    points.push_back({it.beta, {}});
    for (std::size_t k = 0; k < law.inputs(); ++k) points.back().inputs.push_back(x.row(k)[0]);
  }
  return points;
}

Bounded or_none(double p, const engine::Interval& bounds) {
  return p > 0 ? Bounded{bounds.low, p, bounds.high} : Bounded{none, none, none};
}

OtherShape under_other_shape(const Asked& asked, std::uint64_t& calls) {
  const FrictionShape shape = other_friction_shape(asked.inputs);
  OtherShape other;
  other.shortfall = {none, none, none};
  other.reason = shape.reason;
  if (!shape.to) return other;
  try {
    const InputLaw law = input_law(asked.study, asked.surface, shape.to);
    const RareMargin rare(law.law, asked.margin, asked.study.passes.key, asked.running);
    const FoundOdds found = rare.below(asked.margin.least(), asked.odds);
    calls += rare.calls();
    return {name(*shape.to), name(*shape.from), found.reason, found.shortfall, found.trusted};
  } catch (const engine::Refusal&) {
    other.reason = "the correlations stated cannot be had with " + name(*shape.to) + " friction";
  }
  return other;
}

RareVerdict verdict_of(const Asked& asked, const LimitVerdict& limit, const FoundOdds& found) {
  RareVerdict it;
  it.must = limit.limit.must;
  it.name = limit.name;
  it.trusted = found.trusted;
  it.reason = found.reason;
  it.shortfall = found.shortfall;
  it.beta = found.odds.first_order.points.empty() ? none : found.odds.first_order.beta;
  it.first_order = found.odds.first_order.points.empty() ? none : found.odds.first_order.p;
  it.points = points_of(found.odds.first_order, asked.inputs.law);
  it.importance = or_none(found.odds.importance.p, found.odds.importance.interval);
  it.subset = or_none(found.odds.subset.p, found.odds.subset.interval);
  return it;
}

double reached(const Asked& asked, const RareMargin& rare, const FoundOdds& found) {
  const double least = asked.margin.least();
  const double margin = rare.reached(asked.odds, least, found, asked.middle);
  return on_its_side(margin, least, holds_at(found.shortfall.estimate, asked.odds));
}

void judge_by(const Bounded& shortfall, double margin, LimitVerdict& limit) {
  const double asked = *limit.limit.odds;
  limit.by_rare = true;
  const double next_to_one = std::nextafter(1.0, 0.0);  // bounds of what is not exact have a width
  limit.odds = {std::min(1 - shortfall.high, next_to_one), 1 - shortfall.estimate, 1 - shortfall.low};
  limit.holds = holds_at(shortfall.estimate, asked);
  limit.bounds_straddle = limit.odds.low < asked && asked < limit.odds.high;
  limit.has = limit.limit.value(margin);
  limit.spare = limit.limit.spare(limit.has);
}

/// Odds that allow as many misses as these rare odds can bear.
double bearable(const Bounded& shortfall, std::uint64_t passes) {
  std::uint64_t most = 0;
  while (most + 1 < few_misses && !contradicts(most + 1, passes, shortfall)) ++most;
  return 1 - (static_cast<double>(most) + 0.5) / static_cast<double>(passes);
}

RareVerdict judged(const Asked& asked, std::uint64_t passes, LimitVerdict& limit) {
  const RareMargin rare(asked.inputs.law, asked.margin, asked.study.passes.key, asked.running);
  FoundOdds found = rare.below(asked.margin.least(), asked.odds);
  if (found.trusted && contradicts(limit.misses, passes, found.shortfall)) {
    found.trusted = false;
    found.reason = fmt::format("{} of {} passes miss it, which contradicts {}", engine::count_in_full(limit.misses),
                               engine::count_in_full(passes), found.reason);
  }
  RareVerdict it = verdict_of(asked, limit, found);
  it.judges = found.trusted && beyond_passes(asked.odds, passes);
  if (it.judges) judge_by(found.shortfall, reached(asked, rare, found), limit);
  it.calls = rare.calls();
  if (found.shortfall.estimate > 0 || it.judges) it.other = under_other_shape(asked, it.calls);
  return it;
}

}  // namespace

bool contradicts(std::uint64_t misses, std::uint64_t passes, const Bounded& shortfall) {
  const engine::Interval counted =
      engine::clopper_pearson(static_cast<double>(misses), static_cast<double>(passes), surely_apart);
  return counted.low > shortfall.high || counted.high < shortfall.low;
}

bool beyond_passes(double odds, std::uint64_t passes) { return engine::misses_allowed(odds, passes) < few_misses; }

void judge_rare(const Study& study, const Surface& surface, const InputLaw& inputs, const models::ScrewModel& screw,
                const engine::Running& running, Answer& answer) {
  if (inputs.law.dimensions() == 0) return;
  for (std::size_t k = 0; k < answer.limits.size(); ++k) {
    LimitVerdict& limit = answer.limits[k];
    const OutputSummary& margin = answer.outputs[models::output_count + k];
    if (!limit.limit.odds || limit.misses >= few_misses || !(margin.least < margin.most)) continue;
    const double middle = margin.quantiles[quantile_points.size() / 2].estimate;
    const Asked asked{study, surface, inputs, Margin(screw, k), *limit.limit.odds, middle, running};
    answer.rare.push_back(judged(asked, answer.passes, limit));
  }
}

FreshJudgement judge_confirming(const SharedPasses& fresh, const Candidate& candidate, const models::Design& design,
                                const engine::Running& running) {
  const Study& study = fresh.study();
  const InputLaw& inputs = fresh.inputs(candidate).inputs;
  const std::vector<std::optional<double>> asked = asked_odds(study);
  std::vector<std::optional<double>> counted = asked, ruled = asked;  // what a count can say no to; all it has to rule
  const double few = 1 - (static_cast<double>(few_misses) - 0.5) / static_cast<double>(fresh.passes());
  for (std::optional<double>& odds : counted)
    if (odds && beyond_passes(*odds, fresh.passes())) odds = few;
  if (inputs.law.dimensions() == 0 || counted == asked) return {fresh.passes_all(candidate, design, asked), {}, 0};
  FreshJudgement says;
  if (!fresh.passes_all(candidate, design, counted)) return says;
  const models::ScrewModel screw = fresh.model(candidate, design);
  const std::vector<double> nominal = screw.evaluate_one(inputs.nominal);
  for (std::size_t k = 0; k < asked.size(); ++k) {
    if (counted[k] == asked[k]) continue;
    const Asked it{study,  candidate.surface, inputs, Margin(screw, k), *asked[k], nominal[models::output_count + k],
                   running};
    const RareMargin rare(inputs.law, it.margin, study.passes.key, running);
    const FoundOdds found = rare.below(it.margin.least(), it.odds);
    if (found.trusted && holds_at(found.shortfall.estimate, it.odds))
      ruled[k] = bearable(found.shortfall, fresh.passes());
    if (found.trusted && !holds_at(found.shortfall.estimate, it.odds))
      says.rare = RareMiss{k, reached(it, rare, found)};
    says.calls += rare.calls();
    if (says.rare) return says;
  }
  says.holds = fresh.passes_all(candidate, design, ruled);
  return says;
}

}  // namespace studies
