#include "studies/ask/relax.hpp"

#include <algorithm>
#include <cmath>
#include <memory>

#include "models/thread/designation.hpp"
#include "studies/ask/explain.hpp"
#include "studies/ask/trial.hpp"

namespace studies {
namespace {

constexpr double anything = std::numeric_limits<double>::infinity();

using Verdicts = std::vector<const CandidateVerdict*>;

bool judged(const CandidateVerdict& v) { return !v.ruled_out && !v.at_odds.empty(); }

/// Those that miss something, the nearest to passing first: by the limit that changes, else by the worst of all.
Verdicts by_nearness(const Study& study, Change change, const std::vector<CandidateVerdict>& verdicts) {
  std::vector<std::pair<double, const CandidateVerdict*>> near;
  for (const CandidateVerdict& v : verdicts)
    if (judged(v) && v.misses)
      near.emplace_back(change.kind == Change::Kind::limit ? v.at_odds[change.limit] : closest(study, v), &v);
  // What is not a number comes last, so that the order is one.
  const auto first = [](const auto& a, const auto& b) {
    return a.first > b.first || (std::isnan(b.first) && !std::isnan(a.first));
  };
  std::stable_sort(near.begin(), near.end(), first);
  Verdicts sorted;
  for (const auto& [margin, v] : near) sorted.push_back(v);
  return sorted;
}

Relaxation relaxation(const Study& study, Change change, double to, const std::string& admits) {
  const Terms in = terms(study, change);
  Relaxation r;
  if (change.kind == Change::Kind::limit) r.must = study.limits[change.limit].must;
  r.to = to;
  r.was = in.was;
  r.dimension = in.dimension;
  r.of_margin = in.of_margin;
  r.admits = admits;
  r.kind = change.kind;
  return r;
}

double share_of(const Relaxation& r) { return relative(r.was, r.to); }

/// The least change of one kind, among candidates tried one after the other: each has to beat the best so far.
class Least {
public:
  Least(const TrialPasses& passes, const Hunt& hunt, Change change, double below, double share)
      : passes_(passes), hunt_(hunt), study_(passes.shared.study()), change_(change), below_(below), share_(share) {}

  void look(const CandidateVerdict& verdict) {
    const Trial trial(passes_, hunt_.candidates[verdict.index], verdict, change_, below_);
    const std::optional<double> end = trial.end();
    if (!end) return;
    const double was = terms(study_, change_).was;
    double far = *end;
    if (relative(was, far) >= share_) {
      if (trial.end_is_exact()) return;
      far = as_said(study_, change_, far > was ? was * (1 + share_) : was * (1 - share_));
    }
    if (!trial.possible(far)) return;
    const std::optional<double> nut = trial.nut_on_shared(at(far));
    const std::optional<double> to = nut ? trial.least(far, *nut, share_) : std::nullopt;
    if (!to) return;
    share_ = relative(was, *to);
    best_ = relaxation(study_, change_, *to, verdict.designation);
  }

  const std::optional<Relaxation>& best() const { return best_; }

private:
  /// The passes under a change, kept for the next candidate tried at the same.
  const ChangedPasses& at(double to) {
    if (!at_ || at_->to != to) at_ = std::make_unique<ChangedPasses>(passes_, change_, to);
    return *at_;
  }

