#pragma once
/// The sizes that hold, and what the smaller and the bigger ones do: the sentence, and the key `window` of the JSON
/// object.
#include "studies/ask/answer.hpp"
#include "studies/say/json_value.hpp"

namespace studies::say {

/// "Window: Tr 40x7 to Tr 44x7 hold; a smaller one buckles, a bigger one takes too much torque." Where those that hold
/// do not lie side by side: "Of 12 sizes from Tr 24x5 to Tr 60x9 two hold: Tr 40x7 and Tr 44x7." Empty for one size.
std::string window_words(const Answer& answer);

/// One object a size, by diameter; empty without a pick or with nothing to choose.
Json window_json(const Answer& answer, Notes& notes);

}  // namespace studies::say
