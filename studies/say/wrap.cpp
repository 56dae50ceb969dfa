#include "studies/say/wrap.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <sstream>

#include "studies/say/words.hpp"

namespace studies::say {
namespace {

bool begins_with_digit(const std::string& word) {
  return !word.empty() && std::isdigit(static_cast<unsigned char>(word[0])) != 0;
}

bool ends_with_digit(const std::string& word) {
  return !word.empty() && std::isdigit(static_cast<unsigned char>(word.back())) != 0;
}

bool is_unit(std::string word) {
  static constexpr std::array<std::string_view, 22> units = {
      "mm",  "m",  "in", "N", "kN",  "lbf", "N.m", "N·m",    "MPa",    "kPa",   "psi",
      "ksi", "kg", "lb", "%", "rpm", "s",   "W",   "lbf.ft", "lbf.in", "ft-lb", "kW"};
  while (!word.empty() && std::string_view(".,;:)").find(word.back()) != std::string_view::npos) word.pop_back();
  return std::find(units.begin(), units.end(), word) != units.end();
}

/// A digit group or unit that belongs to the number before it.
bool belongs(const std::string& before, const std::string& word) {
  if (!ends_with_digit(before)) return false;
  return is_unit(word) ||
         (begins_with_digit(word) && word.size() >= 3 &&
          std::all_of(word.begin(), word.begin() + 3, [](unsigned char c) { return std::isdigit(c); }));
}

std::vector<std::string> pieces(std::string_view text) {
  std::istringstream stream{cleaned(text)};
  std::vector<std::string> found;
  for (std::string word; stream >> word;) {
    if (!found.empty() && belongs(found.back(), word))
      found.back() += " " + word;
    else
      found.push_back(word);
  }
  return found;
}

}  // namespace

std::vector<std::string> wrapped(std::string_view text, std::size_t hang, const std::string& first) {
  std::vector<std::string> lines;
  std::string line = first;
  bool empty = true;
  for (const std::string& piece : pieces(text)) {
    if (!empty && columns(line) + 1 + columns(piece) > page_width) {
      lines.push_back(line);
      line.assign(hang, ' ');
      empty = true;
    }
    line += (empty ? "" : " ") + piece;
    empty = false;
  }
  if (!empty) lines.push_back(line);
  return lines;
}

std::vector<std::string> aligned(const std::vector<std::vector<std::string>>& rows, std::size_t indent) {
  std::vector<std::size_t> widths;
  for (const auto& row : rows)
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (i == widths.size()) widths.push_back(0);
      widths[i] = std::max(widths[i], columns(row[i]));
    }
  std::vector<std::string> lines;
  for (const auto& row : rows) {
    std::string line(indent, ' ');
    for (std::size_t i = 0; i < row.size(); ++i) line += row[i] + std::string(widths[i] - columns(row[i]) + 2, ' ');
    line.erase(line.find_last_not_of(' ') + 1);
    lines.push_back(line);
  }
  return lines;
}

bool fits(const std::vector<std::string>& lines) {
  return std::all_of(lines.begin(), lines.end(), [](const std::string& line) { return columns(line) <= page_width; });
}

}  // namespace studies::say
