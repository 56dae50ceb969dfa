#include "engine/search/best_first.hpp"

#include <algorithm>
#include <cmath>
#include <queue>

namespace engine {
namespace {

constexpr double tie = 1e-9;

struct Entry {
  Standing standing;
  std::size_t index;
  /// Least value first; at equal values the one further looked at, then the one typed first.
  bool operator<(const Entry& other) const {
    if (standing.value != other.standing.value) return standing.value > other.standing.value;
    if (standing.stage != other.standing.stage) return standing.stage < other.standing.stage;
    return index > other.index;
  }
};

}  // namespace

bool alike(double a, double b) {
  if (std::isinf(a) || std::isinf(b)) return a == b;
  return std::abs(a - b) <= tie * std::max(std::abs(a), std::abs(b));
}

std::vector<std::size_t> best_first(const std::vector<double>& bounds,
                                    const std::function<std::optional<Standing>(std::size_t, Standing)>& look) {
  std::priority_queue<Entry> queue;
  for (std::size_t i = 0; i < bounds.size(); ++i)
    if (!std::isnan(bounds[i])) queue.push({{Stage::bounded, bounds[i]}, i});
  std::vector<std::size_t> winners;
  std::optional<double> least;
  while (!queue.empty() && (!least || queue.top().standing.value <= *least + tie * std::abs(*least))) {
    const Entry entry = queue.top();
    queue.pop();
    if (entry.standing.stage == Stage::confirmed) {
      winners.push_back(entry.index);
      if (!least) least = entry.standing.value;
    } else if (const std::optional<Standing> next = look(entry.index, entry.standing)) {
      queue.push({{next->stage, std::max(next->value, entry.standing.value)}, entry.index});
    }
  }
  std::sort(winners.begin(), winners.end());
  return winners;
}

}  // namespace engine
