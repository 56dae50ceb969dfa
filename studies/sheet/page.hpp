#pragma once
/// The calculation sheet as one HTML file: words from here, figures drawn by the script that it carries.
#include <string>
#include <vector>

#include "studies/keep/load.hpp"
#include "studies/sheet/bundle.hpp"
#include "studies/sheet/figure.hpp"

namespace studies::sheet {

/// What the title block says beyond the study; empty: to be filled in by hand.
struct TitleBlock {
  std::string owner, number, revision, made_by;
  std::string date;  ///< of issue, as ISO 8601 writes it
};

/// What a sheet shows.
struct Shown {
  const Loaded& result;
  const Answer& answer;  ///< of the result; of a search in which nothing passed, of its nearest screw
  const Scene* scene;    ///< of that screw; null where none could be judged
  const std::vector<Figure>& figures;
  TitleBlock block;
  /// Nothing passed: the screw shown is the nearest.
  bool nearest() const { return !result.answer.pick && answer.pick; }
};

/// @return a file that asks nothing of the network and shows its words without the script
std::string page(const Shown& shown, const Bundle& bundle);

/// The data that the script draws from: {"figures": {id: …}}.
Json figure_data(const std::vector<Figure>& figures);

}  // namespace studies::sheet
