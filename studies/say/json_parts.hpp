#pragma once
/// The parts of an answer's JSON object.
#include "studies/say/json_value.hpp"

namespace studies::say {

Json verdict_json(const Answer& answer);
/// Null where nothing passes.
Json pick_json(const Answer& answer, Notes& notes);
Json outputs_json(const Answer& answer, Notes& notes);
Json limits_json(const Answer& answer, Notes& notes);
Json search_json(const Answer& answer, Notes& notes);
Json lighter_json(const Answer& answer, Notes& notes);
/// Null where there is no such size.
Json neighbour_json(const Study& study, const std::optional<Neighbour>& neighbour, Notes& notes);
Json relax_json(const Answer& answer, Notes& notes);
/// What was aimed at, with what the pick comes to; without a search nothing was.
Json aims_json(const Answer& answer, Notes& notes);
Json caps_json(const Answer& answer, Notes& notes);
Json trade_off_json(const Answer& answer, Notes& notes);
/// A design as objects say it.
Json design_json(const CandidateVerdict& screw, Notes& notes);
Json reached_json(const Answer& answer, Notes& notes);
Json scatter_json(const Answer& answer);
/// Null where a number of passes was asked, or nothing passes.
Json settling_json(const Answer& answer, Notes& notes);
Json cautions_json(const Answer& answer);
Json provenance_json(const Answer& answer);

}  // namespace studies::say
