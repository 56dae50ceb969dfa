#include "engine/base/csv.hpp"

namespace engine {
namespace {

constexpr std::string_view blanks = " \t\r";

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

CsvCell cell_of(std::string_view line, std::size_t from, std::size_t to) {
  const std::string_view text = trimmed(line.substr(from, to - from));
  const std::size_t at = text.empty() ? from : static_cast<std::size_t>(text.data() - line.data());
  const bool quoted = text.size() >= 2 && text.front() == '"' && text.back() == '"';
  return {quoted ? trimmed(text.substr(1, text.size() - 2)) : text, static_cast<int>(at) + 1};
}

void split(std::string_view line, std::vector<CsvCell>& cells) {
  cells.clear();
  std::size_t from = 0;
  bool quoted = false;
  for (std::size_t at = 0; at <= line.size(); ++at) {
    if (at < line.size() && line[at] == '"') quoted = !quoted;
    if (at < line.size() && (quoted || line[at] != ',')) continue;
    cells.push_back(cell_of(line, from, at));
    from = at + 1;
  }
}

}  // namespace

CsvLines::CsvLines(std::string_view text) : rest_(text) {
  constexpr std::string_view mark = "\xEF\xBB\xBF";
  if (rest_.substr(0, mark.size()) == mark) rest_.remove_prefix(mark.size());
}

bool CsvLines::next(CsvLine& line) {
  while (!rest_.empty()) {
    const std::size_t end = rest_.find('\n');
    const std::string_view whole = rest_.substr(0, end);
    rest_.remove_prefix(end == std::string_view::npos ? rest_.size() : end + 1);
    ++number_;
    const std::string_view said = trimmed(whole);
    if (said.empty() || said.front() == '#') continue;
    line.number = number_;
    split(whole, line.cells);
    return true;
  }
  return false;
}

}  // namespace engine
