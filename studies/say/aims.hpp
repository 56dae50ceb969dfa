#pragma once
/// What was aimed at, what it came to, and the curve of two aims.
#include <string>
#include <vector>

#include "studies/ask/answer.hpp"

namespace studies::say {

/// "mass", "nut length", "margin of buckling", "odds of force".
std::string quantity_words(const Quantity& quantity);
/// "lightest", "shortest nut", "least torque", "most force".
std::string best_words(const Study& study);
/// What the pick comes to by each aim and under each cap: "Least torque: 38.2 N.m for 22 kN. Turns 65 of 80 at most.";
/// empty where it is the mass alone.
std::string aims_sentence(const Answer& answer);
/// The curve: a header and a line a screw, at most twelve, both ends among them; nothing with one aim.
std::vector<std::string> trade_off_table(const Answer& answer);
/// A cap missed: "goes over the cap on turns, 96 where 80 are allowed".
std::string over_cap_words(const Study& study, const CandidateVerdict& verdict);

}  // namespace studies::say
