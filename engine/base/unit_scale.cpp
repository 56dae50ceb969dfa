#include "engine/base/unit_scale.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "engine/base/dimension.hpp"
#include "engine/base/nearest.hpp"
#include "engine/base/udunits.hpp"
#include "engine/base/unit_spelling.hpp"
#include "engine/base/utf8.hpp"

namespace engine {
namespace {

std::optional<double> factor_to(const std::string& expression, Dimension dimension) {
  const DimensionFacts& facts = facts_of(dimension);
  std::optional<double> factor = conversion_factor(expression, std::string(facts.library));
  if (!factor && !facts.also.empty()) factor = conversion_factor(expression, std::string(facts.also));
  return factor;
}

std::optional<Scale> scale_of(const UnitSpelling& spelling, const std::string& expression, Dimension dimension) {
  const auto has = [&](std::string_view word) {
    return std::any_of(spelling.factors.begin(), spelling.factors.end(), [&](const UnitFactor& factor) {
      return find_unit_word(factor.word, false) == find_unit_word(word, false);
    });
  };
  const bool threads = has("tpi") || has("threads") || has("thread");
  if (dimension == Dimension::none && !(spelling.factors.size() == 1 && (has("%") || has("percent")))) return {};
  if (threads && dimension == Dimension::length) {
    const std::optional<double> per_length = conversion_factor(expression, "m^-1");
    if (per_length) return Scale(*per_length, true);
    return {};
  }
  if (threads) return {};
  const std::optional<double> factor = factor_to(expression, dimension);
  if (!factor) return {};
  return Scale(*factor, false);
}

[[noreturn]] void refuse_unknown(const std::string& unit, const std::string& word, Dimension dimension) {
  if (is_known(word) && !measured_by(word).empty() && !factor_to(word, dimension))
    throw QuantityError{quoted(unit) + " measures " + measured_by(word) + "; " + due(dimension), "",
                        use_usual(dimension)};
  std::string meant = nearest(unit, usual_units(dimension));
  if (meant.empty()) meant = nearest(word, unit_words());
  throw QuantityError{"Unknown unit " + quoted(word) + (word == unit ? "" : " in " + quoted(unit)),
                      meant.empty() ? capital(due(dimension)) : "Did you mean '" + meant + "'?", use_usual(dimension)};
}

[[noreturn]] void refuse_fault(const std::string& unit, SpellingFault fault, Dimension dimension) {
  if (fault == SpellingFault::second_number)
    throw QuantityError{quoted(unit) + " holds a second number, or a power that is not whole",
                        "One value is one number with one unit", "write a length like '38 in', an area like '2 mm2'"};
  if (fault == SpellingFault::product_below)
    throw QuantityError{quoted(unit) + " can be read in two ways", "It is not clear what stands below the slash",
                        "put it in brackets, like mm3/(N.m)"};
  throw QuantityError{quoted(unit) + " is not spelled like a unit", capital(due(dimension)), use_usual(dimension)};
}

/// A mass where its weight is due: "kg" for "kgf", "kg/cm2" for "kgf/cm2".
[[noreturn]] void refuse_mass(const std::string& unit, Dimension dimension) {
  std::string meant = unit;
  const std::size_t at = meant.find("kg");
  if (at != std::string::npos) meant.insert(at + 2, "f");
  const bool alone = unit == "kg" || at == std::string::npos;
  throw QuantityError{
      quoted(unit) + (alone ? " measures mass; " : " holds a mass; ") + due(dimension), "",
      at == std::string::npos ? use_usual(dimension) : "write " + meant + ", or " + usual_units(dimension).front()};
}

}  // namespace

Scale::Scale(double factor, bool reciprocal) : times_(reciprocal ? 1 / factor : factor), reciprocal_(reciprocal) {
  const double exact = times_, tolerance = 1e-15;
  double power = 1;
  for (int places = 0; places <= 13; ++places, power *= 10) {
    const double times = std::round(exact * power);
    if (times < 1 || times > 1e15 || std::fabs(times / (exact * power) - 1) > tolerance) continue;
    times_ = times;
    over_ = power;
    return;
  }
  const double inverse = std::round(1 / exact);
  if (inverse < 1 || std::fabs(inverse * exact - 1) > tolerance) return;
  times_ = 1;
  over_ = inverse;
}

Scale scale_for(const std::string& unit, Dimension dimension) {
  const std::string plain_unit = trimmed(plain_text(unit).text);
  if (plain_unit.size() > longest_unit) refuse_fault(unit, SpellingFault::malformed, dimension);
  const UnitSpelling spelling = take_apart(plain_unit);
  if (spelling.fault != SpellingFault::none) refuse_fault(unit, spelling.fault, dimension);
  const bool as_mass = dimension == Dimension::mass || dimension == Dimension::density;
  std::string unknown;
  const std::string expression = library_expression(spelling, as_mass, unknown);
  if (!unknown.empty()) refuse_unknown(unit, unknown, dimension);

  const std::optional<Scale> scale = scale_of(spelling, expression, dimension);
  const bool weight = !scale && factor_to(expression + ".(m/s^2)", dimension).has_value();
  for (const UnitFactor& factor : spelling.factors) {
    const UnitDoubt* doubt = scale || weight ? find_unit_doubt(factor.word, as_mass) : nullptr;
    if (doubt != nullptr)
      throw QuantityError{"The unit " + quoted(unit) + " is in doubt", std::string(doubt->meanings),
                          std::string(doubt->fix)};
  }
  if (scale) return *scale;
  if (weight) refuse_mass(unit, dimension);
  const std::string measured = measured_by(expression);
  throw QuantityError{
      quoted(unit) + (measured.empty() ? " is a count or a share; " : " measures " + measured + "; ") + due(dimension),
      "", use_usual(dimension)};
}

std::string trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) return "";
  return std::string(text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1));
}

std::string quoted(std::string_view text) { return "'" + excerpt(text) + "'"; }

std::string due(Dimension dimension) { return std::string(facts_of(dimension).name) + " is due here"; }

std::string capital(std::string words) {
  if (!words.empty() && words[0] >= 'a' && words[0] <= 'z') words[0] = static_cast<char>(words[0] - 'a' + 'A');
  return words;
}

std::string use_usual(Dimension dimension) {
  if (dimension == Dimension::none) return "leave the unit out";
  return "use " + usual_units_in_words(dimension);
}

}  // namespace engine
