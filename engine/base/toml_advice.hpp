#pragma once
/// What a user can do about a syntax error, judged from the line where it stands.
#include <string>

namespace engine {

/// The fix for a syntax error: quotes around a quantity, an inch mark inside quotes, a value that is missing, …
/// @param line     the line as typed
/// @param message  the parser's own words
std::string toml_advice(const std::string& line, const std::string& message);

/// The parser's message in words for the user: its preamble left out, cut to one line.
std::string toml_problem(const std::string& message);

}  // namespace engine
