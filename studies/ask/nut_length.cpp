#include "studies/ask/nut_length.hpp"

#include <algorithm>
#include <cmath>

#include "engine/search/nlopt_once.hpp"
#include "studies/ask/aim.hpp"

namespace studies {
namespace {

using models::Must;

/// Lengths are told apart down to this share of themselves.
constexpr double close_enough = 1e-6;

/// One thread's nut being sought.
struct Sought {
  const SharedPasses& shared;
  const Candidate& candidate;
  const models::Thread& thread;
  const std::vector<std::optional<double>>& odds;

  models::Design design(double length) const { return design_of(shared.study(), candidate, thread, length); }
  bool holds(double length) const { return shared.passes_all(candidate, design(length), odds); }
};

/// The least length that the proportional limits want: L0 · asked/margin(L0), judged at nominal or at the odds.
double wanted_by_proportional(const Sought& sought, const Judgement& at, double length) {
  const Study& study = sought.shared.study();
  double wanted = 0;
  for (std::size_t k = 0; k < study.limits.size(); ++k)
    if (with_length(study, study.limits[k]) == WithLength::proportional)
      wanted = std::max(wanted, length * study.limits[k].least_margin() / at.judged[k]);
  return wanted * (1 + 1e-12);  // so that rounding does not undo it
}

/// Whether the limits that a longer nut helps, or leaves alone, hold.
bool helped_hold(const Study& study, const Judgement& at) {
  for (std::size_t k = 0; k < study.limits.size(); ++k)
    if (helped(with_length(study, study.limits[k])) && !at.holds[k]) return false;
  return true;
}

bool any_mixed(const Study& study) {
  return std::any_of(study.limits.begin(), study.limits.end(),
                     [&](const models::Limit& limit) { return with_length(study, limit) == WithLength::mixed; });
}

/// Whether no length does better by any limit than the longest nut on the column of a shorter one.
bool best_when_longest(const Study& study) {
  return std::none_of(study.limits.begin(), study.limits.end(), [](const models::Limit& limit) {
    return limit.must == Must::mass || (limit.must == Must::goes_first && limit.part != Must::yield);
  });
}

/// The judgement of a shorter nut from that of the longest; none where some limit goes with the length otherwise than
/// in proportion.
std::optional<Judgement> scaled(const Study& study, Judgement longest, double share) {
  for (std::size_t k = 0; k < study.limits.size(); ++k) {
    const WithLength with = with_length(study, study.limits[k]);
    if (with == WithLength::independent) continue;
    if (with != WithLength::proportional) return std::nullopt;
    longest.nominal[k] *= share;
    longest.judged[k] *= share;
    longest.holds[k] = longest.judged[k] >= study.limits[k].least_margin();
  }
  return longest;
}

/// Least length with the helped limits holding, between one where they do not and one where they do.
double bisect(const Sought& sought, double fails, double holds) {
  while (holds - fails > close_enough * holds) {
    const double middle = (fails + holds) / 2;
    const Judgement at = sought.shared.judge(sought.candidate, sought.design(middle), sought.odds);
    (helped_hold(sought.shared.study(), at) ? holds : fails) = middle;
  }
  return holds;
}

/// The longest nut at which all holds, the least at which it does being known.
NutLength longest_nut(const Sought& sought, const NutLength& least, double to) {
  if (!least.passes || sought.holds(to)) return {least.passes ? to : least.length, least.passes, least.certain, {}};
  double holds = least.length, fails = to;
  while (fails - holds > close_enough * holds) {
    const double middle = (fails + holds) / 2;
    (sought.holds(middle) ? holds : fails) = middle;
  }
  return {holds, true, true, std::nullopt};
}

/// Of a share of passes that a long nut brings to its best: the least nut that keeps it there.
NutLength no_longer_than_needed(const Sought& sought, const NutLength& least, const NutLength& longest,
                                std::size_t limit) {
  const double one_pass = 1.0 / static_cast<double>(sought.shared.passes());
  const double share = sought.shared.shares(sought.candidate, sought.design(longest.length))[limit];
  std::vector<std::optional<double>> odds = sought.odds;
  odds[limit] = std::clamp(share, one_pass / 2, 1 - one_pass / 2);
  const NutLength enough = least_nut(sought.shared, sought.candidate, sought.thread, odds);
  if (!enough.passes) return longest;
  return {std::clamp(enough.length, least.length, longest.length), true, longest.certain, std::nullopt};
}

/// The best of evenly spaced lengths: where an aim, or limits, both win and lose by length.
NutLength best_of_several(const Sought& sought, NutLength least, double from, double to) {
  constexpr int steps = 32;
  NutLength best{least.length, false, false, std::nullopt};
  double best_value = 0;
  for (int i = -1; i <= steps; ++i) {
    const double length = i < 0 ? least.length : from + (to - from) * i / steps;
    if (i < 0 ? !least.passes : !sought.holds(length)) continue;
    const double value =
        aimed(sought.shared, sought.candidate, sought.design(length), deciding_aim(sought.shared.study()));
    if (!best.passes || value < best_value) best = {length, true, false, std::nullopt}, best_value = value;
  }
  return best;
}

/// A mixed limit both wins and loses by length: least length subject to every limit's judged margin.
NutLength search(const Sought& sought, double from, double to) {
  const Study& study = sought.shared.study();
  engine::BoxProblem problem;
  problem.lower = {0};
  problem.upper = {1};
  problem.constraints = study.limits.size();
  problem.evaluate = [&](const std::vector<double>& x) {
    const Judgement at = sought.shared.judge(sought.candidate, sought.design(from + (to - from) * x[0]), sought.odds);
    engine::BoxProblem::Value value{x[0], {}};
    for (std::size_t k = 0; k < study.limits.size(); ++k)
      value.constraints.push_back(1 - at.judged[k] / study.limits[k].least_margin());
    return value;
  };
  NutLength best{from, false, false, std::nullopt};
  for (const double start : {0.0, 0.25, 0.5, 0.75, 1.0}) {
    engine::BoxOptions options;
    options.evaluations = 40;
    const engine::BoxMinimum found = engine::minimise(problem, {start}, options);
    const double length = from + (to - from) * found.x[0];
    if (found.violation <= 0 && (!best.passes || length < best.length))
      best = {length, sought.holds(length), true, std::nullopt};
  }
  return best;
}

}  // namespace

bool column_grows(const models::Duty& duty) { return duty.screw_in_compression && !duty.free_length && duty.travel; }

namespace {

/// Whether the part is the first to break, when the nut is made longer.
WithLength first_with_length(Must part, bool grows) {
  if (part == Must::stripping) return WithLength::never_rises;
  if (part == Must::buckling) return WithLength::never_falls;
  return part == Must::yield && !grows ? WithLength::never_falls : WithLength::mixed;
}

}  // namespace

WithLength with_length(const Study& study, const models::Limit& limit) {
  const bool grows = column_grows(study.duty);
  switch (limit.must) {
    case Must::bearing:
    case Must::stripping:
      return WithLength::proportional;
    case Must::force:
    case Must::torque:
    case Must::hand_force:
    case Must::self_locking:
    case Must::yield:
    case Must::face_bearing:
      return WithLength::independent;
    case Must::buckling:
    case Must::slenderness:
      return grows ? WithLength::never_rises : WithLength::independent;
    case Must::mass:
      return WithLength::never_rises;
    case Must::overload:
      return grows ? WithLength::mixed : WithLength::never_falls;
    case Must::goes_first:
      return first_with_length(limit.part, grows);
    default:
      return WithLength::never_falls;
  }
}

bool helped(WithLength with) { return with != WithLength::never_rises && with != WithLength::mixed; }

NutLength least_nut(const SharedPasses& shared, const Candidate& candidate, const models::Thread& thread,
                    const std::vector<std::optional<double>>& odds) {
  const Sought sought{shared, candidate, thread, odds};
  const Study& study = shared.study();
  const auto [from, to] = nut_room(shared, candidate, thread);
  const Judgement longest = shared.judge(candidate, sought.design(to), odds);
  double length = std::clamp(wanted_by_proportional(sought, longest, to), from, to);
  if (std::optional<Judgement> at = scaled(study, longest, length / to)) {
    const bool passes = at->all() && sought.holds(length);
    return {length, passes, true, std::move(at)};
  }
  const Judgement there = shared.judge(candidate, sought.design(length), odds);
  if (!helped_hold(study, there) && helped_hold(study, longest)) length = bisect(sought, length, to);
  if (sought.holds(length)) return {length, true, true, std::nullopt};
  if (!any_mixed(study) || !helped_hold(study, longest) || length >= to) return {length, false, true, std::nullopt};
  const double shortest = study.duty.travel.value_or(0) + length / 2;
  if (best_when_longest(study) && !shared.passes_all(candidate, sought.design(to), odds, shortest))
    return {length, false, true, std::nullopt};
  return search(sought, length, to);
}

namespace {

/// The best length of any, makeable or not.
NutLength best_of_all(const Sought& sought) {
  const Study& study = sought.shared.study();
  const Aim& aim = deciding_aim(study);
  const Goes goes = with_length(study, aim);
  NutLength least = least_nut(sought.shared, sought.candidate, sought.thread, sought.odds);
  if (goes == Goes::up || goes == Goes::level) return least;
  const auto [from, to] = nut_room(sought.shared, sought.candidate, sought.thread);
  if (goes == Goes::unsteady || any_mixed(study)) return best_of_several(sought, std::move(least), from, to);
  const NutLength longest = longest_nut(sought, least, to);
  if (!longest.passes || aim.of.what != Quantity::What::odds) return longest;
  return no_longer_than_needed(sought, least, longest, *limit_of(study, aim.of.must));
}

}  // namespace

NutLength best_nut(const SharedPasses& shared, const Candidate& candidate, const models::Thread& thread,
                   const std::vector<std::optional<double>>& odds) {
  const Study& study = shared.study();
  const Sought sought{shared, candidate, thread, odds};
  NutLength best = best_of_all(sought);
  const std::optional<Length>& typed = study.choices.nut_length.step;
  if (!typed || !best.passes) return best;
  constexpr double hair = 1e-9;
  const double step = typed->of(thread.diameter);
  const Goes goes = with_length(study, deciding_aim(study));
  const bool up = goes == Goes::up || goes == Goes::level;
  const double length = step * (up ? std::ceil(best.length / step - hair) : std::floor(best.length / step + hair));
  const auto [from, to] = nut_room(shared, candidate, thread);
  const bool inside = length >= from * (1 - hair) && length <= to * (1 + hair);
  return {inside ? length : best.length, inside && sought.holds(length), best.certain && !any_mixed(study), {}};
}

}  // namespace studies
