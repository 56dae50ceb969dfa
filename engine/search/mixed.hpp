#pragma once
/// Discrete choices enumerated with a bound, continuous ones sought inside each: least objective with proof that no
/// cell was left out that could hold a lesser one.
#include <functional>
#include <vector>

#include "engine/search/multistart.hpp"

namespace engine {

struct MixedProblem {
  std::vector<std::vector<double>> grids;  ///< values of each discrete choice; none of them may be empty
  /// The continuous problem once the discrete choices are made.
  std::function<BoxProblem(const std::vector<double>& chosen)> inside;
  /// A number that no point of a cell that holds has an objective below; not-a-number where nothing in it can hold.
  std::function<double(const std::vector<double>& chosen)> bound;
};

struct MixedMinimum {
  std::vector<double> chosen;  ///< discrete choices of the best cell; empty where nothing holds
  GlobalMinimum inner;         ///< of the best cell
  std::size_t cells = 0;       ///< all of them
  std::size_t impossible = 0;  ///< left out: nothing in them can hold
  std::size_t searched = 0;    ///< looked into; the rest have bounds above the best
  std::size_t empty = 0;       ///< of those looked into, without a point that holds
  int calls = 0;
  /// Expected share of starts, in the worst of the cells looked into, that lead to a minimum nobody has seen.
  double unseen = 0;
  BoxMinimum::Status status = BoxMinimum::Status::nothing_feasible;  ///< the best cell's, or the cut that ended it
};

/// Best-first over all cells of the grid: a cell is searched only while its bound is below the best found.
/// The proof is as good as the bounds and the inner searches: enumeration leaves no cell out, but a search within a
/// cell may miss its minimum by local tolerance, or by a minimum unseen. At equal objectives the cell that comes first.
/// @throws whatever the problem throws
MixedMinimum minimise_mixed(const MixedProblem& problem, const StartOptions& options = {});

}  // namespace engine
