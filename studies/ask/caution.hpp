#pragma once
/// What the answer must warn of, each with what triggered it, and what was assumed and not typed.
#include "studies/ask/answer.hpp"
#include "studies/ask/inputs.hpp"

namespace studies {

/// Adds the study's own cautions, those that the passes trigger, the assumptions and the list of what was not checked.
void add_cautions(const Study& study, const models::ScrewModel& model, const InputLaw& inputs, Answer& answer);

}  // namespace studies
