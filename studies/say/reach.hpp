#pragma once
/// What the screw does of its first task: the force it reaches or the load it lifts, and how surely.
#include <string>

#include "studies/ask/answer.hpp"
#include "studies/say/units_of_his.hpp"

namespace studies::say {

/// "Reaches 22 kN in 97 of 100 pulls (3.12 fall short, 3.08 to 3.15; 5 allowed)."
std::string reach_sentence(const Answer& answer);
/// The limit that judges the task itself: force for a clamp, torque or hand force for a lift; null where none does.
const LimitVerdict* task_limit(const Answer& answer);
/// The task with its demand: "Reaches 22 kN", "Lifts 15 kN with at most 20 N.m".
std::string demand_words(const LimitVerdict& limit, const models::Duty& duty, const HisUnits& his);
/// What the task comes to, asked or not: "Reaches 19.4 kN at nominal; 90 of 100 pulls lie between 17.3 kN and 21.6
/// kN.", "Lifting 12 kN takes 51.2 N.m at nominal."; empty where it has no value.
std::string task_sentence(const Answer& answer);
/// The same of any output. @param opening  what stands before its value: "Starting from rest takes"
std::string band_sentence(const Answer& answer, models::Output output, const std::string& opening);
/// "90 of 100 pulls lie between 17.3 kN and 21.6 kN"; empty where it does not scatter or has no bounds.
std::string band_words(const Answer& answer, models::Output output);
/// The nominal value of an output; NaN where it has none.
double nominal_of(const Answer& answer, models::Output output);

}  // namespace studies::say
