#pragma once
/// A unit as people type it, taken apart: "ft-lb", "kg/m3", "mm3/(N.m)", "threads per inch".
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/unit_words.hpp"

namespace engine {

/// Text with the signs of typesetting turned into plain ones ("·" into ".", "²" into "2", "½" into " 1/2", "″" into
/// '"', blanks that do not break into blanks), and where each of its bytes came from.
struct PlainText {
  std::string text;
  std::vector<std::size_t> origin;  ///< offset in the original, one for each byte of `text`
};
PlainText plain_text(std::string_view typed);

/// One word of a unit, with its power: "in" and 2 of "lbf/in2".
struct UnitFactor {
  std::string word;
  int power = 1;
};

/// How a text fails to be a unit.
enum class SpellingFault { none, second_number, malformed, product_below };

/// A unit taken into its factors, words of several parts joined ("short ton-force" is one).
struct UnitSpelling {
  std::vector<UnitFactor> factors;
  SpellingFault fault = SpellingFault::none;
};

/// Takes a plain, trimmed unit apart; never fails otherwise than by `fault`.
UnitSpelling take_apart(std::string_view unit);

/// The unit for the units library; empty when a word is not known, and then `unknown` names the first such word.
std::string library_expression(const UnitSpelling& spelling, bool as_mass, std::string& unknown);

}  // namespace engine
