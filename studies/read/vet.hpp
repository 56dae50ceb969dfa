#pragma once
/// What a study says, quantity by quantity, in both unit systems and with where it came from: nothing is computed.
#include <string>

#include "studies/ask/study.hpp"

namespace studies {

/// For reading, no line above 80 columns but for single words that are longer; ends with a line break.
std::string vet_text(const Study& study);

/// One JSON object on one line without a line break: program, version, study, title, quantities, cautions, not_checked.
/// Each of quantities has path, line (null where not typed), given, si, unit, inch, inch_unit and source; si and inch
/// are null for words.
std::string vet_json(const Study& study);

}  // namespace studies
