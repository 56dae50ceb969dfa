#pragma once
/// Text in columns set apart by commas, line by line, with the places of its cells.
#include <string>
#include <string_view>
#include <vector>

namespace engine {

struct CsvCell {
  std::string_view text;  ///< without the blanks and the quotes around it
  int column = 0;         ///< from 1, in bytes
};

struct CsvLine {
  int number = 0;  ///< from 1, all lines of the file counted
  std::vector<CsvCell> cells;
};

/// Walks a text by its lines. Blank lines and lines that begin with '#' are left out; a cell may stand in quotes, and
/// then hold commas, but neither quotes nor line breaks. Lines end in \n or \r\n; a byte order mark is passed over.
class CsvLines {
public:
  /// @param text  must outlive the walk and its cells
  explicit CsvLines(std::string_view text);
  /// The next line with something in it; false at the end.
  bool next(CsvLine& line);

private:
  std::string_view rest_;
  int number_ = 0;
};

}  // namespace engine
