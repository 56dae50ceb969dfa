#pragma once
/// The other screws of the shelf: the next sizes, the lighter ones, and how sure the pick is the lightest.
#include <string>

#include "studies/ask/answer.hpp"

namespace studies::say {

/// "One size down, Tr 38x7 (5.21 kg), buckles: margin 2.47 where 3 is asked; it misses bearing pressure and overload
/// pull too." Empty without a search.
std::string size_down(const Answer& answer);
std::string size_up(const Answer& answer);
/// "Lighter, and out: Tr 38x7 (5.21 kg, buckling), …" by falling mass; empty without lighter ones.
std::string lighter_ones(const Answer& answer);
/// What a screw does that misses this limit: "buckles", "takes too much torque".
std::string missing_verb(const Study& study, models::Must must);
/// "Proven lightest of 408 screws.", "Best found from 12 starts."; empty for a screw that was given.
std::string proof(const Answer& answer);
/// What `rate` says of an aim; empty where none was typed or it was used.
std::string unused_aim(const Answer& answer);
/// "1 048 576 fresh passes, key 20261125."; the shared passes of the search where there were no others.
std::string passes_words(const Answer& answer);

}  // namespace studies::say
