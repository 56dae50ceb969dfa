#pragma once
/// Figures as files of their own: SVG, and the numbers behind it as CSV.
#include <string>
#include <vector>

#include "studies/sheet/bundle.hpp"
#include "studies/sheet/figure.hpp"

namespace studies::sheet {

struct FigureFile {
  std::string name;  ///< "chance.svg"
  std::string text;
};

/// Two files a figure. The SVG is drawn by the script that draws the page, under Node.js.
/// @throws Refusal (usage) where there is no `node`, (files) where it cannot be run
std::vector<FigureFile> figure_files(const std::vector<Figure>& figures, const Bundle& bundle);

/// A table as CSV.
/// @source RFC 4180, lines ended by a line feed
std::string csv(const Table& table);

}  // namespace studies::sheet
