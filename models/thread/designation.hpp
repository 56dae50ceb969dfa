#pragma once
/// How a thread is called, in both directions.
#include <string>
#include <string_view>

#include "models/thread/form.hpp"

namespace models {

/// A designation taken apart.
struct Designation {
  Form form = Form::trapezoidal;
  double diameter = 0;  ///< [m]; exactly that of the series for a size on it
  double pitch = 0;     ///< [m]; likewise
  int starts = 1;       ///< from "Tr 40x14 P7"; 1 where the designation does not say
  bool starts_said = false;
};

/// Reads the designations of the trade: "Tr 40x7", "Tr 40x14 P7" (lead, then pitch: two starts), "1-1/2-4 Acme",
/// "1-1/2-4 Stub Acme, 2 starts", "M24x3", "M24" (coarse), "1-8 UNC", "3/4-16 UNF"; these must be on their series. Any
/// form takes its own name with diameter x pitch in mm, on a series or not: "square 25x5", "buttress-7-45 40x6",
/// "acme 33.02x9.76 P4.88". Blanks and capitals are forgiven; "×" reads like "x", "1 1/2" and "1.5" like "1-1/2".
/// @throws Refusal (study) without a place: not a designation (with the nearest form of words), off its series (naming
///         the two nearest sizes and the free form), lead no whole multiple of the pitch
Designation read_designation(std::string_view text);

/// The designation of a thread: that of the trade for a size on its series, else the name of its form with diameter x
/// pitch in mm to 4 decimals; with several starts the lead and the pitch, or ", 2 starts" in inch sizes. Reads back
/// with read_designation to the same thread, a free size to half a unit of the fourth decimal.
std::string designation(const Thread& thread);

}  // namespace models
