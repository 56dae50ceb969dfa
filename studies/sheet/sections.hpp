#pragma once
/// The sections of a page below its first sheet, each as HTML.
#include <string>

#include "studies/sheet/page.hpp"

namespace studies::sheet {

/// The framed first sheet: verdict, pick, odds, drawing, limits, title block.
std::string first_sheet(const Shown& shown);
/// Figures and the words between them.
std::string case_in_figures(const Shown& shown);
/// Every input with its value, scatter and source.
std::string inputs(const Shown& shown);
std::string cautions(const Shown& shown);
/// Provenance, the formulas' sources, how the odds settled, and lines to sign on.
std::string standing(const Shown& shown);

/// <figure> with its sentence, note and numbers.
/// @param number  "Fig 4"
std::string figure_html(const Figure& figure, std::size_t number);
/// The number of a figure on its page: in the order of the list, from 1.
std::string figure_html(const Shown& shown, const std::string& id);

}  // namespace studies::sheet
