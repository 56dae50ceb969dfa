#pragma once
/// "Did you mean": the known word closest to one that is not known.
#include <string>
#include <vector>

namespace engine {

/// The known word closest to a mistyped one: fewest letters added, dropped, changed or swapped with a neighbour, upper
/// and lower case alike; else the only word that begins with it. Ties go to the word listed first.
/// @param word   what was typed
/// @param words  what could have been meant
/// @return       one of `words`, or empty when none is close: one slip up to three letters, two up to seven, else three
std::string nearest(const std::string& word, const std::vector<std::string>& words);

}  // namespace engine
