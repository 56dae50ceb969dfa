#pragma once
/// A free diameter and pitch (and nut length): the continuous part of the search, by NLopt from several starts.
#include "studies/ask/hunt.hpp"

namespace studies {

/// Starts of the local search in each band.
inline constexpr int band_starts = 8;

/// A lower bound of the mass in a band [kg]: least diameter, coarsest pitch, shortest nut.
double band_bound(const SharedPasses& shared, const Candidate& candidate);

/// The lightest design found in a band that passes on the shared passes; where none is found, the one least short.
/// @param hunted  its `passes` and `certain` are set: a search that finds nothing proves nothing
std::optional<models::Design> lightest_in_band(const SharedPasses& shared, const Candidate& candidate, Hunted& hunted);

}  // namespace studies
