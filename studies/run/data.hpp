#pragma once
/// Where the program's own data lie: beside the installed program, else in the source tree it was built from.
#include <string>

namespace studies {

/// @param kind  "tables" or "blanks"
std::string data_folder(const std::string& kind);

}  // namespace studies
