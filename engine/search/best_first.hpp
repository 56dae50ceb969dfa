#pragma once
/// Search with proof: candidates in order of a lower bound of their objective, each looked at only when no other can
/// still beat it.
#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

namespace engine {

/// How far a candidate has been looked at. Its value never falls from one stage to the next.
enum class Stage {
  bounded,   ///< its value is a lower bound
  judged,    ///< it passes on the shared passes, and its value is exact
  confirmed  ///< it passes on fresh passes too
};

struct Standing {
  Stage stage = Stage::bounded;
  double value = 0;
};

/// Whether two values are equal but for rounding: 1e-9 of the larger.
bool alike(double a, double b);

/// The candidates that win: those confirmed with the least value, ties (1e-9 relative) included, in order of index.
/// Empty when none passes.
/// @param bounds  a lower bound of each candidate's value; not-a-number leaves a candidate out
/// @param look    takes a candidate from its stage to the next; nothing when it is out. A judged candidate that fails
///                on fresh passes may come back judged with a larger value.
/// Proof: every candidate whose bound is below the winners' value has been looked at and is out, or is dearer.
std::vector<std::size_t> best_first(const std::vector<double>& bounds,
                                    const std::function<std::optional<Standing>(std::size_t, Standing)>& look);

}  // namespace engine
