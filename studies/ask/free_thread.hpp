#pragma once
/// A free diameter and pitch (and nut length): the continuous part of the search, by NLopt from several starts.
#include "studies/ask/hunt.hpp"

namespace studies {

/// Starts of the local search in each band.
inline constexpr int band_starts = 8;

/// A lower bound of what is aimed at in a band: of the mass from least diameter, coarsest pitch and shortest nut; of
/// another aim nothing better than minus infinity is known.
double band_bound(const SharedPasses& shared, const Candidate& candidate, const Aim& aim);

/// The best design by the first aim found in a band that passes on the shared passes; where none is found, the one
/// least short.
/// @param hunted  its `passes` and `certain` are set: a search that finds nothing proves nothing
std::optional<models::Design> best_in_band(const SharedPasses& shared, const Candidate& candidate, Hunted& hunted);

}  // namespace studies
