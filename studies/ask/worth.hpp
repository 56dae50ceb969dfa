#pragma once
/// What each choice is worth: a judged screw with one thing chosen otherwise, beside the screw as it is.
#include <vector>

#include "engine/pass/loop.hpp"
#include "studies/ask/answer.hpp"
#include "studies/ask/candidates.hpp"

namespace studies {

/// Every single change (see `single_changes`) and what it does to the force of a clamp or the torque that a lift takes.
///
/// Both screws are put through the same uniforms: the pull, the strengths and whatever else was typed are the same on
/// both, and each friction stands at the same place of its range, whatever its range is with the surface chosen. The
/// parts of an input follow from the study alone (a friction of the handbook is one part for any pair), so that all
/// surfaces have the same uniforms in the same order. Where a `correlation` of values ties a friction, the normals'
/// correlation depends on the shape, and the place is the same but for that.
///
/// A limit with odds is missed by more passes than its odds allow. Where the verdict has the pick hold it, more than
/// the pick misses on these passes; where not, a changed screw holds it only with fewer misses than the pick, so that
/// what does not bear on a limit does not change it. What has no value for the changed screw is not judged: `why`.
/// @param screw     the pick's
/// @param verdicts  on the pick, one a limit of the study
/// @return most helpful first by the mean over the passes; what cannot be built last
std::vector<Worth> worth_of_choices(const Study& study, const models::Design& screw,
                                    const std::vector<LimitVerdict>& verdicts, const engine::Running& running);

/// The output that is compared: force of a clamp, torque of a lift.
models::Output compared_output(const models::Duty& duty);

}  // namespace studies
