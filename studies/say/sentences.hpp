#pragma once
/// The verdict in a few sentences: what is reached and how surely, what is missed, what governs.
#include <string>

#include "studies/ask/answer.hpp"
#include "studies/say/units_of_his.hpp"

namespace studies {

/// The verdict, one line of text: "Reaches 22 kN in 97 of 100 pulls (3.12 fall short, 3.08 to 3.15; 5 allowed). Every
/// margin holds. Buckling governs."
std::string verdict_sentence(const Answer& answer);

namespace say {

/// One way in which a requirement could be changed: "it would pass if force were 20.1 kN instead of 22 kN".
/// "… if the free length were 480 mm instead of 520 mm", "… if the screw were 1.12 times as strong".
std::string relaxed_words(const Study& study, const Relaxation& relaxation);
/// What would admit a lighter size: "It would do with a free length of 480 mm instead of 520 mm.", "It would do if
/// force were …", "It would do with a screw 1.12 times as strong.", "No single change admits it."
/// @param whom  "it", or a designation
std::string admitted_words(const Study& study, const std::optional<Relaxation>& admit, const std::string& whom);
/// "in 97 of 100 pulls", "in all but 0.0312 of 100 pulls".
std::string share_words(const LimitVerdict& limit, const std::string& hundred);
/// What the hundred are, "pulls" where not said.
std::string hundred_of(const Answer& answer);

}  // namespace say
}  // namespace studies
