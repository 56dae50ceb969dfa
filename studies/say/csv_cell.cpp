#include <array>
#include <charconv>

#include "studies/say/csv.hpp"
#include "studies/say/words.hpp"

namespace studies::say {

std::string csv_cell(std::string_view text) {
  std::string safe = cleaned(text);
  // What begins so is run as a formula, also behind blanks that the spreadsheet takes away.
  const std::size_t first = safe.find_first_not_of(' ');
  if (first != std::string::npos && std::string_view("=+-@").find(safe[first]) != std::string_view::npos)
    safe.insert(0, "'");
  if (safe.find_first_of(",\"") == std::string::npos && !safe.starts_with(' ') && !safe.ends_with(' ')) return safe;
  std::string quoted = "\"";
  for (const char letter : safe) quoted += letter == '"' ? std::string("\"\"") : std::string(1, letter);
  return quoted + "\"";
}

std::string csv_number(double value) {
  std::array<char, 400> text;  // the least and the greatest double take some 330
  const auto [end, error] = std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
  return error == std::errc() ? std::string(text.data(), end) : std::string();
}

}  // namespace studies::say
