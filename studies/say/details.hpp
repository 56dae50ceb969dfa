#pragma once
/// The paragraphs below the table of limits, each empty where the answer has nothing to say of it.
#include <string>

#include "studies/ask/answer.hpp"

namespace studies::say {

/// "orchard_press: Tr 40x7, one start, 60 mm bronze nut, oiled, pad: 5.89 kg"
std::string headline(const Answer& answer);
/// "Of 100 pulls fall short: bearing pressure 0.18 (0.17 to 0.19; 5 allowed), self-locking none (at most 0.00141; 2
/// allowed)." for every limit with odds but the task itself.
std::string other_odds(const Answer& answer);
/// "Of every 100 N.m on the handle, 29.2 lift, 63.4 rub in the thread, 7.35 in the face."
std::string torque_path(const Answer& answer);
/// "By the uniform-pressure law of the face it takes 62.1 N.m instead of 61 N.m."
std::string pressure_law(const Answer& answer);
/// Whether thread and face hold the load, and the torque that lowers it.
std::string winding_back(const Answer& answer);
/// What breaks first if pulled too hard, and the torque at which each limit is reached; before that how often it is the
/// part that the study wants to go first.
std::string pulled_too_hard(const Answer& answer);
/// What scatters, in the words of its source.
std::string scattered(const Answer& answer);
/// What was assumed and is not in the study.
std::string assumed(const Answer& answer);

}  // namespace studies::say
