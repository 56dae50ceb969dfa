#include "studies/ask/hunt.hpp"

#include <algorithm>
#include <deque>
#include <limits>

#include "engine/search/best_first.hpp"
#include "studies/ask/free_thread.hpp"
#include "studies/ask/fresh.hpp"
#include "studies/ask/hardest.hpp"
#include "studies/ask/nut_length.hpp"
#include "studies/ask/verdict.hpp"

namespace studies {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();
/// How often a candidate's odds are tightened before it is given up.
constexpr int tightenings = 8;

double mass_of(const SharedPasses& shared, const Candidate& candidate, const models::Design& design) {
  const models::ScrewModel model = shared.model(candidate, design);
  return aims(shared.study(), model, shared.inputs(candidate).inputs.nominal).mass;
}

/// Least mass a candidate can have: the mass grows with diameter and nut length and falls with pitch.
double bound(const SharedPasses& shared, const Candidate& candidate) {
  if (!candidate.why_not.empty()) return none;
  if (candidate.band) return band_bound(shared, candidate);
  const models::Thread& thread = *candidate.thread;
  const double length =
      candidate.nut_range ? nut_bounds(candidate, thread).first : candidate.nut_length->of(thread.diameter);
  return mass_of(shared, candidate, design_of(shared.study(), candidate, thread, length));
}

/// How far above the least mass seen so far a candidate is still worth its exact mass: what that mass may yet rise by
/// when more passes are asked.
constexpr double within_reach = 1.01;

/// The nut of a candidate that makes it weigh so much, or the longest: the mass goes up in a straight line with the
/// nut.
double nut_of_mass(const SharedPasses& shared, const Candidate& candidate, double mass) {
  const Study& study = shared.study();
  const auto [from, to] = nut_bounds(candidate, *candidate.thread);
  const auto weighs = [&](double nut) {
    return mass_of(shared, candidate, design_of(study, candidate, *candidate.thread, nut));
  };
  const double light = weighs(from), heavy = weighs(to);
  if (heavy <= mass || !(heavy > light)) return to;
  return std::min(to, from + (to - from) * (mass - light) / (heavy - light) * (1 + 1e-9));
}

/// The hunt in progress.
class Party {
public:
  Party(const Study& study, const SharedPasses& shared, FreshSets& fresh, const engine::Running& running, Hunt& hunt)
      : study_(study), shared_(shared), fresh_(fresh), running_(running), hardest_(shared), hunt_(hunt) {
    for (const std::uint64_t count : refined_passes)
      refined_.emplace_back(study, engine::Plan::Kind::sobol, count, engine::Stream::refine, running.interrupted);
    for (const models::Limit& limit : study.limits) helped_.push_back(helped(with_length(study, limit)));
  }

  std::optional<engine::Standing> look(std::size_t index, engine::Standing standing) {
    Hunted& hunted = hunt_.hunted[index];
    if (standing.stage == engine::Stage::judged) return confirm(index, hunted);
    if (hunted.in_contention) return refine(index, hunted);
    const std::optional<Early> early = put_out_early(index, standing.value, hunted);
    return early ? early->standing : judge(index, hunted);
  }

  /// The first judgement, on the shared passes.
  std::optional<engine::Standing> judge(std::size_t index, Hunted& hunted) {
    const Candidate& candidate = hunt_.candidates[index];
    hunted.examined = true;
    const bool band = candidate.band.has_value();
    const auto odds = band ? hunted.odds : loosened(hunted.odds, shared_.passes());
    hunted.design = lightest_design(shared_, candidate, odds, hunted);
    if (!hunted.design || !hunted.passes) return std::nullopt;
    hunted.mass = mass_of(shared_, candidate, *hunted.design);
    if (band) return engine::Standing{engine::Stage::judged, hunted.mass};
    hunted.in_contention = true;
    to_beat_ = std::min(to_beat_, hunted.mass * within_reach);
    return engine::Standing{engine::Stage::bounded, hunted.mass};
  }

  std::uint64_t calls() const {
    std::uint64_t sum = shared_.calls() + fresh_.calls() + rare_calls_;
    for (const SharedPasses& set : refined_) sum += set.calls();
    return sum;
  }

private:
  struct Early {
    std::optional<engine::Standing> standing;
  };

