#include "studies/say/compare_words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "studies/say/figures.hpp"
#include "studies/say/words.hpp"

namespace studies::say {
namespace {

constexpr std::size_t longest_instead = 44;

std::string one_instead(const Difference& it, const HisUnits& his) {
  const std::string words = fmt::format("{} instead of {}", value_words(it.to, his), value_words(it.from, his));
  return columns(words) > longest_instead ? it.name : it.name + " " + words;
}

}  // namespace

std::pair<std::string, std::string> names_of(const Compared& it) {
  const std::string a = study_name(it.a_path), b = study_name(it.b_path);
  return a == b ? std::pair(it.a_path, it.b_path) : std::pair(a, b);
}

std::string value_words(const TypedValue& value, const HisUnits& his) {
  if (!value.si) return value.words;
  if (value.words == "diameters") return given_number(*value.si) + " d";
  const std::string number = his.given(*value.si, value.dimension);
  return value.words.empty() ? number : value.words + " " + number;
}

std::string instead_words(const Alteration& it, const HisUnits& his) {
  std::vector<std::string> words;
  for (const Difference& difference : it.differences) words.push_back(one_instead(difference, his));
  return list_of(words);
}

std::string signed_number(double value) {
  const std::string words = number(value);
  return value > 0 && words != "0" && std::isfinite(value) ? "+" + words : words;
}

std::string measure_words(const Measure& of, const std::string& unit) {
  const std::string in = unit.empty() ? "" : " [" + unit + "]";
  switch (of.kind) {
    case Measure::Kind::nominal:
      return std::string(models::row(of.output).words) + in;
    case Measure::Kind::median:
      return "median " + std::string(models::row(of.output).words) + in;
    case Measure::Kind::margin:
      return "margin of " + limit_words(of.must);
    case Measure::Kind::shortfall:
      return limit_words(of.must) + ", short of 100";
  }
  return "";
}

InOneUnit one_unit(const HisUnits& his, double like, engine::Dimension dimension) {
  if (dimension == engine::Dimension::none || !std::isfinite(like)) return {engine::si_unit(dimension), 1};
  const std::string unit = his.shown(like, dimension).unit;
  return {unit, engine::in_unit(1, unit, dimension)};
}

}  // namespace studies::say
