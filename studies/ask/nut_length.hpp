#pragma once
/// The lightest nut of a candidate whose nut length is free within a range.
#include <optional>

#include "studies/ask/judge.hpp"

namespace studies {

/// How a limit's margin moves when the nut is made longer, everything else held.
enum class WithLength { proportional, independent, never_falls, never_rises, mixed };

/// Whether the column's free length is counted to mid-nut, so that it grows with the nut.
bool column_grows(const models::Duty& duty);

/// Of what goes first this is said of whether it holds, the margin being 1 or not: with drag a margin beyond 1 may
/// still move towards the ratio that it has without. From the formulas: bearing pressure and stripping stresses go as
/// 1/L; torque, friction and the stresses of the body have no L in them; the first turn's share and the hoop stress
/// never grow with L; a column whose free length is counted to mid-nut never gets stiffer; the mass never falls. What
/// goes first: stripping gains with L as much as anything does, the body nothing, a column nothing or less; the thread
/// root and the nut's body gain up to some length.
WithLength with_length(const Study& study, const models::Limit& limit);

/// Whether a longer nut helps a limit or leaves it alone.
bool helped(WithLength with);

struct NutLength {
  double length = 0;    ///< [m]
  bool passes = false;  ///< every limit holds on the shared passes
  bool certain = true;  ///< when it does not pass: no length in the range would (false where only a search says so, and
                        ///< where a better one may lie between those tried)
  std::optional<Judgement> judgement;  ///< of that length, where it is known without another sweep
};

/// The length that serves the study's first aim best among those at which every limit holds: the least where the aim
/// gets worse with length, or does not care; the longest where it gets better (where a share of passes stands at its
/// best, the least that keeps it there). Of an aim, or limits, that both win and lose by length the best of 33 lengths.
/// Where a step was typed, then the next of its multiples on the side that holds.
NutLength best_nut(const SharedPasses& shared, const Candidate& candidate, const models::Thread& thread,
                   const std::vector<std::optional<double>>& odds);

/// The least length in the range, and within the study's caps, at which every limit holds; where none does, the least
/// that the limits driven by it want (at most the range's end), so that what else is missed can be said. For limits
/// whose margin is proportional to the length each pass has its own least length and the odds pick an order statistic
/// of those, so that one sweep at the longest nut tells all; monotone ones are bisected; a mixed one is searched for
/// (NLopt).
NutLength least_nut(const SharedPasses& shared, const Candidate& candidate, const models::Thread& thread,
                    const std::vector<std::optional<double>>& odds);

}  // namespace studies