  /// What can be said of a candidate without its exact nut: that it is out, or cannot be light enough to matter yet.
  /// @param at_least  its mass as known so far: what it is put off to lies above, so that it is not put off for ever
  std::optional<Early> put_out_early(std::size_t index, double at_least, Hunted& hunted) {
    const Candidate& candidate = hunt_.candidates[index];
    if (candidate.band) return std::nullopt;
    const models::Thread& thread = *candidate.thread;
    const double to_beat = std::max(to_beat_, at_least * within_reach);
    double longest = 0, nut = 0;
    if (candidate.nut_range) {
      const auto [from, to] = nut_bounds(candidate, thread);
      if (from > to) return std::nullopt;
      longest = to;
      nut = nut_of_mass(shared_, candidate, to_beat);
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
      hunted.mass = to_beat;
      return Early{engine::Standing{engine::Stage::bounded, to_beat}};
    }
    hunted.out_by = missed;
    return Early{std::nullopt};
  }

  /// Judged on more passes, and on still more while these cannot tell; if none can, the fresh ones are to.
  std::optional<engine::Standing> refine(std::size_t index, Hunted& hunted) {
    const Candidate& candidate = hunt_.candidates[index];
    const auto contends = [&](const SharedPasses& set) {
      hunted.mass = mass_of(set, candidate, *hunted.design);
      return engine::Standing{engine::Stage::judged, hunted.mass};
    };
    for (const SharedPasses& set : refined_) {
      const std::optional<models::Design> asked = lightest_design(set, candidate, hunted.odds, hunted);
      hunted.design = asked;
      if (hunted.passes) return contends(set);
      hunted.design = lightest_design(set, candidate, loosened(hunted.odds, set.passes()), hunted);
      if (hunted.passes) continue;
      hunted.design = asked;
      hunted.refused = set.judge(candidate, *asked, asked_odds(study_));
      return std::nullopt;
    }
    return contends(refined_.back());
  }

  /// Fresh passes; where they fall short of the odds asked, the odds asked of the shared passes rise by the shortfall,
  /// which a free nut, diameter or pitch can answer. What only rare odds tell, no number of shared passes could.
  std::optional<engine::Standing> confirm(std::size_t index, Hunted& hunted) {
    const Candidate& candidate = hunt_.candidates[index];
    const SharedPasses& fresh = fresh_.of(candidate, *hunted.design);
    const FreshJudgement fresh_says = judge_confirming(fresh, candidate, *hunted.design, running_);
    hunted.rare = fresh_says.rare;
    rare_calls_ += fresh_says.calls;
    if (fresh_says.holds) {
      hunted.fresh_failed = false;
      return engine::Standing{engine::Stage::confirmed, hunted.mass};
    }
    hunted.fresh_failed = true;
    const bool free = candidate.nut_range || candidate.band;
    if (hunted.rare && free)
      hunted.certain = false;  // another length might do, but the shared passes cannot lead there
    if (hunted.rare) return std::nullopt;
    const std::optional<engine::Standing> again = !free || !tighten(candidate, fresh, hunted) ? std::nullopt
                                                  : candidate.band                            ? judge(index, hunted)
                                                                                              : refine(index, hunted);
    if (!again && !hunted.refused && hunted.design)
      hunted.refused = fresh.judge(candidate, *hunted.design, asked_odds(study_));
    return again;
  }

  bool tighten(const Candidate& candidate, const SharedPasses& fresh, Hunted& hunted) {
    const std::vector<double> shares = fresh.shares(candidate, *hunted.design);
    bool room = false;
    for (std::size_t k = 0; k < shares.size(); ++k) {
      if (!hunted.odds[k] || shares[k] >= *study_.limits[k].odds) continue;
      const double short_by = *study_.limits[k].odds - shares[k],
                   one_pass = 1.0 / static_cast<double>(shared_.passes());
      hunted.odds[k] = std::min(*hunted.odds[k] + std::max(short_by, one_pass), 1 - one_pass / 2);
      room = true;
    }
    return room && ++rounds_[candidate.index] <= tightenings;
  }

