#pragma once
/// The further sweeps: exact values of ranks, fetched from the histogram bins that hold them.
#include <vector>

#include "engine/pass/span.hpp"

namespace engine {

/// Values held in memory at once while ranks are fetched, all outputs together.
inline constexpr std::uint64_t fetch_budget = std::uint64_t{1} << 21;

/// The values of the ranks sought, exact. While the spans that hold them have more values than the budget, a sweep more
/// cuts them 256 times finer; values that are many times the same need no fetching. So memory does not grow with the
/// passes, and the sweeps do so by one for each factor of about 250 (8 more at the very most).
/// @param sought  of outputs without missing values, each rank from 1 to the passes
/// @param budget  when to change: only to test it
std::vector<double> fetch(const std::vector<Sought>& sought, const Counts& counts, const Passed& passed,
                          const Running& running, std::uint64_t budget = fetch_budget);

}  // namespace engine
