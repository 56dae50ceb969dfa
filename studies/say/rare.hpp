#pragma once
/// Odds that the passes cannot count: the paragraph, and the key `rare` of the JSON object.
#include <string>
#include <vector>

#include "studies/ask/answer.hpp"
#include "studies/say/json_value.hpp"

namespace studies::say {

/// A sentence for every limit with trusted rare odds: "Yield of the body falls short in 3.2 of a million pulls (2.9 to
/// 3.5; 10 allowed); with normal friction instead of lognormal in 12." Two figures at most, below one in a million
/// none. What is not trusted is said by a caution, where a limit asks for it.
std::vector<std::string> rare_words(const Answer& answer);

/// "in all but 3.2 of a million pulls (2.9 to 3.5; 10 allowed)", of a limit judged by its rare odds.
std::string rare_share_words(const Answer& answer, const LimitVerdict& limit);

/// A list of {"name", "judges", "shortfall", "trusted", "reason", "first_order", "importance", "subset", "calls",
/// "other_shape"}.
Json rare_json(const Answer& answer, Notes& notes);

}  // namespace studies::say
