#pragma once
/// A limit in words: what it asks, what the screw has, how much is to spare, and how often it falls short.
#include <string>
#include <vector>

#include "studies/ask/answer.hpp"
#include "studies/say/units_of_his.hpp"

namespace studies::say {

/// What a limit asks and what a screw has of it, in the limit's own terms [SI].
struct Judged {
  double has = 0, asked = 0;
};

/// The dimension in which a limit is said: none for a margin.
engine::Dimension said_in(const models::Limit& limit);
/// The limit of a study that bears on this, or null.
const models::Limit* find_limit(const Study& study, models::Must must);

/// A limit as the table names it: "buckling", "stripping goes first".
std::string row_words(const models::Limit& limit);
/// "3", "22 kN".
std::string asked_words(const models::Limit& limit, const HisUnits& his);
/// "3.31", "22.8 kN": three figures that hold or miss as the value does.
std::string has_words(const models::Limit& limit, Judged it, const HisUnits& his);
/// "margin 2.47 where 3 is asked", "21.9 kN in 95 of 100 where 22 kN is asked".
std::string missed_words(const models::Limit& limit, Judged it, const HisUnits& his);
/// "95 of 100", "all but 0.01 of 100"; "nominal" without odds.
std::string surely(const models::Limit& limit);
/// What may fall short, of 100.
double allowed_of_hundred(double odds);
/// "3.49 %"; negative where missed.
std::string spare_words(double spare);

/// "3.12 fall short, 3.08 to 3.15; 5 allowed". Where fewer than 1 of 100 falls short the share itself says so, and this
/// gives the bounds alone; where no pass missed it is "none of 262 144 fell short, at most 0.00141 in 100; 5 allowed".
std::string shortfall_words(const LimitVerdict& limit, std::uint64_t passes);
/// The shortfall of 100 with bounds.
Bounded shortfall(const LimitVerdict& limit);

/// The limits by least to spare; those without a number last.
std::vector<const LimitVerdict*> by_spare(const Answer& answer);
/// The table of limits: header and one line a limit; one sentence a limit where a table would be too wide.
std::vector<std::string> limit_table(const Answer& answer);

}  // namespace studies::say
