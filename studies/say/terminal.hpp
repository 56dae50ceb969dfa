#pragma once
/// The answer as a person reads it in a terminal.
#include <string>

#include "studies/ask/answer.hpp"

namespace studies {

/// Headline, verdict, table of limits, and what follows from them, in lines of at most 80 columns (a path that is
/// longer stands whole on a line of its own), UTF-8, no trailing blanks, a line end after every line.
/// @param colour  adds bold and colour by ANSI codes; nothing is said by colour alone
std::string terminal_text(const Answer& answer, bool colour);

}  // namespace studies