  const Study& study_;
  const SharedPasses& shared_;
  FreshSets& fresh_;
  const engine::Running& running_;
  Hardest hardest_;
  Hunt& hunt_;
  std::deque<SharedPasses> refined_;
  std::vector<bool> helped_;  ///< [limit] by a longer nut, or left alone
  std::uint64_t rare_calls_ = 0;
  double to_beat_ = std::numeric_limits<double>::infinity();
  std::vector<int> rounds_ = std::vector<int>(hunt_.candidates.size());
};

/// Among equals in mass: least torque, then the order typed.
std::size_t choose(const SharedPasses& shared, Hunt& hunt, const std::vector<std::size_t>& winners) {
  for (const std::size_t w : winners) {
    const models::ScrewModel model = shared.model(hunt.candidates[w], *hunt.hunted[w].design);
    hunt.hunted[w].torque = aims(shared.study(), model, shared.inputs(hunt.candidates[w]).inputs.nominal).torque;
  }
  return *std::min_element(winners.begin(), winners.end(), [&](std::size_t a, std::size_t b) {
    return hunt.hunted[a].torque < hunt.hunted[b].torque * (1 - 1e-9);
  });
}

void report(const SharedPasses& shared, const std::vector<double>& bounds, Hunt& hunt) {
  SearchReport& r = hunt.report;
  r.candidates = hunt.candidates.size();
  r.shared_passes = shared.passes();
  r.proven = true;
  double open = std::numeric_limits<double>::infinity();  // least bound of what is not ruled out for certain
  for (std::size_t i = 0; i < hunt.candidates.size(); ++i) {
    const Hunted& h = hunt.hunted[i];
    r.examined += h.examined;
    r.ruled_out += !hunt.candidates[i].why_not.empty();
    r.continuous = r.continuous || hunt.candidates[i].band.has_value();
    const bool undecided = (h.examined && !h.certain) || (hunt.candidates[i].band && h.examined);
    if (undecided) open = std::min(open, bounds[i]);
  }
  if (r.continuous) r.starts = band_starts;
  if (open == std::numeric_limits<double>::infinity()) return;
  r.proven = false;
  r.gap = hunt.pick ? std::max(0.0, hunt.hunted[*hunt.pick].mass / open - 1) : none;
}

}  // namespace

std::optional<models::Design> lightest_design(const SharedPasses& shared, const Candidate& candidate,
                                              const std::vector<std::optional<double>>& odds, Hunted& hunted,
                                              std::optional<Judgement>* judgement) {
  hunted.passes = false;
  if (!candidate.why_not.empty()) return std::nullopt;
  if (candidate.band) return lightest_in_band(shared, candidate, hunted);
  const models::Thread& thread = *candidate.thread;
  const Study& study = shared.study();
  if (candidate.nut_range) {
    const auto [from, to] = nut_bounds(candidate, thread);
    if (from > to) return std::nullopt;
    NutLength nut = least_nut(shared, candidate, thread, odds);
    hunted.passes = nut.passes;
    hunted.certain = nut.certain;
    if (judgement) *judgement = std::move(nut.judgement);
    return design_of(study, candidate, thread, nut.length);
  }
  const models::Design design = design_of(study, candidate, thread, candidate.nut_length->of(thread.diameter));
  hunted.passes = shared.passes_all(candidate, design, odds);
  return design;
}

Hunt hunt(const Study& study, const SharedPasses& shared, const Asking& asking) {
  Hunt result;
  result.candidates = candidates(study);
  Hunted at_first;
  at_first.odds = asked_odds(study);
  result.hunted.assign(result.candidates.size(), at_first);
  std::vector<double> bounds;
  for (const Candidate& candidate : result.candidates) bounds.push_back(bound(shared, candidate));
  for (std::size_t i = 0; i < bounds.size(); ++i) result.hunted[i].mass = bounds[i];

  FreshSets fresh(study, asking.running);
  Party party(study, shared, fresh, asking.running, result);
  std::uint64_t looked = 0;
  const auto check = [&] {
    if (asking.running.interrupted && *asking.running.interrupted) throw engine::Interrupted{};
    if (asking.running.progress)
      asking.running.progress(std::min(1.0, static_cast<double>(looked) / static_cast<double>(2 * bounds.size())));
  };
  std::vector<std::optional<engine::Standing>> scanned(result.candidates.size());
  for (std::size_t i = 0; asking.scan && i < result.candidates.size(); ++i, ++looked) {
    check();
    if (result.candidates[i].why_not.empty()) scanned[i] = party.judge(i, result.hunted[i]);
  }
  std::vector<bool> seen(result.candidates.size());
  const auto look = [&](std::size_t index, engine::Standing standing) {
    ++looked;
    check();
    const bool first = asking.scan && !seen[index];
    seen[index] = true;
    return first ? scanned[index] : party.look(index, standing);
  };
  const std::vector<std::size_t> winners = engine::best_first(bounds, look);
  if (!winners.empty()) result.pick = choose(shared, result, winners);
  report(shared, bounds, result);
  result.report.model_calls = party.calls();
  return result;
}

}  // namespace studies
