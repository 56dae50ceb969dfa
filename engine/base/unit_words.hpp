#pragma once
/// The unit words people type, each with its meaning in the grammar of the units library.
#include <string>
#include <string_view>
#include <vector>

namespace engine {

/// One spelling of a unit. Words of several parts are joined by '.' ("short.ton.force").
struct UnitWord {
  std::string_view spelling;
  std::string_view meaning;  ///< for the units library; `rev` is a full turn
  bool inch = false;         ///< belongs to the inch system
  bool any_case = false;     ///< capitals cannot change its meaning: "RPM", "Lbf"
};

/// The word for this spelling, exact capitals first; null when there is none.
/// @param as_mass  what "lb" and "pound" mean: a mass where a mass or density is due, else a force
const UnitWord* find_unit_word(std::string_view spelling, bool as_mass);

/// Why this word is refused although it has a meaning ("mPa", "ton"): what it could mean, and what to write instead.
struct UnitDoubt {
  std::string_view spelling;
  std::string_view meanings;
  std::string_view fix;
};

/// The doubt about this word, or null; capitals as find_unit_word.
/// @param as_mass  a mass or density is due: "t", "tonne" and "oz" are then clear
const UnitDoubt* find_unit_doubt(std::string_view spelling, bool as_mass);

/// Every single word accepted, for suggestions.
std::vector<std::string> unit_words();

}  // namespace engine
