#include "studies/ask/trial.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/base/error.hpp"
#include "studies/ask/explain.hpp"
#include "studies/ask/nut_length.hpp"
#include "studies/ask/rare.hpp"
#include "studies/ask/verdict.hpp"

namespace studies {
namespace {

/// How much longer than the refined passes want it a free nut is tried on the verdict's, as the search would make it
/// where those fall short.
constexpr double nut_to_spare = 1.005;
/// How much farther than the shared passes tell a change is tried on the verdict's: to the next third figure, then by
/// these shares of itself. The passes differ by less; what needs more is missed by something else.
constexpr std::array<double, 3> farther = {1e-6, 0.01, 0.05};

engine::Plan::Kind verdict_kind(const Study& study) {
  const bool own = !study.passes.settle && study.passes.count <= refined_passes.back();
  return own ? plan_kind(study) : engine::Plan::Kind::sobol;
}

std::uint64_t verdict_count(const Study& study) {
  return study.passes.settle ? refined_passes.back() : std::min(study.passes.count, refined_passes.back());
}

/// Whether `test` holds; what cannot be drawn at all, as a correlation that a changed spread cannot have, does not.
template <class Test>
bool drawable(Test test) {
  try {
    return test();
  } catch (const engine::Refusal&) {
    return false;
  }
}

}  // namespace

TrialPasses::TrialPasses(const SharedPasses& shared_)
    : shared(shared_),
      refined(shared.study(), engine::Plan::Kind::sobol, refined_passes.front(), engine::Stream::refine,
              shared.interrupted()),
      verdict(shared.study(), verdict_kind(shared.study()), verdict_count(shared.study()), engine::Stream::verdict,
              shared.interrupted()) {}

ChangedPasses::ChangedPasses(const TrialPasses& passes, Change change_, double to_)
    : change(change_),
      to(to_),
      study(changed(passes.shared.study(), change, to)),
      shared(study, passes.shared, drawn_alike(passes.shared.study(), change)),
      refined(study, passes.refined, drawn_alike(passes.shared.study(), change)),
      verdict(study, passes.verdict, drawn_alike(passes.shared.study(), change)) {}

Trial::Trial(const TrialPasses& passes, const Candidate& candidate, const CandidateVerdict& verdict, Change change,
             double below)
    : passes_(passes),
      study_(passes.shared.study()),
      candidate_(candidate),
      verdict_(verdict),
      change_(change),
      was_(terms(study_, change).was),
      below_(below) {}

std::optional<double> Trial::end() const {
  if (change_.kind != Change::Kind::limit) return said(farthest(study_, change_));
  const double margin = verdict_.at_odds[change_.limit];
  if (studies::holds(study_, verdict_, change_.limit) || !(margin > 0)) return std::nullopt;
  return said(asked_for(study_, change_.limit, margin));
}

bool Trial::end_is_exact() const {
  if (change_.kind != Change::Kind::limit || is_drive(study_, change_)) return false;
  const WithLength with = with_length(study_, study_.limits[change_.limit]);
  return !candidate_.nut_range || (with != WithLength::never_falls && with != WithLength::mixed);
}

bool Trial::possible(double to) const {
  if (candidate_.band && change_.kind != Change::Kind::limit) return false;
  for (std::size_t k = 0; k < study_.limits.size(); ++k) {
    if (studies::holds(study_, verdict_, k)) continue;
    const models::Limit& limit = study_.limits[k];
    const WithLength with = with_length(study_, limit);
    const bool by_nut = candidate_.nut_range && with != WithLength::independent && with != WithLength::proportional;
    const double gained = verdict_.at_odds[k] * most_gain(study_, change_, to, limit);
    if (!by_nut && !(gained * (1 + 1e-9) >= limit.least_margin())) return false;
  }
  return true;
}

bool Trial::holds_on_shared(const ChangedPasses& changed) const {
  return drawable([&] {
    const Candidate candidate = under(changed);
    const std::optional<models::Design> design = passing(changed.shared, candidate);
    return design && light(changed.shared, candidate, *design);
  });
}

std::optional<double> Trial::least(double far, double beat) const {
  const auto on_shared = [&](double to) { return holds_on_shared({passes_, change_, to}); };
  const auto on_verdict = [&](double to) { return drawable([&] { return confirmed({passes_, change_, to}); }); };
  const double to = end_is_exact() ? far : nearest(was_, far, on_shared);
  if (relative(was_, to) >= beat) return std::nullopt;
  if (on_verdict(to)) return to;
  for (const double share : farther) {
    const double next = said(to > was_ ? to * (1 + share) : to * (1 - share));
    if (relative(was_, next) >= beat) return std::nullopt;
    if (on_verdict(next)) return nearest(to, next, on_verdict);
  }
  return std::nullopt;
}

std::optional<models::Design> Trial::passing(const SharedPasses& set, const Candidate& candidate) const {
  const std::vector<std::optional<double>> odds = asked_odds(set.study());
  if (candidate.band) {
    if (!set.passes_all(candidate, verdict_.design, odds)) return std::nullopt;
    return verdict_.design;
  }
  Hunted own;
  const std::optional<models::Design> design = lightest_design(set, candidate, odds, own);
  return own.passes ? design : std::nullopt;
}

bool Trial::light(const SharedPasses& set, const Candidate& candidate, const models::Design& design) const {
  return aims(set.study(), set.model(candidate, design), set.inputs(candidate).inputs.nominal).mass < below_;
}

bool Trial::confirmed(const ChangedPasses& changed) const {
  const Candidate candidate = under(changed);
  models::Design design = verdict_.design;
  if (candidate.nut_range && !candidate.band) {
    const std::optional<models::Design> refined = passing(changed.refined, candidate);
    if (!refined) return false;
    design = *refined;
    const double longest = nut_bounds(candidate, *candidate.thread).second;
    design.nut_length = std::min(design.nut_length * nut_to_spare, longest);
  } else if (!candidate.band) {
    design = design_of(changed.study, candidate, *candidate.thread, design.nut_length);
  }
  return light(changed.verdict, candidate, design) &&
         judge_confirming(changed.verdict, candidate, design, {1, {}, passes_.shared.interrupted()}).holds;
}

Candidate Trial::under(const ChangedPasses& changed) const {
  Candidate candidate = candidate_;
  candidate.surface = studies::changed(candidate.surface, change_, changed.to);
  return candidate;
}

double Trial::said(double to) const { return as_said(study_, change_, to); }

/// Halves the way between a value that misses and one that holds, over the values that can be said.
template <class Holds>
double Trial::nearest(double misses, double holds, Holds test) const {
  for (;;) {
    const double middle = said(misses + (holds - misses) / 2);
    const bool between = holds > misses ? misses < middle && middle < holds : holds < middle && middle < misses;
    if (!between) return holds;
    (test(middle) ? holds : misses) = middle;
  }
}

}  // namespace studies
