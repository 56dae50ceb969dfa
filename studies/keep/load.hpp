#pragma once
/// A results file read back whole: the study as it was, and its answer to the last bit.
#include <memory>
#include <string>

#include "studies/ask/answer.hpp"

namespace studies {

struct Loaded {
  std::string path;  ///< as typed
  Study study;       ///< with the key and passes that the command line gave it
  Answer answer;     ///< `study` is the one above; no candidates but the nearest where nothing passed, no raw passes
  std::string verb;  ///< "size" or "rate"
  std::string sentence;  ///< the verdict's
  std::string json;      ///< as `--json` prints it
};

/// @throws Refusal (files): not there, not ours, newer, damaged, or of another version of the program, whose answers
///         read differently
std::unique_ptr<const Loaded> load_results(const std::string& path);

}  // namespace studies
