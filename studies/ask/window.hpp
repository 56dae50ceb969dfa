#pragma once
/// The sizes beside the pick: too small breaks, too big cannot be turned.
#include <optional>
#include <vector>

#include "engine/pass/loop.hpp"
#include "studies/ask/hunt.hpp"

namespace studies {

/// Every diameter on the shelf with the pick's form, starts, materials, lubrication and face, the pitch nearest the
/// pick's (finer at a tie) and its own best nut by the aim, judged on the shared passes; by diameter, the pick as it
/// is. Of a free diameter the pick among 24 equally spaced ones of its range, at the pick's pitch and with its nut in
/// proportion to the diameter, or as typed. The pick alone where there is no other diameter.
/// @param pick  as explained
std::vector<Neighbour> size_window(const SharedPasses& shared, const Hunt& hunt, const CandidateVerdict& pick,
                                   const engine::Running& running);

/// The entry of a shelf's window next to the pick; none at its end.
std::optional<Neighbour> next_size(const std::vector<Neighbour>& window, const CandidateVerdict& pick, bool up);

}  // namespace studies
