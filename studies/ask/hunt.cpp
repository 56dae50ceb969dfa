#include "studies/ask/hunt.hpp"

#include <algorithm>
#include <limits>

#include "engine/search/best_first.hpp"
#include "studies/ask/aim.hpp"
#include "studies/ask/band_proof.hpp"
#include "studies/ask/free_thread.hpp"
#include "studies/ask/party.hpp"

namespace studies {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

/// What decides among equals: the second aim, mass, torque.
std::vector<double> second_looks(const SharedPasses& shared, const Candidate& candidate, const models::Design& design) {
  const std::vector<Aim>& aims = shared.study().aims;
  std::vector<double> looks;
  if (aims.size() > 1) looks.push_back(aimed(shared, candidate, design, aims[1]));
  looks.push_back(mass_of(shared, candidate, design));
  looks.push_back(effort(shared, candidate, design));
  return looks;
}

/// The best of those that are equal by the first aim; of what is equal in everything the one typed first.
std::size_t choose(const SharedPasses& shared, const Hunt& hunt, const std::vector<std::size_t>& winners) {
  std::size_t best = winners.front();
  std::vector<double> of_best;
  for (const std::size_t w : winners) {
    std::vector<double> looks = second_looks(shared, hunt.candidates[w], *hunt.hunted[w].design);
    bool better = of_best.empty();
    for (std::size_t i = 0; i < looks.size() && !of_best.empty(); ++i) {
      if (engine::alike(looks[i], of_best[i])) continue;
      better = looks[i] < of_best[i];
      break;
    }
    if (better) best = w, of_best = std::move(looks);
  }
  return best;
}

/// How much better what is left could be, as a share: 0.02 where 2 % less of what is to be least (or 2 % more).
double gap_to(double value, double open) {
  if (value > 0) return std::max(0.0, value / open - 1);
  return value < 0 ? std::max(0.0, open / value - 1) : none;
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
  r.gap = hunt.pick ? gap_to(hunt.hunted[*hunt.pick].value, open) : none;
}

}  // namespace

std::optional<models::Design> best_design(const SharedPasses& shared, const Candidate& candidate,
                                          const std::vector<std::optional<double>>& odds, Hunted& hunted,
                                          std::optional<Judgement>* judgement) {
  hunted.passes = false;
  hunted.over_cap.reset();
  if (!candidate.why_not.empty()) return std::nullopt;
  if (candidate.band) return best_in_band(shared, candidate, hunted);
  const models::Thread& thread = *candidate.thread;
  const Study& study = shared.study();
  if (candidate.nut_range) {
    const auto [from, to] = nut_room(shared, candidate, thread);
    if (from > to) hunted.over_cap = over_cap(shared, candidate, thread);
    if (from > to) return std::nullopt;
    NutLength nut = best_nut(shared, candidate, thread, odds);
    hunted.passes = nut.passes;
    hunted.certain = nut.certain;
    if (judgement) *judgement = std::move(nut.judgement);
    return design_of(study, candidate, thread, nut.length);
  }
  const models::Design design = design_of(study, candidate, thread, candidate.nut_length->of(thread.diameter));
  hunted.over_cap = over_cap(shared, candidate, design);
  hunted.passes = !hunted.over_cap && shared.passes_all(candidate, design, odds);
  return design;
}

Hunt hunt(const Study& study, const SharedPasses& shared, const Asking& asking) {
  Hunt result;
  result.candidates = candidates(study);
  Hunted at_first;
  at_first.odds = asked_odds(study);
  result.hunted.assign(result.candidates.size(), at_first);
  std::vector<double> bounds;
  for (const Candidate& candidate : result.candidates) bounds.push_back(bound(shared, candidate, study.aims.front()));
  for (std::size_t i = 0; i < bounds.size(); ++i) result.hunted[i].value = bounds[i];

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
    if (result.candidates[i].why_not.empty()) scanned[i] = party.judge(i);
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
  const bool by_mass = study.aims.front().of == Quantity{} && !study.aims.front().most;
  if (result.pick && result.report.continuous && by_mass)
    result.report.gap =
        std::min(result.report.gap, band_gap(shared, result.candidates, result.hunted[*result.pick].value));
  result.report.model_calls = party.calls();
  return result;
}

}  // namespace studies
