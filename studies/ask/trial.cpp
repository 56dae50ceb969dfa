#include "studies/ask/trial.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/base/error.hpp"
#include "studies/ask/aim.hpp"
#include "studies/ask/explain.hpp"
#include "studies/ask/rare.hpp"

namespace studies {
namespace {

/// How much longer than the shared or the refined passes want it a free nut is tried on more, as the search would make
/// it where those fall short.
constexpr double shared_to_spare = 1.02, refined_to_spare = 1.005;
/// What is left of a margin with the nut that a limit wants at worst where the verdict's nut is a little shorter.
constexpr double other_nut = 0.99;
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

TrialPasses::TrialPasses(const SharedPasses& shared_, bool hold)
    : shared(shared_),
      refined(shared.study(), engine::Plan::Kind::sobol, refined_passes.front(), engine::Stream::refine,
              shared.interrupted()),
      verdict(shared.study(), verdict_kind(shared.study()), verdict_count(shared.study()), engine::Stream::verdict,
              shared.interrupted(), {}, hold ? refined_passes.back() : refined_passes.front()) {}

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
  return said(asked_for(study_, change_.limit, end_is_exact() ? margin : margin * other_nut));
}

bool Trial::end_is_exact() const {
  if (change_.kind != Change::Kind::limit || is_drive(study_, change_)) return false;
  return most_by_nut(study_.limits[change_.limit]) == 1;
}

bool Trial::possible(double to) const {
  if (candidate_.band && change_.kind != Change::Kind::limit) return false;
  for (std::size_t k = 0; k < study_.limits.size(); ++k) {
    if (studies::holds(study_, verdict_, k)) continue;
    const models::Limit& limit = study_.limits[k];
    const double most = most_gain(study_, change_, to, limit) * most_by_nut(limit);
    if (!(verdict_.at_odds[k] * most * (1 + 1e-9) >= limit.least_margin())) return false;
  }
  return true;
}

/// By what factor another nut than the verdict's can raise the margin of a limit at most; infinite where nothing is
/// known.
double Trial::most_by_nut(const models::Limit& limit) const {
  if (!candidate_.nut_range || candidate_.band) return 1;
  switch (with_length(study_, limit)) {
    case WithLength::independent:
      return 1;
    case WithLength::proportional:
      return nut_bounds(candidate_, *candidate_.thread).second / verdict_.design.nut_length;
    default:
      return std::numeric_limits<double>::infinity();
  }
}

std::optional<double> Trial::nut_on_shared(const ChangedPasses& changed) const {
  std::optional<double> nut;
  drawable([&] {
    const Candidate candidate = under(changed);
    const std::optional<models::Design> design = passing(changed.shared, candidate);
    if (design && better(changed.shared, candidate, *design)) nut = design->nut_length;
    return nut.has_value();
  });
  return nut;
}

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

/// From a value that the shared passes tell to the least that the test bears.
template <class Holds>
std::optional<double> Trial::nearest_from(double to, double beat, Holds test) const {
  if (test(to)) return to;
  for (const double share : farther) {
    const double next = said(to > was_ ? to * (1 + share) : to * (1 - share));
    if (relative(was_, next) >= beat) return std::nullopt;
    if (test(next)) return nearest(to, next, test);
  }
  return std::nullopt;
}

std::optional<double> Trial::least(double far, double nut, double beat) const {
  const bool stands = nut_stands(far);
  const auto on_shared = [&](double to) {
    const ChangedPasses changed(passes_, change_, to);
    return stands ? drawable([&] { return holds_with(changed, nut); }) : nut_on_shared(changed).has_value();
  };
  const double to = end_is_exact() ? far : nearest(was_, far, on_shared);
  if (relative(was_, to) >= beat) return std::nullopt;
  const std::optional<double> known = stands ? std::optional<double>(nut) : std::nullopt;
  for (const Nut how : {Nut::spared, Nut::refined}) {
    const auto on_verdict = [&](double it) {
      return drawable([&] { return confirmed({passes_, change_, it}, how, known); });
    };
    if (const std::optional<double> found = nearest_from(to, beat, on_verdict)) return found;
    if (!candidate_.nut_range || candidate_.band) break;
  }
  return std::nullopt;
}

/// Whether the lightest nut is the same at any change up to this: nothing moves that a nut answers.
bool Trial::nut_stands(double far) const {
  if (!candidate_.nut_range || candidate_.band) return true;
  return std::all_of(study_.limits.begin(), study_.limits.end(), [&](const models::Limit& limit) {
    const WithLength with = with_length(study_, limit);
    return with == WithLength::independent || with == WithLength::never_rises ||
           most_gain(study_, change_, far, limit) == 1;
  });
}

bool Trial::holds_with(const ChangedPasses& changed, double nut) const {
  const Candidate candidate = under(changed);
  const models::Design it = design(changed, candidate, nut);
  return better(changed.shared, candidate, it) && changed.shared.passes_all(candidate, it, asked_odds(changed.study));
}

std::optional<models::Design> Trial::passing(const SharedPasses& set, const Candidate& candidate) const {
  const std::vector<std::optional<double>> odds = asked_odds(set.study());
  if (candidate.band) {
    if (!set.passes_all(candidate, verdict_.design, odds)) return std::nullopt;
    return verdict_.design;
  }
  Hunted own;
  const std::optional<models::Design> design = best_design(set, candidate, odds, own);
  return own.passes ? design : std::nullopt;
}

bool Trial::better(const SharedPasses& set, const Candidate& candidate, const models::Design& design) const {
  return aimed(set, candidate, design, set.study().aims.front()) < below_;
}

bool Trial::confirmed(const ChangedPasses& changed, Nut how, std::optional<double> nut) const {
  const Candidate candidate = under(changed);
  if (!candidate.nut_range || candidate.band) return confirmed(changed, candidate, verdict_.design.nut_length);
  const double longest = nut_room(changed.shared, candidate, *candidate.thread).second;
  if (how == Nut::spared) {
    if (!nut) nut = nut_on_shared(changed);
    if (!nut) return false;
    const double spared = std::min(*nut * shared_to_spare, longest);
    return changed.refined.passes_all(candidate, design(changed, candidate, spared), asked_odds(changed.study)) &&
           confirmed(changed, candidate, spared);
  }
  const std::optional<models::Design> refined = passing(changed.refined, candidate);
  return refined && confirmed(changed, candidate, std::min(refined->nut_length * refined_to_spare, longest));
}

bool Trial::confirmed(const ChangedPasses& changed, const Candidate& candidate, double nut) const {
  const models::Design it = design(changed, candidate, nut);
  return better(changed.verdict, candidate, it) &&
         judge_confirming(changed.verdict, candidate, it, {1, {}, passes_.shared.interrupted()}).holds;
}

models::Design Trial::design(const ChangedPasses& changed, const Candidate& candidate, double nut) const {
  return candidate.band ? verdict_.design : design_of(changed.study, candidate, *candidate.thread, nut);
}

Candidate Trial::under(const ChangedPasses& changed) const {
  Candidate candidate = candidate_;
  candidate.surface = studies::changed(candidate.surface, change_, changed.to);
  return candidate;
}

double Trial::said(double to) const { return as_said(study_, change_, to); }

}  // namespace studies
