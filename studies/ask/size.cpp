#include <algorithm>
#include <map>

#include "studies/ask/aim.hpp"
#include "studies/ask/explain.hpp"
#include "studies/ask/question.hpp"
#include "studies/ask/relax.hpp"
#include "studies/ask/room.hpp"
#include "studies/ask/trade_off.hpp"
#include "studies/ask/verdict.hpp"
#include "studies/ask/window.hpp"
#include "studies/read/not_checked.hpp"

namespace studies {
namespace {

/// Which candidates are to be explained in full: all where nothing passes, since something has to give; else the pick,
/// those that more passes put out, and those that may stand for a lighter size, of which each is told once.
std::vector<bool> to_explain(const Hunt& hunt) {
  std::vector<bool> full(hunt.candidates.size(), !hunt.pick);
  if (!hunt.pick) return full;
  const Candidate& pick = hunt.candidates[*hunt.pick];
  full[*hunt.pick] = true;
  std::map<std::string, std::vector<std::size_t>> sizes;
  for (std::size_t i = 0; i < full.size(); ++i) {
    const Hunted& h = hunt.hunted[i];
    if (h.examined && !h.out_by && !h.put_off) full[i] = true;
    if (h.out_by && h.value < hunt.hunted[*hunt.pick].value)
      sizes[models::designation(*hunt.candidates[i].thread)].push_back(i);
  }
  for (const auto& [size, all] : sizes) {
    const auto like = [&](std::size_t i) { return hunt.candidates[i].surface_index == pick.surface_index; };
    const bool any = std::any_of(all.begin(), all.end(), like);
    for (const std::size_t i : all) full[i] = full[i] || !any || like(i);
  }
  return full;
}

/// Verdicts of all candidates examined, in the order typed, explained on as many threads as asked.
std::vector<CandidateVerdict> explained(const SharedPasses& shared, const Hunt& hunt, const Asking& asking) {
  std::vector<std::size_t> shown;
  for (std::size_t i = 0; i < hunt.candidates.size(); ++i)
    if (hunt.hunted[i].examined || !hunt.candidates[i].why_not.empty()) shown.push_back(i);
  const std::vector<bool> full = to_explain(hunt);
  std::vector<CandidateVerdict> all;
  engine::Running running = asking.running;
  if (running.progress) running.progress = [&](double share) { asking.running.progress(0.5 + share / 4); };
  engine::run_chunks(
      shown.size(), running,
      [&](std::uint64_t i) {
        const std::size_t at = shown[i];
        return full[at] ? explain(shared, hunt.candidates[at], hunt.hunted[at])
                        : brief(shared, hunt.candidates[at], hunt.hunted[at]);
      },
      [&](CandidateVerdict& verdict) { all.push_back(std::move(verdict)); });
  return all;
}

void nothing_passes(const SharedPasses& shared, const Hunt& hunt, const Asking& asking, Answer& answer) {
  const Study& study = shared.study();
  answer.relax = relaxations(shared, hunt, answer.candidates, asking.running);
  for (Relaxation& cap : relaxed_caps(study, asking.running)) answer.relax.push_back(std::move(cap));
  std::stable_sort(answer.relax.begin(), answer.relax.end(), [](const Relaxation& a, const Relaxation& b) {
    return relative(a.was, a.to) < relative(b.was, b.to);
  });
  if (answer.relax.empty()) answer.no_single_change = least_missed(study, answer.candidates);
  answer.cautions = study.cautions;
  answer.not_checked = not_checked(study);
}

/// What the pick comes to by its aims and under its caps; odds as the verdict counted them.
void tell_aims(const Study& study, Answer& answer) {
  std::vector<double> nominal;
  for (const OutputSummary& output : answer.outputs) nominal.push_back(output.nominal);
  const auto comes_to = [&](const Quantity& of) {
    if (of.what == Quantity::What::odds) return answer.limits[*limit_of(study, of.must)].odds.estimate;
    return at_nominal(study, of, answer.pick->design, nominal);
  };
  for (const Aim& aim : study.aims) answer.aimed_at.push_back(comes_to(aim.of));
  for (const Cap& cap : study.caps) answer.under_caps.push_back(comes_to(cap.of));
}

bool anything_to_choose(const Hunt& hunt) {
  return hunt.candidates.size() > 1 || hunt.candidates.front().band || hunt.candidates.front().nut_range;
}

}  // namespace

Answer size(const Study& study, const Asking& asking) {
  if (!study.passes.settle) require_room(study, engine::whole_nets(plan_kind(study), study.passes.count));
  const SharedPasses shared(study, engine::Plan::Kind::sobol, shared_passes, engine::Stream::search,
                            asking.running.interrupted);
  Hunt hunted;
  hunted.candidates = candidates(study);
  if (!anything_to_choose(hunted)) {
    Answer answer = rate(study, asking);
    answer.sized = true;
    answer.search.candidates = answer.search.examined = 1;
    answer.search.proven = true;
    answer.search.model_calls = answer.passes;
    answer.candidates = {*answer.pick};
    return answer;
  }
  hunted = hunt(study, shared, asking);
  Answer answer;
  answer.study = &study;
  answer.sized = answer.searched = true;
  answer.search = hunted.report;
  answer.candidates = explained(shared, hunted, asking);
  if (!hunted.pick) {
    nothing_passes(shared, hunted, asking, answer);
    return answer;
  }
  const std::size_t pick = *hunted.pick;
  const auto shown = std::find_if(answer.candidates.begin(), answer.candidates.end(),
                                  [&](const CandidateVerdict& v) { return v.index == pick; });
  answer.pick = *shown;
  answer.lighter = lighter_sizes(study, answer.candidates, *answer.pick);
  const auto admit = admitted(shared, hunted, answer.candidates, answer.lighter, answer.pick->value, asking.running);
  for (std::size_t i = 0; i < admit.size(); ++i) answer.lighter[i].admit = admit[i];
  answer.window = size_window(shared, hunted, *answer.pick, asking.running);
  if (hunted.candidates[pick].thread) {
    answer.next_size_down = next_size(answer.window, *answer.pick, false);
    answer.next_size_up = next_size(answer.window, *answer.pick, true);
  }
  if (answer.next_size_down) answer.governs = answer.next_size_down->verdict.misses;
  Asking last = asking;
  if (asking.running.progress) last.running.progress = [&](double share) { asking.running.progress(0.75 + share / 4); };
  judge_fresh(study, hunted.candidates[pick], answer.pick->design, last.running, answer);
  answer.search.model_calls += answer.passes;
  tell_aims(study, answer);
  if (study.aims.size() < 2) return answer;
  TradeOff curve = trade_off(study, shared, asking);
  answer.trade_off = std::move(curve.points);
  answer.search.model_calls += curve.model_calls;
  return answer;
}

}  // namespace studies
