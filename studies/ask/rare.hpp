#pragma once
/// Odds that the passes cannot count: which limits need them, what they are, and how they judge.
#include <optional>

#include "engine/pass/loop.hpp"
#include "models/screw/screw_model.hpp"
#include "studies/ask/answer.hpp"
#include "studies/ask/inputs.hpp"
#include "studies/ask/judge.hpp"

namespace studies {

/// Misses below which a count says little: 95 % bounds of a count of m lie about 1.96/√m of it away, which is more than
/// 30 % below 43.
inline constexpr std::uint64_t few_misses = 43;

/// Whether odds lie beyond what so many passes resolve: they allow fewer than `few_misses`.
bool beyond_passes(double odds, std::uint64_t passes);

/// Whether a count of independent passes and rare odds cannot both be right: the 99.99 % Clopper-Pearson bounds of the
/// one lie outside the bounds of the other. The count sees what the methods for rare odds may all have missed, as a jam
/// that nothing nearby foretells.
bool contradicts(std::uint64_t misses, std::uint64_t passes, const Bounded& shortfall);

/// Finds the rare odds of every limit with odds that fewer than `few_misses` passes miss and that something moves. A
/// limit whose odds asked lie beyond the passes is judged by them where they are trusted and the count does not
/// contradict them: its odds, has, spare, holds and bounds_straddle become theirs. Else the count stands.
///
/// `has` is then the margin at which the rare odds are those asked: solved for on the scale of the normal quantile, to
/// about 0.02 standard deviations, and always on the side that `holds` says.
/// @param answer  with outputs and limits judged on the passes
void judge_rare(const Study& study, const Surface& surface, const InputLaw& inputs, const models::ScrewModel& screw,
                const engine::Running& running, Answer& answer);

/// What a design misses by its rare odds.
struct RareMiss {
  std::size_t limit = 0;  ///< index into the study's limits
  double margin = 0;      ///< at the odds asked
};

/// Fresh passes and rare odds together, as judge_rare judges them.
struct FreshJudgement {
  bool holds = false;
  std::optional<RareMiss> rare;  ///< where it is the rare odds that say no
  std::uint64_t calls = 0;       ///< of margins, for the rare odds
};
FreshJudgement judge_confirming(const SharedPasses& fresh, const Candidate& candidate, const models::Design& design,
                                const engine::Running& running);

}  // namespace studies
