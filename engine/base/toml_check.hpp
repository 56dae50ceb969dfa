#pragma once
/// What must hold of a text before the TOML library may see it, so that its own faults cannot be reached.
#include <string>
#include <vector>

#include "engine/base/document.hpp"

namespace engine {

/// A text made safe for the library: stray characters (outside quotes and comments, not ASCII) stand as '?', which is
/// an error wherever they may be.
struct CheckedText {
  std::string text;
  std::vector<Place> strays;  ///< in the order of the text
};

/// Drops a byte order mark and marks stray characters.
/// @throws Refusal (study): no text, bytes that are not UTF-8, a key of more than 16 parts (the library recurses)
CheckedText check_toml(std::string text, const std::string& file);

/// One line of a text, counted from 1, without its end.
std::string line_of(const std::string& text, int line);

}  // namespace engine
