#include "studies/ask/explain.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "models/thread/designation.hpp"
#include "studies/ask/aim.hpp"

namespace studies {
namespace {

using models::Limit;

/// Whether a stands for its size better than b.
bool nearer(const Study& study, const CandidateVerdict& pick, const CandidateVerdict& a, const CandidateVerdict& b) {
  if (like(a, pick) != like(b, pick)) return like(a, pick);
  return closest(study, a) > closest(study, b);
}

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
  v.ruled_out = !hunted.design && !hunted.out_by && !hunted.put_off && !hunted.over_cap;
  if (v.ruled_out && v.why.empty()) v.why = "no nut length in the range gives one engaged turn";
  const bool by_mass = shared.study().aims.front().of == Quantity{};
  if (hunted.put_off)
    v.why = by_mass ? "whatever nut would hold, it weighs more than the pick"
                    : "whatever nut would hold, it is no better than the pick by the aim";
  if (hunted.design)
    v.design = *hunted.design;
  else if (candidate.thread)
    v.design = with_shortest_nut(shared.study(), candidate);
  if (hunted.design || candidate.thread) v.designation = models::designation(v.design.thread);
  if (v.ruled_out) return v;
  v.value = hunted.value;
  v.mass = hunted.put_off && by_mass ? hunted.value : mass_of(shared, candidate, v.design);
  v.passes = hunted.passes;
  v.over_cap = hunted.over_cap;
  if (v.over_cap) {
    const Cap& cap = shared.study().caps[*v.over_cap];
    v.has = over(shared, candidate, v.design, cap) * cap.at_most;
    v.needs = cap.at_most;
  }
  if (hunted.out_by) v.misses = shared.study().limits[*hunted.out_by].must;
  return v;
}

void take_judgement(const Study& study, const Judgement& judgement, CandidateVerdict& v) {
  v.margins = judgement.nominal;
  v.at_odds = judgement.judged;
  v.passes = judgement.all();
  v.misses.reset();
  const auto k = judgement.first_missed();
  if (!k) return;
  const Limit& limit = study.limits[*k];
  v.misses = limit.must;
  v.has = limit.value(judgement.judged[*k]);
  v.needs = limit.asked;
}

CandidateVerdict explain(const SharedPasses& shared, const Candidate& candidate, const Hunted& hunted) {
  CandidateVerdict v = brief(shared, candidate, hunted);
  if (v.ruled_out || v.over_cap) return v;
  std::optional<Judgement> known;
  if (!hunted.design) {
    Hunted own;
    v.design = *best_design(shared, candidate, asked_odds(shared.study()), own, &known);
  }
  v.value = aimed(shared, candidate, v.design, shared.study().aims.front());
  v.mass = mass_of(shared, candidate, v.design);
  v.torque = effort(shared, candidate, v.design);
  if (!known) known = hunted.refused;
  const Judgement judgement = known ? *known : shared.judge(candidate, v.design, asked_odds(shared.study()));
  take_judgement(shared.study(), judgement, v);
  if (v.passes && hunted.rare) {
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

const CandidateVerdict* nearest(const Answer& answer) {
  const CandidateVerdict* best = nullptr;
  const auto admitted = [&](const CandidateVerdict& v) {
    return !answer.relax.empty() && v.designation == answer.relax.front().admits;
  };
  const auto nearer = [&](const CandidateVerdict& a, const CandidateVerdict& b) {
    if (admitted(a) != admitted(b)) return admitted(a);
    return closest(*answer.study, a) > closest(*answer.study, b);
  };
  for (const CandidateVerdict& v : answer.candidates)
    if (!v.ruled_out && !v.at_odds.empty() && (!best || nearer(v, *best))) best = &v;
  return best;
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

std::vector<CandidateVerdict> lighter_sizes(const Study& study, const std::vector<CandidateVerdict>& candidates,
                                            const CandidateVerdict& pick) {
  std::map<std::string, CandidateVerdict> by_size;
  for (const CandidateVerdict& v : candidates) {
    if (v.ruled_out || v.value >= pick.value || !(v.over_cap || (v.misses && !v.at_odds.empty()))) continue;
    const auto [place, first] = by_size.emplace(v.designation, v);
    if (!first && nearer(study, pick, v, place->second)) place->second = v;
  }
  std::vector<CandidateVerdict> lighter;
  for (auto& [name, v] : by_size) lighter.push_back(std::move(v));
  std::stable_sort(lighter.begin(), lighter.end(), [](const auto& a, const auto& b) { return a.value > b.value; });
  return lighter;
}

}  // namespace studies
