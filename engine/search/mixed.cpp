#include "engine/search/mixed.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "engine/search/best_first.hpp"

namespace engine {
namespace {

using Status = BoxMinimum::Status;

/// Cell `index` of the grid, the last choice running fastest.
std::vector<double> cell(const std::vector<std::vector<double>>& grids, std::size_t index) {
  std::vector<double> chosen(grids.size());
  for (std::size_t g = grids.size(); g-- > 0; index /= grids[g].size()) chosen[g] = grids[g][index % grids[g].size()];
  return chosen;
}

}  // namespace

MixedMinimum minimise_mixed(const MixedProblem& problem, const StartOptions& options) {
  MixedMinimum answer;
  answer.cells = 1;
  for (const std::vector<double>& grid : problem.grids) answer.cells *= grid.size();
  std::vector<double> bounds(answer.cells);
  for (std::size_t i = 0; i < answer.cells; ++i) {
    bounds[i] = problem.bound(cell(problem.grids, i));
    if (std::isnan(bounds[i])) ++answer.impossible;
  }
  std::map<std::size_t, GlobalMinimum> inner;
  Status cut = Status::converged;
  const auto look = [&](std::size_t i, Standing at) -> std::optional<Standing> {
    if (at.stage == Stage::judged) return Standing{Stage::confirmed, at.value};
    if (cut_short(cut)) return {};
    GlobalMinimum found = minimise_globally(problem.inside(cell(problem.grids, i)), options);
    ++answer.searched;
    answer.calls += found.calls;
    if (cut_short(found.best.status)) cut = found.best.status;
    if (!found.best.holds) return ++answer.empty, std::nullopt;
    answer.unseen = std::max(answer.unseen, found.unseen);
    const double value = found.best.objective;
    inner.emplace(i, std::move(found));
    return Standing{Stage::judged, value};
  };
  const std::vector<std::size_t> winners = best_first(bounds, look);
  if (!winners.empty()) {
    answer.chosen = cell(problem.grids, winners.front());
    answer.inner = inner.at(winners.front());
    answer.status = answer.inner.best.status;
  }
  if (cut_short(cut)) answer.status = cut;
  return answer;
}

}  // namespace engine
