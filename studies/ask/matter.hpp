#pragma once
/// What matters most for the task of a judged screw: whose scatter it is, and which half of it would be worth having.
#include <optional>

#include "engine/pass/loop.hpp"
#include "models/screw/screw_model.hpp"
#include "studies/ask/answer.hpp"
#include "studies/ask/inputs.hpp"

namespace studies {

/// Judged is the limit of the task (force of a clamp; torque or hand force of a lift) or, where no pass misses it, the
/// one with odds, misses and least to spare; failing that the task's again, then the tightest. Without limits it is the
/// force or torque over its nominal, and no shortfall.
///
/// Shares come from engine::share_passes nets of their own, shortfalls from the very passes of the verdict: about one
/// call of the judged margin for every input and pass.
/// @param answer  with its limits and outputs judged
/// @return none where nothing scatters
std::optional<Matter> what_matters(const Study& study, const InputLaw& inputs, const models::ScrewModel& screw,
                                   const Answer& answer, const engine::Running& running);

/// The limit judged, as above; null without limits.
const LimitVerdict* turning_point(const Answer& answer);

}  // namespace studies
