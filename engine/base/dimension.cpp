#include "engine/base/dimension.hpp"

#include "engine/base/udunits.hpp"

namespace engine {
namespace {

constexpr DimensionFacts facts[] = {
    {Dimension::none, "a bare number", "", "1", "", "%"},
    {Dimension::length, "a length", "m", "m", "", "mm in cm m ft thou tpi"},
    {Dimension::force, "a force", "N", "N", "", "kN lbf N MN kip kgf tonne-force"},
    {Dimension::torque, "a torque", "N.m", "N.m", "", "N.m lbf.ft lbf.in kN.m N.mm kgf.m"},
    {Dimension::stress, "a stress", "Pa", "Pa", "", "MPa psi ksi GPa kPa bar N/mm2"},
    {Dimension::speed, "a speed", "m/s", "m/s", "", "mm/s in/min mm/min m/min m/s in/s ft/min fpm"},
    {Dimension::rotation, "a rotational speed", "1/s", "rev/s", "s^-1", "rpm rev/s rev/min rad/s"},
    {Dimension::angle, "an angle", "rad", "0.15915494309189535 rev", "", "deg rad rev"},
    {Dimension::area, "an area", "m2", "m^2", "", "mm2 in2 cm2 m2"},
    {Dimension::mass, "a mass", "kg", "kg", "", "kg lb g tonne"},
    {Dimension::density, "a density", "kg/m3", "kg/m^3", "", "kg/m3 lb/in3 g/cm3"},
    {Dimension::time, "a time", "s", "s", "", "s min h ms"},
    {Dimension::power, "a power", "W", "W", "", "W hp kW"},
    {Dimension::pv, "a pressure times speed", "Pa.m/s", "Pa.m/s", "", "MPa.m/s psi.fpm"},
    {Dimension::wear_rate, "a wear rate", "m2/N", "m^2/N", "", "mm2/N m2/N mm3/(N.m) in2/lbf"},
};

}  // namespace

const DimensionFacts& facts_of(Dimension dimension) {
  for (const DimensionFacts& one : facts)
    if (one.dimension == dimension) return one;
  return facts[0];
}

std::vector<std::string> usual_units(Dimension dimension) {
  std::vector<std::string> units(1);
  for (const char letter : facts_of(dimension).usual) {
    if (letter == ' ')
      units.emplace_back();
    else
      units.back() += letter;
  }
  return units;
}

std::string usual_units_in_words(Dimension dimension) {
  const std::vector<std::string> units = usual_units(dimension);
  std::string words = units.front();
  for (std::size_t i = 1; i < units.size(); ++i) words += (i + 1 == units.size() ? " or " : ", ") + units[i];
  return words;
}

std::string measured_by(const std::string& expression) {
  for (const DimensionFacts& one : facts) {
    if (one.dimension == Dimension::none) continue;
    if (conversion_factor(expression, std::string(one.library))) return dimension_name(one.dimension);
  }
  if (conversion_factor(expression, "1")) return "";
  if (conversion_factor(expression, "m^-1")) return "a number per length";
  if (conversion_factor(expression, "s^-1")) return "a number per time";
  if (conversion_factor(expression, "K")) return "temperature";
  if (conversion_factor(expression, "A")) return "electric current";
  if (conversion_factor(expression, "m^3")) return "volume";
  if (conversion_factor(expression, "m/s^2")) return "acceleration";
  if (conversion_factor(expression, "N/m")) return "force per length";
  return "something else";
}

}  // namespace engine
