#pragma once
/// What would help most: the paragraph, and the key `matters` of the JSON object.
#include "studies/ask/answer.hpp"
#include "studies/say/json_value.hpp"

namespace studies::say {

/// "What would help most: knowing thread and face friction better. Halving that scatter takes the shortfall from
/// 3.12 to 0.28 in 100; halving that of hand force leaves 2.55." Says so where nothing helps, where no pass falls
/// short, and where the passes cannot tell which of two helps more; empty where nothing scatters.
std::string what_helps(const Answer& answer);

/// "thread and face friction", "hand force".
std::string inputs_words(const MatterInput& it);

/// {"judged", "limit", "reason", "shortfall", "by_input", "by_class"}, or null.
Json matters_json(const Answer& answer, Notes& notes);

}  // namespace studies::say
