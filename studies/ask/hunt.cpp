#include "studies/ask/hunt.hpp"

#include <algorithm>
#include <limits>

#include "engine/search/best_first.hpp"
#include "studies/ask/free_thread.hpp"
#include "studies/ask/fresh.hpp"
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

/// The hunt in progress.
struct Party {
  const Study& study;
  const SharedPasses& shared;
  FreshSets& fresh_sets;
  Hunt& hunt;

  std::optional<engine::Standing> look(std::size_t index, engine::Standing standing) {
    Hunted& hunted = hunt.hunted[index];
    return standing.stage == engine::Stage::bounded ? judge(index, hunted) : confirm(index, hunted);
  }

  std::optional<engine::Standing> judge(std::size_t index, Hunted& hunted) {
    const Candidate& candidate = hunt.candidates[index];
    hunted.examined = true;
    hunted.design = lightest_design(shared, candidate, hunted);
    if (!hunted.design || !hunted.passes) return std::nullopt;
    hunted.mass = mass_of(shared, candidate, *hunted.design);
    return engine::Standing{engine::Stage::judged, hunted.mass};
  }

  /// Fresh passes; where they fall short of the odds asked, the odds asked of the shared passes rise by the shortfall,
  /// which a free nut, diameter or pitch can answer.
  std::optional<engine::Standing> confirm(std::size_t index, Hunted& hunted) {
    const Candidate& candidate = hunt.candidates[index];
    const SharedPasses& fresh = fresh_sets.of(candidate, *hunted.design);
    if (fresh.passes_all(candidate, *hunted.design, asked_odds(study))) {
      hunted.fresh_failed = false;
      return engine::Standing{engine::Stage::confirmed, hunted.mass};
    }
    hunted.fresh_failed = true;
    if (!candidate.nut_range && !candidate.band) return std::nullopt;
    if (!tighten(candidate, fresh, hunted)) return std::nullopt;
    return judge(index, hunted);
  }

  bool tighten(const Candidate& candidate, const SharedPasses& fresh, Hunted& hunted) {
    const std::vector<double> shares = fresh.shares(candidate, *hunted.design);
    bool room = false;
    for (std::size_t k = 0; k < shares.size(); ++k) {
      if (!hunted.odds[k] || shares[k] >= *study.limits[k].odds) continue;
      const double short_by = *study.limits[k].odds - shares[k], one_pass = 1.0 / static_cast<double>(shared.passes());
      hunted.odds[k] = std::min(*hunted.odds[k] + std::max(short_by, one_pass), 1 - one_pass / 2);
      room = true;
    }
    return room && ++hunted_rounds[candidate.index] <= tightenings;
  }

  std::vector<int> hunted_rounds = std::vector<int>(hunt.candidates.size());
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

std::optional<models::Design> lightest_design(const SharedPasses& shared, const Candidate& candidate, Hunted& hunted) {
  if (!candidate.why_not.empty()) return std::nullopt;
  if (candidate.band) return lightest_in_band(shared, candidate, hunted);
  const models::Thread& thread = *candidate.thread;
  const Study& study = shared.study();
  if (candidate.nut_range) {
    const auto [from, to] = nut_bounds(candidate, thread);
    if (from > to) return std::nullopt;
    const NutLength nut = least_nut(shared, candidate, thread, hunted.odds);
    hunted.passes = nut.passes;
    hunted.certain = nut.certain;
    return design_of(study, candidate, thread, nut.length);
  }
  const models::Design design = design_of(study, candidate, thread, candidate.nut_length->of(thread.diameter));
  hunted.passes = shared.passes_all(candidate, design, hunted.odds);
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

  FreshSets fresh(study, asking.running);
  Party party{study, shared, fresh, result};
  std::uint64_t looked = 0;
  const auto check = [&] {
    if (asking.running.interrupted && *asking.running.interrupted) throw engine::Interrupted{};
    if (asking.running.progress)
      asking.running.progress(static_cast<double>(looked) / static_cast<double>(2 * bounds.size()));
  };
  std::vector<std::optional<engine::Standing>> scanned(result.candidates.size());
  for (std::size_t i = 0; asking.scan && i < result.candidates.size(); ++i, ++looked) {
    check();
    if (result.candidates[i].why_not.empty()) scanned[i] = party.judge(i, result.hunted[i]);
  }
  const auto look = [&](std::size_t index, engine::Standing standing) {
    ++looked;
    check();
    return asking.scan && standing.stage == engine::Stage::bounded ? scanned[index] : party.look(index, standing);
  };
  const std::vector<std::size_t> winners = engine::best_first(bounds, look);
  if (!winners.empty()) result.pick = choose(shared, result, winners);
  report(shared, bounds, result);
  result.report.model_calls = shared.calls() + fresh.calls();
  return result;
}

}  // namespace studies
