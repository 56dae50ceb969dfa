#pragma once
/// What the screw does of its first task: the force it reaches or the load it lifts, and how surely.
#include <string>

#include "studies/ask/answer.hpp"

namespace studies::say {

/// "Reaches 22 kN in 97 of 100 pulls (3.12 fall short, 3.08 to 3.15; 5 allowed)."
std::string reach_sentence(const Answer& answer);
/// The nominal value of an output; NaN where it has none.
double nominal_of(const Answer& answer, models::Output output);

}  // namespace studies::say
