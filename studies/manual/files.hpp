#pragma once
/// All that is installed beside the program so that it can be read about and completed.
#include <map>
#include <string>

namespace studies::manual {

/// Texts by path below share/: "man/man1/screwtiny-size.1", "fish/vendor_completions.d/screwtiny.fish".
/// @param date  of the pages: "2026-11-28"
/// @throws Refusal where the program's own tables cannot be read
std::map<std::string, std::string> manual_files(const std::string& date);

}  // namespace studies::manual
