#pragma once
/// Manual pages in roff, with the macros of man(7).
#include <string>

#include "studies/manual/command.hpp"

namespace studies::manual {

/// What the pages are of.
struct Edition {
  std::string version;  ///< "0.1.0"
  std::string date;     ///< "2026-11-28"
};

/// screwtiny.1
std::string page(const Program& program, const Edition& edition);
/// screwtiny-size.1 and its like.
std::string page(const Program& program, const Verb& verb, const Edition& edition);
/// Text that roff shows as it is: no letter of it is taken for a command.
/// @param text  prose, in which a hyphen may be one
std::string roff_prose(const std::string& text);
/// The same of what is typed: every hyphen is a minus, so that it can be copied.
std::string roff_typed(const std::string& text);

}  // namespace studies::manual
