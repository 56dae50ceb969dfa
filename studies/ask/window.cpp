#include "studies/ask/window.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "studies/ask/aim.hpp"
#include "studies/ask/explain.hpp"

namespace studies {
namespace {

/// Diameters of a free range that are looked at.
constexpr std::size_t looked_at = 24;

/// Candidates with the pick's form and surface on another thread.
bool same_but_size(const Candidate& a, const Candidate& pick) {
  return a.thread && a.thread->form == pick.thread->form && a.starts == pick.starts &&
         a.surface_index == pick.surface_index;
}

/// Of several nuts of one size: the best by the aim that passes, else the longest.
bool preferred(const CandidateVerdict& a, const CandidateVerdict& b) {
  if (a.passes != b.passes) return a.passes;
  return a.passes ? a.value < b.value : a.design.nut_length > b.design.nut_length;
}

/// A candidate with its own best nut, or as more passes or rare odds refused it.
CandidateVerdict own_best(const SharedPasses& shared, const Hunt& hunt, const Candidate& candidate) {
  const Hunted& seen = hunt.hunted[candidate.index];
  if (seen.refused || seen.rare) return explain(shared, candidate, seen);
  Hunted own;
  std::optional<Judgement> known;
  own.design = best_design(shared, candidate, asked_odds(shared.study()), own, &known);
  own.refused = known;  // the judgement that `explain` need not take again
  return explain(shared, candidate, own);
}

/// Candidates of one diameter that may stand for it: those of the pitch nearest the pick's, the finer at a tie.
using Size = std::vector<const Candidate*>;

std::vector<Size> sizes_of(const Hunt& hunt, const Candidate& pick) {
  const double P = pick.thread->pitch;
  const auto nearer = [&](double a, double b) {
    const double da = std::abs(a - P), db = std::abs(b - P);
    return std::abs(da - db) > 1e-9 ? da < db : a < b;
  };
  std::map<double, Size> by_diameter;
  for (const Candidate& c : hunt.candidates) {
    if (!same_but_size(c, pick)) continue;
    Size& size = by_diameter[c.thread->diameter];
    const double pitch = c.thread->pitch;
    if (!size.empty() && nearer(pitch, size.front()->thread->pitch)) size.clear();
    if (size.empty() || pitch == size.front()->thread->pitch) size.push_back(&c);
  }
  std::vector<Size> all;
  for (auto& [diameter, size] : by_diameter) all.push_back(std::move(size));
  return all;
}

/// The best that can be said of a diameter.
CandidateVerdict best_of(const SharedPasses& shared, const Hunt& hunt, const Size& size) {
  std::optional<CandidateVerdict> best;
  for (const Candidate* c : size) {
    CandidateVerdict verdict = own_best(shared, hunt, *c);
    if (!best || preferred(verdict, *best)) best = std::move(verdict);
  }
  return *best;
}

/// The pick's thread and nut at another diameter of its range.
CandidateVerdict at_diameter(const SharedPasses& shared, const Candidate& candidate, const CandidateVerdict& pick,
                             double diameter) {
  const Study& study = shared.study();
  CandidateVerdict v;
  v.index = pick.index;
  v.design.thread.diameter = diameter;
  try {
    const models::Thread thread = thread_in(study, candidate, diameter, pick.design.thread.pitch);
    double length = candidate.nut_range ? pick.design.nut_length * diameter / pick.design.thread.diameter
                                        : candidate.nut_length->of(diameter);
    if (candidate.nut_range) {
      const auto [from, to] = nut_bounds(candidate, thread);
      length = std::min(std::max(length, from), to);
    }
    v.design = design_of(study, candidate, thread, length);
    v.designation = models::designation(thread);
    v.why = unbuildable(study, v.design);
  } catch (const engine::Refusal& refusal) {
    v.why = refusal.problems().front().problem;
  }
  v.ruled_out = !v.why.empty();
  if (v.ruled_out) return v;
  v.examined = true;
  v.value = aimed(shared, candidate, v.design, study.aims.front());
  v.mass = mass_of(shared, candidate, v.design);
  v.torque = effort(shared, candidate, v.design);
  v.over_cap = over_cap(shared, candidate, v.design);
  take_judgement(study, shared.judge(candidate, v.design, asked_odds(study)), v);
  v.passes = v.passes && !v.over_cap;
  return v;
}

/// So many verdicts, each on its own, on as many threads as asked.
template <class Verdict>
std::vector<Neighbour> window_of(const Study& study, std::size_t count, const engine::Running& running,
                                 Verdict verdict) {
  std::vector<Neighbour> window;
  engine::run_chunks(
      count, {running.threads, {}, running.interrupted}, [&](std::uint64_t i) { return verdict(i); },
      [&](CandidateVerdict& it) {
        std::vector<models::Must> misses = it.passes ? std::vector<models::Must>{} : all_missed(study, it);
        window.push_back({std::move(it), std::move(misses)});
      });
  return window;
}

/// The pick holds by more passes than the shared ones, which may not be enough to tell.
CandidateVerdict as_picked(CandidateVerdict pick) {
  pick.passes = true;
  pick.misses.reset();
  return pick;
}

std::vector<Neighbour> free_window(const SharedPasses& shared, const Candidate& candidate, const CandidateVerdict& pick,
                                   const engine::Running& running) {
  const Range& range = candidate.band->diameter;
  std::vector<double> diameters = {pick.design.thread.diameter};
  for (std::size_t i = 0; i < looked_at && !range.fixed(); ++i)
    diameters.push_back(range.from +
                        (range.to - range.from) * static_cast<double>(i) / static_cast<double>(looked_at - 1));
  std::sort(diameters.begin(), diameters.end());
  diameters.erase(std::unique(diameters.begin(), diameters.end()), diameters.end());
  return window_of(shared.study(), diameters.size(), running, [&](std::uint64_t i) {
    const bool is_pick = diameters[i] == pick.design.thread.diameter;
    return is_pick ? as_picked(pick) : at_diameter(shared, candidate, pick, diameters[i]);
  });
}

}  // namespace

std::vector<Neighbour> size_window(const SharedPasses& shared, const Hunt& hunt, const CandidateVerdict& pick,
                                   const engine::Running& running) {
  const Candidate& picked = hunt.candidates[*hunt.pick];
  if (!picked.thread) return free_window(shared, picked, pick, running);
  const std::vector<Size> sizes = sizes_of(hunt, picked);
  return window_of(shared.study(), sizes.size(), running, [&](std::uint64_t i) {
    const bool is_pick = sizes[i].front()->thread->diameter == picked.thread->diameter;
    return is_pick ? as_picked(pick) : best_of(shared, hunt, sizes[i]);
  });
}

std::optional<Neighbour> next_size(const std::vector<Neighbour>& window, const CandidateVerdict& pick, bool up) {
  const auto at = std::find_if(window.begin(), window.end(), [&](const Neighbour& it) {
    return it.verdict.design.thread.diameter == pick.design.thread.diameter;
  });
  if (at == window.end() || (up ? at + 1 == window.end() : at == window.begin())) return std::nullopt;
  return up ? *(at + 1) : *(at - 1);
}

}  // namespace studies
