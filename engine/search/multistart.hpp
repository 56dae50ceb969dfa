#pragma once
/// Global search: local searches from many starts, and how many minima they may have left unseen.
#include <vector>

#include "engine/search/nlopt_once.hpp"

namespace engine {

struct StartOptions {
  BoxOptions local;        ///< of each search; its `seconds` is the cap of all of them together
  std::size_t least = 8;   ///< searches made whatever they find; 8, 16, 32 … are begun at a time
  std::size_t most = 256;  ///< cap on searches; raise when `unseen` says that minima may be missing
  /// Points tried for each start, of which the best becomes it. Raise where most of the box holds nothing.
  std::size_t tried = 4;
  /// Searches begun anew at the end of the first while that gains, so many at most, since one may stop too soon.
  int again = 4;
  Method finish = Method::linear_models;  ///< of those begun anew
  double alike = 1e-3;    ///< minima nearer than this share of the box's sides, and of their objective, are one
  std::uint64_t key = 1;  ///< of the starts
  unsigned threads = 1;   ///< the answer does not depend on it; above 1, `evaluate` is called from several at once
};

struct GlobalMinimum {
  BoxMinimum
      best;       ///< its status is that of the whole: converged when the stopping rule was met, capped when `most` was
  int calls = 0;  ///< of the model, all told
  std::size_t searches = 0;  ///< begun and ended
  std::size_t holding = 0;   ///< of which ended at a point that holds
  std::size_t agreeing = 0;  ///< of which ended at the best
  std::size_t minima = 0;    ///< different ones that hold
  /// Expected share of starts that lead to a minimum nobody has seen: w(w + 1)/(N(N − 1)) for w minima of N searches.
  double unseen = 1;
};

/// Least objective over the box, from scrambled Sobol' starts (of each `tried` points the best: one that holds before
/// one that does not, then the lesser objective, or violation). Searches are added until the expected number of minima,
/// w(N − 1)/(N − w − 2), is below w + 1/2. That is a rule, no proof: where every search must find the minimum,
/// enumerate or bound it (mixed.hpp). Same problem and options: same bits on any number of threads, unless
/// `best.status` says timed_out or interrupted.
/// @throws whatever `evaluate` throws; std::invalid_argument for a box that is not finite
/// @source Boender & Rinnooy Kan, Mathematical Programming 37 (1987): stopping rule and unseen share, from memory
GlobalMinimum minimise_globally(const BoxProblem& problem, const StartOptions& options = {});

/// Scrambled Sobol' points first … first + count − 1 of a box.
std::vector<std::vector<double>> sobol_starts(const BoxProblem& problem, std::uint64_t key, std::size_t first,
                                              std::size_t count);

}  // namespace engine
