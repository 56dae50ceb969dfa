#pragma once
/// The command line, read.
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/error.hpp"

namespace studies {

/// What a sheet is to be, apart from what its results file says.
struct SheetOptions {
  std::string out;                               ///< folder; empty: that of the results file
  std::string figures;                           ///< folder; empty: none wanted
  std::string summary;                           ///< file; empty: none wanted
  std::string owner, number, revision, made_by;  ///< of the title block; empty: to be filled in by hand
};

struct Options {
  std::string verb;                          ///< "vet", "size", "rate", "reckon", "compare", "sheet", "blank"
  std::vector<std::string> studies;          ///< as typed: studies, of compare and sheet results; of blank: the name
  std::map<std::string, std::string> typed;  ///< of reckon: the study's words by option (see read/short_study)
  bool json = false, quiet = false, again = false, scan = false, keep = false, csv = false;
  std::optional<unsigned> threads;
  std::optional<std::uint64_t> key, passes;
  std::string out = "results";
  SheetOptions sheet;
};

/// What parsing came to: options to run with, or words to print and an exit code.
struct Parsed {
  std::optional<Options> options;
  engine::Problem problem;  ///< what is wrong, where `code` is not 0
  std::string words;        ///< for stdout where `code` is 0: help, version
  int code = 0;
};

/// @param arguments  without the program's name
Parsed parse(const std::vector<std::string>& arguments);

/// "0.1.0"
std::string version();

}  // namespace studies
