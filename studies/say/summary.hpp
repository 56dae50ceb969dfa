#pragma once
/// The one table that ends a run of several studies.
#include <cstddef>
#include <string>
#include <vector>

#include "engine/base/error.hpp"
#include "studies/ask/answer.hpp"

namespace studies {

/// How one study of several came out.
struct RunLine {
  std::string study;     ///< path as typed
  std::string answer;    ///< in few words: "holds", "2 missed", "nothing passes", "3 errors"
  std::string pick;      ///< designation; empty without one
  std::string mass;      ///< with its unit; empty without a pick
  std::string tightest;  ///< "buckling 10.3 %"; empty without limits
  std::string results;   ///< path of the results file; empty when none was written
};

RunLine run_line(const Answer& answer);
RunLine run_line(const std::string& study, const engine::Refusal& refusal);

/// The lines as a table of at most 80 columns; results files that do not fit beside the rest stand below their line.
std::string summary_table(const std::vector<RunLine>& lines);

}  // namespace studies
