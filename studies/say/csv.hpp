#pragma once
/// The answer as a table for a spreadsheet: RFC 4180, one header line, one fact a line.
#include <string>
#include <string_view>
#include <vector>

#include "studies/ask/study.hpp"

namespace studies {

/// The names of the columns, in their order.
const std::vector<std::string_view>& csv_columns();

/// The first line of every such file, with the mark of UTF-8 before it and without a line end: by it a file is known as
/// one of ours.
std::string csv_header();

/// The whole text: UTF-8 with its mark (else a spreadsheet takes it for another encoding), lines that end in CR LF.
/// Numbers are plain decimals with every figure they have, in the units of the study; times `si_per_unit` they are
/// those of the JSON object. A cell is empty where there is no number. Text that a spreadsheet would take for a formula
/// has an apostrophe before it.
/// @param study        whose units are used
/// @param answer_json  as answer_json has it, of the same study; fresh or from a results file
std::string csv_text(const Study& study, const std::string& answer_json);

namespace say {

/// A cell that a spreadsheet shows as this text: on one line, quoted where it must be, never a formula.
std::string csv_cell(std::string_view text);
/// A number in full, without a power of ten: 0.0000012.
std::string csv_number(double value);

}  // namespace say
}  // namespace studies
