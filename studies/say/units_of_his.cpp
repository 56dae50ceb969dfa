#include "studies/say/units_of_his.hpp"

#include <cmath>

#include "studies/say/figures.hpp"

namespace studies::say {
namespace {

std::string with_unit(const std::string& number, const std::string& unit) {
  return unit.empty() ? number : number + " " + unit;
}

/// A number that needs no other unit: not below 1, and not in the ten thousands.
bool easily_read(double value) { return std::abs(value) >= 1 && std::abs(value) < 10000; }

}  // namespace

engine::Shown HisUnits::shown(double si, engine::Dimension dimension) const {
  if (dimension == engine::Dimension::none) return {si, ""};
  const engine::Shown shop = study_.inch ? engine::in_inch(si, dimension) : engine::in_metric(si, dimension);
  const std::string* first = nullptr;
  for (const auto& [of, unit] : study_.units) {
    if (of != dimension) continue;
    const double value = engine::in_unit(si, unit, dimension);
    if (si == 0 || easily_read(value)) return {value, unit};
    if (!first) first = &unit;
  }
  if (first && !easily_read(shop.value)) return {engine::in_unit(si, *first, dimension), *first};
  return shop;
}

std::string HisUnits::operator()(double si, engine::Dimension dimension) const {
  if (!std::isfinite(si)) return number(si);
  const engine::Shown it = shown(si, dimension);
  return with_unit(number(it.value), it.unit);
}

std::string HisUnits::given(double si, engine::Dimension dimension) const {
  if (!std::isfinite(si)) return number(si);
  const engine::Shown it = shown(si, dimension);
  return with_unit(given_number(it.value), it.unit);
}

std::string HisUnits::beside(double si, double asked_si, bool most, engine::Dimension dimension) const {
  if (!std::isfinite(si)) return number(si);
  const engine::Shown asked = shown(asked_si, dimension);
  const double value = asked.unit.empty() ? si : engine::in_unit(si, asked.unit, dimension);
  return with_unit(number(say::beside(value, asked.value, most)), asked.unit);
}

std::string HisUnits::both(double si, engine::Dimension dimension) const {
  const std::string his = (*this)(si, dimension);
  if (!std::isfinite(si) || dimension == engine::Dimension::none) return his;
  const bool inch = engine::is_inch_unit(shown(si, dimension).unit);
  const engine::Shown other = inch ? engine::in_metric(si, dimension) : engine::in_inch(si, dimension);
  const std::string theirs = with_unit(number(other.value), other.unit);
  return his == theirs ? his : his + " (" + theirs + ")";
}

std::string HisUnits::torque_unit() const {
  for (const auto& [of, unit] : study_.units)
    if (of == engine::Dimension::torque) return unit;
  return study_.inch ? "lbf.ft" : "N.m";
}

}  // namespace studies::say
