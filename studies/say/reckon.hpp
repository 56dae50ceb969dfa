#pragma once
/// The answer to a study of one line: short, with the study itself below it.
#include <string>

#include "studies/ask/answer.hpp"

namespace studies {

/// What the screw comes to and how surely, where the torque goes, winding back, what goes first when pulled too hard
/// and the gravest cautions; then the study that this amounts to, word for word. Lines of at most 80 columns but for
/// the study's.
/// @param colour  adds bold and colour by ANSI codes; nothing is said by colour alone
std::string reckon_text(const Answer& answer, bool colour);

/// The object of `rate` with the text of the study as `study_text`, on one line without a line end.
std::string reckon_json(const Answer& answer);

}  // namespace studies
