#pragma once
/// A plain reader of RFC 4180, to hold ours against.
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

namespace tests {

using CsvRow = std::vector<std::string>;

/// Every line of a text in which each line ends in CR LF; a quoted cell may hold quotes (doubled), commas, line ends.
inline std::vector<CsvRow> csv_rows(const std::string& text) {
  std::vector<CsvRow> rows(1, CsvRow(1));
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char letter = text[i];
    std::string& cell = rows.back().back();
    if (quoted && letter == '"' && text.substr(i, 2) == "\"\"")
      cell += '"', ++i;
    else if (letter == '"')
      quoted = !quoted;
    else if (!quoted && letter == ',')
      rows.back().emplace_back();
    else if (!quoted && text.substr(i, 2) == "\r\n")
      rows.emplace_back(1), ++i;
    else if (!quoted && (letter == '\r' || letter == '\n'))
      throw std::runtime_error("a bare line end");
    else
      cell += letter;
  }
  if (quoted || rows.back() != CsvRow(1)) throw std::runtime_error("the last line does not end");
  rows.pop_back();
  return rows;
}

/// The lines as cells by the names of the columns.
inline std::vector<std::map<std::string, std::string>> csv_table(const std::string& text) {
  const std::vector<CsvRow> rows = csv_rows(text);
  std::vector<std::map<std::string, std::string>> table;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    if (rows[i].size() != rows[0].size()) throw std::runtime_error("a line with more or fewer cells");
    table.emplace_back();
    for (std::size_t c = 0; c < rows[0].size(); ++c) table.back()[rows[0][c]] = rows[i][c];
  }
  return table;
}

/// The line of a section and name; an empty one where there is none.
inline std::map<std::string, std::string> csv_line(const std::vector<std::map<std::string, std::string>>& table,
                                                   const std::string& section, const std::string& name) {
  for (const auto& line : table)
    if (line.at("section") == section && line.at("name") == name) return line;
  return {};
}

}  // namespace tests
