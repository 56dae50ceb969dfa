#pragma once
/// The summary for a spreadsheet, as a file beside the results file.
#include <string>

#include "studies/ask/study.hpp"

namespace studies {

/// `<out>/<study>.csv` for `<out>/<study>.h5`.
std::string csv_path(const std::string& results);

/// To be asked before computing: makes the folder and finds out whether the file can be written.
/// @throws Refusal (files): no leave, no folder, a folder of that name, or a file there that is none of ours, such as
///         readings kept under the study's name
void check_csv_path(const std::string& path);

/// Writes the summary; it appears under its name only when complete.
/// @param answer_json  as it is printed
/// @throws Refusal (files)
void write_csv(const std::string& path, const Study& study, const std::string& answer_json);

}  // namespace studies
