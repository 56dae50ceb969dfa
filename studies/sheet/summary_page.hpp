#pragma once
/// One page for several results: a line each, with the sheet behind it.
#include <string>
#include <vector>

#include "studies/keep/load.hpp"
#include "studies/sheet/bundle.hpp"

namespace studies::sheet {

/// One result in a line.
struct SummaryRow {
  std::string title, answer, pick, mass, tightest, sentence;
  std::string sheet;  ///< path of its sheet
  bool holds = false;
};
SummaryRow summary_row(const Loaded& loaded, const std::string& sheet);

/// @param path  where the page will lie: links go from there
/// @param date  of issue
std::string summary_page(const std::vector<SummaryRow>& rows, const std::string& path, const Bundle& bundle,
                         const std::string& date);

}  // namespace studies::sheet
