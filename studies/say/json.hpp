#pragma once
/// The answer as a script reads it: one object on one line, without a line end.
#include <string>

#include "engine/base/error.hpp"
#include "studies/ask/answer.hpp"

namespace studies {

/// One object with every key of the published shape; SI values; what is infinite or does not exist is null, with a
/// reason in `notes`. An answer of `rate` leaves out the keys of the search.
std::string answer_json(const Answer& answer);

/// The object that stands for a study that could not be answered.
/// @param study  its path as typed
std::string errors_json(const std::string& study, const engine::Refusal& refusal);

}  // namespace studies
