#include "engine/base/toml_advice.hpp"

#include "engine/base/utf8.hpp"

namespace engine {
namespace {

bool holds(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

std::string trimmed(const std::string& text) {
  const std::size_t first = text.find_first_not_of(" \t\r");
  return first == std::string::npos ? "" : text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

/// The value of a line `key = value # comment` whose value stands without quotes; empty for any other line.
std::string bare_value(const std::string& line) {
  const std::size_t equals = line.find('=');
  if (equals == std::string::npos) return "";
  const std::string value = trimmed(line.substr(equals + 1, line.find('#') - equals - 1));
  return value.find_first_of("\"'[{=") == std::string::npos ? value : "";
}

/// `"1 1/4""`: the inch mark ends the text too early.
bool has_inch_mark_in_quotes(const std::string& line) {
  const std::size_t at = line.find("\"\"");
  return at != std::string::npos && at > 0 && line[at - 1] >= '0' && line[at - 1] <= '9';
}

}  // namespace

std::string toml_advice(const std::string& line, const std::string& message) {
  if (has_inch_mark_in_quotes(line)) return "write in instead of the inch mark, like \"1 1/4 in\"";
  if (holds(message, "redefine") || holds(message, "insert")) return "keep one of the two, or give one another name";
  if (holds(message, "end-of-file") && (holds(message, "array") || holds(message, "inline table")))
    return "close every bracket";
  if (holds(message, "parsing string"))
    return "end the text with the quote it began with, on the same line; write a backslash twice";
  if (holds(message, "could not be interpreted") || holds(message, "not representable"))
    return "write a number of fewer figures";
  if (holds(message, "expected '=', saw"))
    return "write key = value; a table begins with its name in brackets, like [screw]";
  if (holds(message, "leading zeroes")) return "leave the zeros in front out";
  const std::string value = bare_value(line);
  if (value.empty() && holds(message, "expected value")) return "write a value behind the '='";
  if (!value.empty() && holds(value, ",")) return "write the number with a point, and a quantity in quotes: \"22 kN\"";
  if (!value.empty()) return "put a text or a quantity in quotes: \"" + excerpt(value) + "\"";
  if (holds(message, "']'") || holds(message, "'}'")) return "close every bracket, and part the entries by commas";
  return "write key = value, a quantity in quotes (\"22 kN\"), a table's name in brackets ([screw])";
}

std::string toml_problem(const std::string& message) {
  const std::string preamble = "Error while parsing ";
  std::string words = message;
  if (words.rfind(preamble, 0) == 0) words.erase(0, preamble.size());
  const std::size_t colon = words.find(": ");
  const std::string where = colon == std::string::npos ? "" : words.substr(0, colon);
  if (!where.empty()) words.erase(0, colon + 2);
  words = words.substr(0, words.find(" (TOML_"));
  if (holds(message, "parsing string") && holds(words, "control characters"))
    words = "the text does not end on its line";
  return "This is not TOML" + (where.empty() ? "" : " (" + excerpt(where) + ")") + ": " + excerpt(words, 160);
}

}  // namespace engine
