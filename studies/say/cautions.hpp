#pragma once
/// Everything a reader must mind, in one list for the terminal and for JSON.
#include <string>
#include <vector>

#include "studies/ask/answer.hpp"

namespace studies::say {

/// What this is and what comes before it: stands under every answer.
Caution standing_caution();
/// The cautions of answer and study without doubles, gravest first, and the standing one at the end.
std::vector<Caution> all_cautions(const Answer& answer);

}  // namespace studies::say
