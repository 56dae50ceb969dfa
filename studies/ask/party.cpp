#include "studies/ask/party.hpp"

#include <algorithm>
#include <cmath>

#include "studies/ask/aim.hpp"
#include "studies/ask/free_thread.hpp"

namespace studies {
namespace {

/// How often a candidate is sought again, its odds tightened or its nut made longer, before it is given up.
constexpr int rounds = 8;
/// The same where rare odds ask for a longer nut: each round comes nearer.
constexpr int rare_rounds = 24;

/// A value so much worse than another that it is still worth its exact one: what that may yet get worse by when more
/// passes are asked.
double within_reach(double value) { return value + 0.01 * std::abs(value); }

/// The nut of a candidate that makes it as good by the aim as `wanted`, or the longest: for an aim that goes up in a
/// straight line with the nut.
double nut_of_value(const SharedPasses& shared, const Candidate& candidate, const Aim& aim, double from, double to,
                    double wanted) {
  const auto value = [&](double nut) {
    return aimed(shared, candidate, design_of(shared.study(), candidate, *candidate.thread, nut), aim);
  };
  const double best = value(from), worst = value(to);
  if (worst <= wanted || !(worst > best)) return to;
  return std::min(to, from + (to - from) * (wanted - best) / (worst - best) * (1 + 1e-9));
}

double not_nan(double value) { return std::isnan(value) ? std::numeric_limits<double>::infinity() : value; }

}  // namespace

double bound(const SharedPasses& shared, const Candidate& candidate, const Aim& aim) {
  if (!candidate.why_not.empty()) return std::numeric_limits<double>::quiet_NaN();
  if (aim.of.what == Quantity::What::odds) return 0;
  if (candidate.band) return band_bound(shared, candidate, aim);
  const models::Thread& thread = *candidate.thread;
  const auto value = [&](double nut) {
    return not_nan(aimed(shared, candidate, design_of(shared.study(), candidate, thread, nut), aim));
  };
  if (!candidate.nut_range) return value(candidate.nut_length->of(thread.diameter));
  const auto [from, to] = nut_bounds(candidate, thread);
  const Goes goes = with_length(shared.study(), aim);
  if (goes == Goes::unsteady) return -std::numeric_limits<double>::infinity();
  return value(goes == Goes::down ? to : from);
}

Party::Party(const Study& study, const SharedPasses& shared, FreshSets& fresh, const engine::Running& running,
             Hunt& hunt)
    : study_(study),
      aim_(study.aims.front()),
      shared_(shared),
      fresh_(fresh),
      running_(running),
      hardest_(shared),
      hunt_(hunt),
      rounds_(hunt.candidates.size()) {
  for (const std::uint64_t count : refined_passes)
    refined_.emplace_back(study, engine::Plan::Kind::sobol, count, engine::Stream::refine, running.interrupted);
  for (const models::Limit& limit : study.limits) helped_.push_back(helped(with_length(study, limit)));
}

std::optional<engine::Standing> Party::look(std::size_t index, engine::Standing standing) {
  if (standing.stage == engine::Stage::judged) return confirm(index);
  if (hunt_.hunted[index].in_contention) return refine(index);
  const std::optional<Early> early = put_out_early(index, standing.value);
  return early ? early->standing : judge(index);
}

std::optional<engine::Standing> Party::judge(std::size_t index) {
  const Candidate& candidate = hunt_.candidates[index];
  Hunted& hunted = hunt_.hunted[index];
  hunted.examined = true;
  const bool band = candidate.band.has_value();
  const auto odds = band ? hunted.odds : loosened(hunted.odds, shared_.passes());
  hunted.design = best_design(shared_, candidate, odds, hunted);
  if (!hunted.design || !hunted.passes) return std::nullopt;
  hunted.value = value(index, aim_, band ? engine::Stage::judged : engine::Stage::bounded);
  if (band) return engine::Standing{engine::Stage::judged, hunted.value};
  hunted.in_contention = true;
  to_beat_ = std::min(to_beat_, within_reach(hunted.value));
  return engine::Standing{engine::Stage::bounded, hunted.value};
}

double Party::value(std::size_t index, const Aim& aim, engine::Stage stage) const {
  const Candidate& candidate = hunt_.candidates[index];
  const models::Design& design = *hunt_.hunted[index].design;
  const bool odds = aim.of.what == Quantity::What::odds, bounded = stage == engine::Stage::bounded;
  const SharedPasses& passes = odds && !bounded ? refined_.back() : shared_;
  const double value = not_nan(aimed(passes, candidate, design, aim));
  if (!odds) return value;
  constexpr double a_kilogram = 1e-10;  // far below one pass
  return (bounded ? at_best(value) : value) + a_kilogram * mass_of(shared_, candidate, design);
}

/// The least that a share of the shared passes may come to on more of them.
double Party::at_best(double value) const {
  const auto n = static_cast<double>(shared_.passes());
  return std::max(0.0, value - 5 * std::sqrt(value * n + 1) / n);
}

/// What can be said of a candidate without its exact nut: that it is out, or cannot be good enough to matter yet.
/// @param at_least  its value as known so far: what it is put off to lies above, so that it is not put off for ever
std::optional<Party::Early> Party::put_out_early(std::size_t index, double at_least) {
  const Candidate& candidate = hunt_.candidates[index];
  Hunted& hunted = hunt_.hunted[index];
  if (candidate.band) return std::nullopt;
  const models::Thread& thread = *candidate.thread;
  hunted.over_cap = over_cap(shared_, candidate, thread);
  if (hunted.over_cap) {
    hunted.examined = true;
    return Early{std::nullopt};
  }
  const double to_beat = std::max(to_beat_, within_reach(at_least));
  double longest = 0, nut = 0;
  if (candidate.nut_range) {
    const auto [from, to] = nut_room(shared_, candidate, thread);
    if (from > to) return std::nullopt;
    longest = to;
    nut = straight_with_length(aim_) ? nut_of_value(shared_, candidate, aim_, from, to, to_beat) : to;
  } else {
    longest = nut = candidate.nut_length->of(thread.diameter);
  }
  const std::vector<bool> all(study_.limits.size(), true);
  const std::optional<std::size_t> missed =
      hardest_.missed(candidate, design_of(study_, candidate, thread, nut), loosened(hunted.odds, shared_.passes()),
                      candidate.nut_range ? helped_ : all);
  hunted.put_off = false;
  if (!missed) return std::nullopt;
  hunted.examined = true;
  const bool whatever_nut = with_length(study_, study_.limits[*missed]) == WithLength::independent;
  if (nut < longest && !whatever_nut) {
    hunted.put_off = true;
    hunted.value = to_beat;
    return Early{engine::Standing{engine::Stage::bounded, to_beat}};
  }
  hunted.out_by = missed;
  return Early{std::nullopt};
}

/// Judged on more passes, and on still more while these cannot tell; if none can, the fresh ones are to.
std::optional<engine::Standing> Party::refine(std::size_t index) {
  const Candidate& candidate = hunt_.candidates[index];
  Hunted& hunted = hunt_.hunted[index];
  const auto contends = [&] {
    hunted.value = value(index, aim_, engine::Stage::judged);
    return engine::Standing{engine::Stage::judged, hunted.value};
  };
  for (const SharedPasses& set : refined_) {
    const std::optional<models::Design> asked = best_design(set, candidate, hunted.odds, hunted);
    hunted.design = asked;
    if (hunted.passes) return contends();
    hunted.design = best_design(set, candidate, loosened(hunted.odds, set.passes()), hunted);
    if (hunted.passes) continue;
    hunted.design = asked;
    hunted.refused = set.judge(candidate, *asked, asked_odds(study_));
    return std::nullopt;
  }
  return contends();
}

/// Fresh passes; where they fall short of the odds asked, the odds asked of the shared passes rise by the shortfall,
/// which a free nut, diameter or pitch can answer. What only rare odds tell, no number of shared passes could: a free
/// nut is made as much longer as they want.
std::optional<engine::Standing> Party::confirm(std::size_t index) {
  const Candidate& candidate = hunt_.candidates[index];
  Hunted& hunted = hunt_.hunted[index];
  const SharedPasses& fresh = fresh_.of(candidate, *hunted.design);
  const FreshJudgement fresh_says = judge_confirming(fresh, candidate, *hunted.design, running_);
  hunted.rare = fresh_says.rare;
  rare_calls_ += fresh_says.calls;
  hunted.fresh_failed = !fresh_says.holds;
  if (fresh_says.holds) return engine::Standing{engine::Stage::confirmed, hunted.value};
  if (hunted.rare) return after_rare_miss(index);
  const bool free = candidate.nut_range || candidate.band;
  const std::optional<engine::Standing> again = !free || !tighten(index, fresh) ? std::nullopt
                                                : candidate.band                ? judge(index)
                                                                                : refine(index);
  if (!again && !hunted.refused && hunted.design)
    hunted.refused = fresh.judge(candidate, *hunted.design, asked_odds(study_));
  return again;
}

/// A band is sought again with as much more margin on the shared passes, at the odds that these can count, as the rare
/// odds want: the two go together from one design to one nearby, so that a few rounds meet them.
std::optional<engine::Standing> Party::stiffened(std::size_t index) {
  Hunted& hunted = hunt_.hunted[index];
  const std::size_t k = hunted.rare->limit;
  hunted.certain = false;
  if (++rounds_[index] > rounds) return std::nullopt;
  constexpr double a_hair = 1.0005;  // rare margins are solved for to about so much
  const double counted = shared_.judge(hunt_.candidates[index], *hunted.design, hunted.odds).judged[k];
  hunted.stiffer.resize(study_.limits.size(), 1.0);
  hunted.stiffer[k] = std::max(hunted.stiffer[k], counted / hunted.rare->margin) * a_hair;
  hunted.rare.reset();
  return judge(index);
}

/// No more passes can answer what rare odds tell. A limit that a longer nut helps has the shortest nut allowed made
/// longer; another length helps no other, where the nut is as short as may be.
std::optional<engine::Standing> Party::after_rare_miss(std::size_t index) {
  Candidate& candidate = hunt_.candidates[index];
  Hunted& hunted = hunt_.hunted[index];
  if (candidate.band) return stiffened(index);
  if (!candidate.nut_range) return std::nullopt;
  const models::Limit& limit = study_.limits[hunted.rare->limit];
  const WithLength with = with_length(study_, limit);
  const double nut = hunted.design->nut_length;
  if (with == WithLength::independent) return std::nullopt;
  const bool helps = with == WithLength::proportional || with == WithLength::never_falls;
  const double longest = nut_room(shared_, candidate, *candidate.thread).second;
  if (!helps || nut >= longest || ++rounds_[index] > rare_rounds) {
    const Goes goes = with_length(study_, aim_);
    hunted.certain = helps ? nut >= longest : with == WithLength::never_rises && goes != Goes::down;
    return std::nullopt;
  }
  const double wanted = limit.least_margin() / hunted.rare->margin;
  const double longer = nut * std::max(with == WithLength::proportional ? wanted : std::max(wanted, 1.02), 1.0005);
  candidate.nut_range->first = Length{std::min(longer, longest), false};
  hunted.rare.reset();
  hunted.odds = asked_odds(study_);
  return refine(index);
}

bool Party::tighten(std::size_t index, const SharedPasses& fresh) {
  Hunted& hunted = hunt_.hunted[index];
  const std::vector<double> shares = fresh.shares(hunt_.candidates[index], *hunted.design);
  bool room = false;
  for (std::size_t k = 0; k < shares.size(); ++k) {
    if (!hunted.odds[k] || shares[k] >= *study_.limits[k].odds) continue;
    const double short_by = *study_.limits[k].odds - shares[k], one_pass = 1.0 / static_cast<double>(shared_.passes());
    hunted.odds[k] = std::min(*hunted.odds[k] + std::max(short_by, one_pass), 1 - one_pass / 2);
    room = true;
  }
  return room && ++rounds_[index] <= rounds;
}

std::uint64_t Party::calls() const {
  std::uint64_t sum = shared_.calls() + fresh_.calls() + rare_calls_;
  for (const SharedPasses& set : refined_) sum += set.calls();
  return sum;
}

}  // namespace studies
