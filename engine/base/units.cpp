#include "engine/base/units.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/dimension.hpp"
#include "engine/base/number_text.hpp"
#include "engine/base/unit_scale.hpp"
#include "engine/base/unit_spelling.hpp"

namespace engine {
namespace {

constexpr std::size_t longest_quantity = 200;

[[noreturn]] void refuse_number(const std::string& typed, const NumberText& number, Dimension dimension) {
  const std::string unit = dimension == Dimension::none ? "" : " " + usual_units(dimension).front();
  const std::size_t letters = typed.find_first_of("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ%");
  const std::string typed_unit = letters == std::string::npos ? unit : " " + typed.substr(letters);
  const std::string mended = number.mended.empty() ? "decimals with a point and thousands with nothing between"
                                                   : "'" + number.mended + typed_unit + "'";
  switch (number.fault) {
    case NumberFault::comma:
      throw QuantityError{quoted(typed) + " has a comma in its number", "Decimals take a point, thousands no mark",
                          "write " + mended};
    case NumberFault::spread_out:
      throw QuantityError{quoted(typed) + " has a number in pieces", "Thousands take no mark and no blank",
                          "write " + mended};
    case NumberFault::second_number:
      throw QuantityError{quoted(typed) + " holds more than one number", "One value is one number with one unit",
                          "write one number, like '22" + unit + "' or '1 1/4" + unit + "'"};
    case NumberFault::out_of_range:
      throw QuantityError{quoted(typed) + " is too large or too small a number", "",
                          "write a number that can be computed with"};
    case NumberFault::no_denominator:
      throw QuantityError{quoted(typed) + " divides by zero", "", "write the fraction that is meant, like 3/8"};
    case NumberFault::malformed:
      throw QuantityError{quoted(typed) + " has a number that cannot be read", "",
                          "write a number like 22, 1.5, 2.5e3, 3/8 or 1 1/4"};
    default:
      throw QuantityError{quoted(typed) + " does not begin with a number", capital(due(dimension)),
                          "write one, like '22" + unit + "'"};
  }
}

[[noreturn]] void refuse_missing_unit(const std::string& typed, Dimension dimension) {
  const std::vector<std::string> usual = usual_units(dimension);
  throw QuantityError{quoted(typed) + " has no unit", capital(due(dimension)),
                      "write '" + typed + " " + usual[0] + "' or '" + typed + " " + usual[1] + "'"};
}

}  // namespace

Quantity parse_quantity(std::string_view text, Dimension dimension) {
  const std::string typed = trimmed(text);
  if (typed.empty()) throw QuantityError{"There is no value", capital(due(dimension)), use_usual(dimension)};
  if (typed.size() > longest_quantity)
    throw QuantityError{quoted(typed) + " is too long for a quantity", "", "write one number with one unit"};
  const PlainText plain = plain_text(typed);
  const NumberText number = read_number(plain.text);
  if (number.fault != NumberFault::none) refuse_number(typed, number, dimension);

  Quantity quantity{number.value, number.value, ""};
  if (number.end == plain.text.size()) {
    if (dimension != Dimension::none) refuse_missing_unit(typed, dimension);
    return quantity;
  }
  quantity.unit = trimmed(std::string_view(typed).substr(plain.origin[number.end]));
  const Scale scale = scale_for(quantity.unit, dimension);
  if (scale.reciprocal() && number.value == 0)
    throw QuantityError{quoted(typed) + " gives no length", "", "write how many threads there are in an inch"};
  quantity.si = scale.to_si(number.value);
  if (!std::isfinite(quantity.si) || (quantity.si == 0 && number.value != 0))
    throw QuantityError{quoted(typed) + " is too large or too small to compute with", "",
                        "check the number and its unit"};
  return quantity;
}

double in_unit(double si, std::string_view unit, Dimension dimension) {
  const std::string typed = trimmed(unit);
  return typed.empty() && dimension == Dimension::none ? si : scale_for(typed, dimension).from_si(si);
}

std::string dimension_name(Dimension dimension) {
  const std::string_view name = facts_of(dimension).name;
  return std::string(name.substr(name.find(' ') + 1));
}

std::string si_unit(Dimension dimension) { return std::string(facts_of(dimension).si); }

bool is_inch_unit(std::string_view unit) {
  if (unit.size() > longest_unit) return false;
  const UnitSpelling spelling = take_apart(trimmed(plain_text(unit).text));
  return std::any_of(spelling.factors.begin(), spelling.factors.end(), [](const UnitFactor& factor) {
    const UnitWord* word = find_unit_word(factor.word, false);
    return word != nullptr && word->inch;
  });
}

}  // namespace engine