  const TrialPasses& passes_;
  const Hunt& hunt_;
  const Study& study_;
  const Change change_;
  const double below_;
  double share_;  ///< of what was, to be beaten
  std::optional<Relaxation> best_;
  std::unique_ptr<ChangedPasses> at_;
};

/// The same size on the same surface, with whatever nut.
Verdicts variants(const Hunt& hunt, const std::vector<CandidateVerdict>& verdicts, const CandidateVerdict& of) {
  Verdicts same;
  for (const CandidateVerdict& v : verdicts)
    if (judged(v) && v.misses && v.designation == of.designation &&
        hunt.candidates[v.index].surface_index == hunt.candidates[of.index].surface_index)
      same.push_back(&v);
  return same;
}

std::optional<Relaxation> admits(const TrialPasses& passes, const Hunt& hunt, const Verdicts& same, double below) {
  std::optional<Relaxation> best;
  for (const Change change : changes(passes.shared.study())) {
    Least least(passes, hunt, change, below, best ? share_of(*best) : anything);
    for (const CandidateVerdict* v : same) least.look(*v);
    if (least.best()) best = least.best();
  }
  return best;
}

engine::Running without_progress(engine::Running running) {
  running.progress = nullptr;
  return running;
}

}  // namespace

std::vector<Relaxation> relaxations(const SharedPasses& shared, const Hunt& hunt,
                                    const std::vector<CandidateVerdict>& verdicts, const engine::Running& running) {
  const TrialPasses passes(shared, false);
  const std::vector<Change> all = changes(shared.study());
  std::vector<Relaxation> ranked;
  engine::run_chunks(
      all.size(), without_progress(running),
      [&](std::uint64_t i) {
        Least least(passes, hunt, all[i], anything, anything);
        for (const CandidateVerdict* v : by_nearness(shared.study(), all[i], verdicts)) least.look(*v);
        return least.best();
      },
      [&](const std::optional<Relaxation>& best) {
        if (best) ranked.push_back(*best);
      });
  std::stable_sort(ranked.begin(), ranked.end(),
                   [](const Relaxation& a, const Relaxation& b) { return share_of(a) < share_of(b); });
  return ranked;
}

std::vector<std::optional<Relaxation>> admitted(const SharedPasses& shared, const Hunt& hunt,
                                                const std::vector<CandidateVerdict>& verdicts,
                                                const std::vector<CandidateVerdict>& lighter, double pick_value,
                                                const engine::Running& running) {
  const auto of_one = [&](const CandidateVerdict& v) {
    return hunt.candidates[v.index].surface_index == hunt.candidates[lighter.front().index].surface_index;
  };
  const TrialPasses passes(shared, std::all_of(lighter.begin(), lighter.end(), of_one));
  std::vector<std::optional<Relaxation>> all;
  engine::run_chunks(
      lighter.size(), without_progress(running),
      [&](std::uint64_t i) { return admits(passes, hunt, variants(hunt, verdicts, lighter[i]), pick_value); },
      [&](std::optional<Relaxation>& least) { all.push_back(std::move(least)); });
  return all;
}

std::vector<Relaxation> relaxed_caps(const Study& study, const engine::Running& running) {
  std::vector<Relaxation> all;
  for (std::size_t k = 0; k < study.caps.size(); ++k) {
    Study without = study;
    without.caps.erase(without.caps.begin() + static_cast<std::ptrdiff_t>(k));
    without.aims = {{study.caps[k].of, false}};
    const SharedPasses shared(without, engine::Plan::Kind::sobol, shared_passes, engine::Stream::search,
                              running.interrupted);
    Asking asking;
    asking.running = without_progress(running);
    const Hunt found = hunt(without, shared, asking);
    if (!found.pick) continue;
    const Change change{Change::Kind::cap, k};
    const models::Design& design = *found.hunted[*found.pick].design;
    all.push_back(relaxation(study, change, as_said(study, change, found.hunted[*found.pick].value),
                             models::designation(design.thread)));
    all.back().cap = k;
  }
  return all;
}

std::vector<models::Must> least_missed(const Study& study, const std::vector<CandidateVerdict>& verdicts) {
  std::vector<models::Must> least;
  bool any = false;
  for (const CandidateVerdict& v : verdicts) {
    if (!judged(v)) continue;
    std::vector<models::Must> missed = all_missed(study, v);
    if (!any || missed.size() < least.size()) least = std::move(missed);
    any = true;
  }
  return least;
}

}  // namespace studies
