#pragma once
/// What a screw is sought by: quantities of one design, how they go with the length of its nut, and caps on them.
#include <limits>
#include <optional>
#include <string>

#include "studies/ask/judge.hpp"
#include "studies/ask/nut_length.hpp"

namespace studies {

/// As studies type it: "mass", "nut_length", "margin.buckling", "odds.force".
std::string name(const Quantity& quantity);
engine::Dimension dimension_of(const Quantity& quantity);
/// What a candidate misses by name: "buckling", of a cap "cap.turns"; empty where nothing.
std::string missed_name(const Study& study, const CandidateVerdict& verdict);

/// The limit of a name among the study's, by its place; none where it is not asked.
std::optional<std::size_t> limit_of(const Study& study, models::Must must);

/// The force that a clamp is asked for [N]: the duty's, else the least that [must] says.
std::optional<double> force_asked(const Study& study);

/// Every quantity but odds at nominal. Torque and hand force are those for the force asked (a lift's: its load), of a
/// clamp without one those of the drive.
/// @param nominal  outputs and margins at nominal of the design's model
double at_nominal(const Study& study, const Quantity& quantity, const models::Design& design,
                  const std::vector<double>& nominal);

/// What is to be made least: the quantity, or minus it; odds to be made most as the share of misses.
double aimed(const SharedPasses& shared, const Candidate& candidate, const models::Design& design, const Aim& aim);

/// The quantity itself from a value of `aimed`.
double quantity_of(const Aim& aim, double aimed);

/// Whether what is aimed at grows or falls when the nut is made longer, everything else held.
enum class Goes { up, down, level, unsteady };
/// The same without sign: of the quantity.
Goes with_length(const Study& study, const Quantity& quantity);
Goes with_length(const Study& study, const Aim& aim);

/// The aim that the length of a nut is chosen by: the first that it moves, else the first.
const Aim& deciding_aim(const Study& study);

/// Whether what is aimed at goes up in a straight line with the length of the nut.
bool straight_with_length(const Aim& aim);

/// Mass of a design [kg].
double mass_of(const SharedPasses& shared, const Candidate& candidate, const models::Design& design);
/// What decides between equals: nominal torque [N·m] for the force asked (a lift's: its load), of a clamp without one
/// minus its most nominal force, so that less is better either way.
double effort(const SharedPasses& shared, const Candidate& candidate, const models::Design& design);

/// What a design comes to as a share of a cap.
double over(const SharedPasses& shared, const Candidate& candidate, const models::Design& design, const Cap& cap);
/// A cap that a design exceeds, by its place among the study's; none where it keeps to all.
std::optional<std::size_t> over_cap(const SharedPasses& shared, const Candidate& candidate,
                                    const models::Design& design);
/// A cap that keeps a candidate from being used with any nut; none where some nut keeps to all.
std::optional<std::size_t> over_cap(const SharedPasses& shared, const Candidate& candidate,
                                    const models::Thread& thread);

/// The lengths of a ranged nut [m] at which a candidate keeps to every cap, all of them between the two; from above to
/// where there are none.
std::pair<double, double> nut_room(const SharedPasses& shared, const Candidate& candidate,
                                   const models::Thread& thread);

}  // namespace studies
