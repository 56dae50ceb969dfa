#pragma once
/// Which of the minima that searches ended at are one.
#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "engine/search/box.hpp"

namespace engine {

/// Minima that hold, each once, with how many searches ended there. Two are one where they differ by less than the
/// share `alike` of the box's sides and of their objective.
class Minima {
public:
  Minima(const BoxProblem& problem, double alike) : problem_(problem), alike_(alike) {}

  void add(const BoxMinimum& found) {
    for (auto& [known, times] : all_)
      if (same(known, found)) {
        ++times;
        if (better(found, known)) known = found;
        return;
      }
    all_.emplace_back(found, 1);
  }
  std::size_t size() const { return all_.size(); }
  std::size_t agreeing(const BoxMinimum& best) const {
    std::size_t count = 0;
    for (const auto& [known, times] : all_)
      if (same(known, best)) count += times;
    return count;
  }

private:
  bool same(const BoxMinimum& a, const BoxMinimum& b) const {
    const double size = std::max({std::abs(a.objective), std::abs(b.objective), 1e-12});
    if (std::abs(a.objective - b.objective) > alike_ * size) return false;
    for (std::size_t d = 0; d < a.x.size(); ++d)
      if (std::abs(a.x[d] - b.x[d]) > alike_ * (problem_.upper[d] - problem_.lower[d])) return false;
    return true;
  }

  const BoxProblem& problem_;
  double alike_;
  std::vector<std::pair<BoxMinimum, std::size_t>> all_;
};

}  // namespace engine
