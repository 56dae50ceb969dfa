#pragma once
/// The number at the head of what a user typed.
#include <cstddef>
#include <string>

namespace engine {

/// How a text fails to begin with one number.
enum class NumberFault {
  none,
  missing,        ///< no number: "abc", "inf"
  comma,          ///< "1,5"
  spread_out,     ///< thousands set apart: "1 000", "1_000", "1'000"
  second_number,  ///< "2 3", "10-20"
  malformed,      ///< "1.2.3", "1/ 4"
  out_of_range,   ///< "1e999"
  no_denominator  ///< "3/0"
};

/// A number and where it ends; with a fault, `mended` is the number it probably means, where there is one.
struct NumberText {
  double value = 0;
  std::size_t end = 0;
  NumberFault fault = NumberFault::none;
  std::string mended;
};

/// Reads "22", "-1.5e3", "3/8", "1 1/4" or "1-1/4" from the front of a plain text without blanks around it.
NumberText read_number(const std::string& text);

}  // namespace engine
