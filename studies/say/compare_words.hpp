#pragma once
/// Small words of a comparison.
#include <string>
#include <utility>

#include "studies/say/compare.hpp"
#include "studies/say/units_of_his.hpp"

namespace studies::say {

/// What the two results are called: the files' names without folder and ending, the whole paths where these are alike.
std::pair<std::string, std::string> names_of(const Compared& it);

/// One side of a difference: "22 kN", "1.5 d", "margin 3", "dry".
std::string value_words(const TypedValue& value, const HisUnits& his);

/// "lubrication oil instead of dry", "torque 130 N.m instead of 120 N.m"; the name alone where that would be long.
std::string instead_words(const Alteration& it, const HisUnits& his);

/// With its sign, three figures: "+1.9", "-0.31", "0".
std::string signed_number(double value);

/// "force [kN]", "force, half of the pulls [kN]", "margin of buckling", "buckling, short of 100".
std::string measure_words(const Measure& of, const std::string& unit);

/// A measure's value as a number in the unit of the first study that reads best beside `like`; the unit alone.
struct InOneUnit {
  std::string unit;   ///< empty for a bare number
  double factor = 1;  ///< of SI
};
InOneUnit one_unit(const HisUnits& his, double like, engine::Dimension dimension);

}  // namespace studies::say
