#include "studies/ask/explain.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "models/thread/series.hpp"
#include "studies/ask/verdict.hpp"

namespace studies {
namespace {

using models::Limit;

/// Whether a stands for its size better than b.
bool nearer(const Study& study, const CandidateVerdict& pick, const CandidateVerdict& a, const CandidateVerdict& b) {
  if (like(a, pick) != like(b, pick)) return like(a, pick);
  return closest(study, a) > closest(study, b);
}

/// Candidates with the pick's form and surface on another thread.
bool same_but_size(const Candidate& a, const Candidate& pick) {
  return a.thread && a.thread->form == pick.thread->form && a.starts == pick.starts &&
         a.surface_index == pick.surface_index;
}

/// Of several nuts of one size: the lightest that passes, else the longest.
bool preferred(const CandidateVerdict& a, const CandidateVerdict& b) {
  if (a.passes != b.passes) return a.passes;
  return a.passes ? a.mass < b.mass : a.design.nut_length > b.design.nut_length;
}

}  // namespace

namespace {

/// The design of a candidate that has none of its own: with its shortest nut, or with none where no nut will do.
models::Design with_shortest_nut(const Study& study, const Candidate& candidate) {
  const models::Thread& thread = *candidate.thread;
  if (!candidate.why_not.empty()) return design_of(study, candidate, thread, 0);
  if (!candidate.nut_range) return design_of(study, candidate, thread, candidate.nut_length->of(thread.diameter));
  const auto [from, to] = nut_bounds(candidate, thread);
  return design_of(study, candidate, thread, from > to ? 0 : from);
}

}  // namespace

CandidateVerdict brief(const SharedPasses& shared, const Candidate& candidate, const Hunted& hunted) {
  CandidateVerdict v;
  v.index = candidate.index;
  v.examined = hunted.examined;
  v.fresh_failed = hunted.fresh_failed;
  v.why = candidate.why_not;
  v.ruled_out = !hunted.design && !hunted.out_by && !hunted.put_off;
  if (v.ruled_out && v.why.empty()) v.why = "no nut length in the range gives one engaged turn";
  if (hunted.put_off) v.why = "whatever nut would hold, it weighs more than the pick";
  if (hunted.design)
    v.design = *hunted.design;
  else if (candidate.thread)
    v.design = with_shortest_nut(shared.study(), candidate);
  if (hunted.design || candidate.thread) v.designation = models::designation(v.design.thread);
  if (v.ruled_out) return v;
  v.mass = hunted.mass;
  v.passes = hunted.passes;
  if (hunted.out_by) v.misses = shared.study().limits[*hunted.out_by].must;
  return v;
}

CandidateVerdict explain(const SharedPasses& shared, const Candidate& candidate, const Hunted& hunted) {
  CandidateVerdict v = brief(shared, candidate, hunted);
  if (v.ruled_out) return v;
  std::optional<Judgement> known;
  if (!hunted.design) {
    Hunted own;
    v.design = *lightest_design(shared, candidate, asked_odds(shared.study()), own, &known);
  }
  const Aims aim = aims(shared.study(), shared.model(candidate, v.design), shared.inputs(candidate).inputs.nominal);
  v.mass = aim.mass;
  v.torque = aim.torque;
  if (!known) known = hunted.refused;
  const Judgement judgement = known ? *known : shared.judge(candidate, v.design, asked_odds(shared.study()));
  v.margins = judgement.nominal;
  v.at_odds = judgement.judged;
  v.passes = judgement.all();
  v.misses.reset();
  if (const auto k = judgement.first_missed()) {
    const Limit& limit = shared.study().limits[*k];
    v.misses = limit.must;
    v.has = limit.value(judgement.judged[*k]);
    v.needs = limit.asked;
  } else if (hunted.rare) {
    const Limit& limit = shared.study().limits[hunted.rare->limit];
    v.at_odds[hunted.rare->limit] = hunted.rare->margin;
    v.passes = v.fresh_failed = false;
    v.misses = limit.must;
    v.has = limit.value(hunted.rare->margin);
    v.needs = limit.asked;
  }
  return v;
}

bool holds(const Study& study, const CandidateVerdict& verdict, std::size_t k) {
  return verdict.at_odds[k] >= study.limits[k].least_margin();
}

double closest(const Study& study, const CandidateVerdict& verdict) {
  double worst = std::numeric_limits<double>::infinity();
  for (std::size_t k = 0; k < verdict.at_odds.size(); ++k)
    worst = std::min(worst, verdict.at_odds[k] / study.limits[k].least_margin());
  return worst;
}

bool like(const CandidateVerdict& a, const CandidateVerdict& b) {
  const models::Design &x = a.design, &y = b.design;
  return x.lubrication == y.lubrication && x.screw.name == y.screw.name && x.nut.name == y.nut.name &&
         describe(x.face) == describe(y.face);
}

std::vector<models::Must> all_missed(const Study& study, const CandidateVerdict& verdict) {
  std::vector<models::Must> missed;
  for (std::size_t k = 0; k < verdict.at_odds.size(); ++k)
    if (!holds(study, verdict, k)) missed.push_back(study.limits[k].must);
  return missed;
}

std::optional<Neighbour> next_size(const SharedPasses& shared, const Hunt& hunt, bool up) {
  const Candidate& pick = hunt.candidates[*hunt.pick];
  if (!pick.thread) return std::nullopt;
  const double d = pick.thread->diameter, P = pick.thread->pitch;
  const auto nearer = [&](const models::Thread& a, const models::Thread& b) {
    const double sign = up ? 1 : -1;
    if (a.diameter != b.diameter) return sign * a.diameter < sign * b.diameter;
    const double da = std::abs(a.pitch - P), db = std::abs(b.pitch - P);
    return std::abs(da - db) > 1e-9 ? da < db : a.pitch < b.pitch;
  };
  const Candidate* next = nullptr;
  for (const Candidate& c : hunt.candidates) {
    if (!same_but_size(c, pick) || (up ? c.thread->diameter <= d : c.thread->diameter >= d)) continue;
    if (!next || nearer(*c.thread, *next->thread)) next = &c;
  }
  if (!next) return std::nullopt;
  std::optional<CandidateVerdict> best;
  for (const Candidate& c : hunt.candidates) {
    if (!same_but_size(c, pick) || c.thread->diameter != next->thread->diameter ||
        c.thread->pitch != next->thread->pitch)
      continue;
    Hunted own;
    own.design = lightest_design(shared, c, asked_odds(shared.study()), own);
    const Hunted& seen = hunt.hunted[c.index];
    if (seen.refused || seen.rare) own = seen;
    const CandidateVerdict verdict = explain(shared, c, own);
    if (!best || preferred(verdict, *best)) best = verdict;
  }
  return Neighbour{*best, all_missed(shared.study(), *best)};
}

std::vector<CandidateVerdict> lighter_sizes(const Study& study, const std::vector<CandidateVerdict>& candidates,
                                            const CandidateVerdict& pick) {
  std::map<std::string, CandidateVerdict> by_size;
  for (const CandidateVerdict& v : candidates) {
    if (v.ruled_out || !v.misses || v.at_odds.empty() || v.mass >= pick.mass) continue;
    const auto [place, first] = by_size.emplace(v.designation, v);
    if (!first && nearer(study, pick, v, place->second)) place->second = v;
  }
  std::vector<CandidateVerdict> lighter;
  for (auto& [name, v] : by_size) lighter.push_back(std::move(v));
  std::stable_sort(lighter.begin(), lighter.end(), [](const auto& a, const auto& b) { return a.mass > b.mass; });
  return lighter;
}

}  // namespace studies
