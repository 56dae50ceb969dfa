#pragma once
/// What each dimension is called, measured in, and written in by a shop.
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/units.hpp"

namespace engine {

/// One dimension with its words and units.
struct DimensionFacts {
  Dimension dimension;
  std::string_view name;     ///< with its article: "a force"
  std::string_view si;       ///< as files spell it
  std::string_view library;  ///< the SI unit for the units library, where `rev` is a full turn
  std::string_view also;     ///< a second unit that counts as the first ("1/s" is one turn a second); may be empty
  std::string_view usual;    ///< units to suggest, apart by blanks, the first two in a hint
};

const DimensionFacts& facts_of(Dimension dimension);

/// The units to suggest for a dimension, one by one.
std::vector<std::string> usual_units(Dimension dimension);

/// "mm, cm, m, in or ft", for messages.
std::string usual_units_in_words(Dimension dimension);

/// What a unit of the library's grammar measures, in words: "force", "temperature", "something else"; empty for a bare
/// number.
std::string measured_by(const std::string& expression);

}  // namespace engine
