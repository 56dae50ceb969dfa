#pragma once
/// The only room that sees NLopt, wrapped so that no algorithm can lie: what it returns is re-evaluated here.
#include "engine/search/box.hpp"

namespace engine {

/// One search from one start. Same problem, start and options: same bits, on any thread, unless `status` says timed_out
/// or interrupted. The best point is ours, not the library's: of all points that hold the one with the least objective,
/// called once more before it is handed back unless it was the last.
/// @param start  moved into the box where it lies outside
/// @throws whatever `evaluate` throws; std::invalid_argument for a box without inside, a start of another size, or
///         `evolution` in an infinite box; std::logic_error when `evaluate` is no pure function
/// @source Powell (1994), Kraft (1988), Runarsson & Yao (2005), as NLopt carries them
BoxMinimum minimise(const BoxProblem& problem, const std::vector<double>& start, const BoxOptions& options = {});

}  // namespace engine
