#pragma once
/// What another choice would do: the paragraph, and the key `worth` of the JSON object.
#include "studies/ask/answer.hpp"
#include "studies/say/json_value.hpp"

namespace studies::say {

/// "What another choice would do, at the same pull and each friction at the same place of its range: a rolling
/// bearing of the same radius instead of the pad: 6.1 kN more force, helps in 100 of 100, passes; dry instead of oiled:
/// 2.2 kN less force, helps in 0 of 100, misses force; three more with --json." At most five lines; empty where nothing
/// changes anything.
std::string other_choices(const Answer& answer);

/// What is changed: "dry instead of oiled", "two starts instead of one", "Tr 40x3 instead of Tr 40x7".
std::string changed_words(const Answer& answer, const Worth& it);

/// One object a change; empty without a pick.
Json worth_json(const Answer& answer, Notes& notes);

}  // namespace studies::say
