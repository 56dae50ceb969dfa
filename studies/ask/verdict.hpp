#pragma once
/// The verdict on one screw: fresh passes through it, every output summarised and every limit judged.
#include "engine/pass/loop.hpp"
#include "studies/ask/answer.hpp"
#include "studies/ask/candidates.hpp"

namespace studies {

/// Fills outputs, limits, scatter, passes, clipped, jammed, hundred, reached, tightest, what matters, what other
/// choices are worth and the kept passes of the answer.
/// @param candidate  what is judged, its design given
void judge_fresh(const Study& study, const Candidate& candidate, const models::Design& design,
                 const engine::Running& running, Answer& answer);

}  // namespace studies
