#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "engine/base/csv.hpp"
#include "engine/base/utf8.hpp"
#include "studies/read/part_reading.hpp"
#include "studies/read/suggest.hpp"

namespace studies::read {
namespace {

using engine::CsvCell;
using engine::CsvLine;
using engine::Place;

/// Fewer rows than this are said: no odds beyond one in their number can be read off them.
constexpr std::size_t few_rows = 100;

/// A heading of a column: its name and the unit in brackets behind it.
struct Heading {
  std::string name, unit;
};

Heading heading(std::string_view cell) {
  const std::size_t open = cell.find('[');
  if (open == std::string_view::npos || cell.back() != ']') return {std::string(cell), ""};
  const std::size_t last = cell.substr(0, open).find_last_not_of(" \t");
  return {std::string(cell.substr(0, last == std::string_view::npos ? 0 : last + 1)),
          std::string(cell.substr(open + 1, cell.size() - open - 2))};
}

/// A column of a file of draws while it is being read.
struct DrawsColumn {
  const Reading& part;
  const std::string file, path;

  std::nullopt_t refuse(const CsvLine& line, const CsvCell& cell, std::string problem, std::string reason,
                        std::string fix) const {
    part.page.refuse_in(path, Place{line.number, cell.column}, std::move(problem), std::move(reason), std::move(fix));
    return std::nullopt;
  }

  /// Which column bears the name typed.
  std::optional<std::size_t> find(const CsvLine& header) const {
    const std::string& wanted = part.view.find("column")->text;
    std::vector<std::string> names;
    for (const CsvCell& cell : header.cells) names.push_back(heading(cell.text).name);
    const auto count = std::count(names.begin(), names.end(), wanted);
    const auto at = static_cast<std::size_t>(std::find(names.begin(), names.end(), wanted) - names.begin());
    if (count == 1) return at;
    if (count > 1)
      return refuse(header, header.cells[at], fmt::format("two columns are called '{}'", engine::excerpt(wanted)), "",
                    "rename one");
    part.refuse("column", fmt::format("{} has no column '{}'", file, engine::excerpt(wanted)), "",
                write_instead(wanted, names));
    return std::nullopt;
  }

  /// SI for one of the unit in the heading.
  std::optional<double> scale(const CsvLine& header, std::size_t column) const {
    const CsvCell& cell = header.cells[column];
    const std::string unit = heading(cell.text).unit;
    const bool bare = part.of.dimension == engine::Dimension::none && (unit.empty() || unit == "-" || unit == "1");
    if (bare) return 1;
    if (unit.empty())
      return refuse(header, cell, fmt::format("the column '{}' has no unit", engine::excerpt(cell.text)),
                    "Draws are plain numbers",
                    fmt::format("write the unit behind the name, like '{} [{}]'", engine::excerpt(cell.text),
                                engine::in_metric(1, part.of.dimension).unit));
    try {
      const double one = engine::parse_quantity("1 " + unit, part.of.dimension).si;
      if (engine::parse_quantity("2 " + unit, part.of.dimension).si == 2 * one) return one;
      return refuse(header, cell, fmt::format("'{}' does not grow with its number", engine::excerpt(unit)), "",
                    "use a plain unit");
    } catch (const engine::QuantityError& error) {
      return refuse(header, cell, error.problem, error.reason, error.fix);
    }
  }

  std::optional<double> number(const CsvLine& line, const CsvCell& cell) const {
    double number = 0;
    const char* const end = cell.text.data() + cell.text.size();
    const auto [stop, error] = std::from_chars(cell.text.data(), end, number);
    if (error == std::errc() && stop == end && std::isfinite(number)) return number;
    return refuse(line, cell, fmt::format("'{}' is no number", engine::excerpt(cell.text)),
                  "Every draw is one plain number, its unit stands in the header",
                  "write a number like 0.13 or 1.2e3, or take the row out");
  }

  std::optional<std::vector<double>> values() const {
    engine::CsvLines lines(part.page.file_text(file));
    CsvLine header, line;
    if (!lines.next(header)) {
      part.page.refuse_in(path, {}, "the file of draws is empty", "",
                          "write a header line with the names of the columns, and the draws below");
      return std::nullopt;
    }
    const auto column = find(header);
    if (!column) return std::nullopt;
    const auto one = scale(header, *column);
    if (!one) return std::nullopt;
    std::vector<double> all;
    while (lines.next(line)) {
      if (line.cells.size() != header.cells.size())
        return refuse(line, line.cells.front(),
                      fmt::format("{} columns where the header has {}", line.cells.size(), header.cells.size()), "",
                      "write one number a column, commas between, points for decimals");
      const auto draw = number(line, line.cells[*column]);
      if (!draw) return std::nullopt;
      all.push_back(*draw * *one);
    }
    if (all.size() >= 2) return all;
    part.page.refuse_in(path, {header.number, 1}, fmt::format("the file holds {} draws", all.size()),
                        "One draw says nothing of the scatter", "write two rows or more, better a thousand");
    return std::nullopt;
  }
};

}  // namespace

std::optional<PartRead> read_draws(const Reading& part) {
  const View& view = part.view;
  for (const auto& [key, other, what] : {std::tuple("draws", "column", "a file has no say without its column"),
                                         std::tuple("column", "draws", "a column has no say without its file")})
    if (view.has(key) && !view.has(other)) {
      part.refuse(key, fmt::format("'{}' is missing", view.under(other)), what, fmt::format("write {} = \"…\"", other));
      return std::nullopt;
    }
  if (!part.alone("draws", {"mean", "shape", "spread", "within", "low", "high", "mode", "inside", "readings", "dof",
                            "above", "below"}))
    return std::nullopt;
  const auto file = part.page.text(view, "draws"), column = part.page.text(view, "column");
  if (!file || !column) return std::nullopt;
  if (file->empty() || file->find('\0') != std::string::npos) {
    part.page.refuse_kind(*view.find("draws"), view.under("draws"), "the name of a CSV file in quotes");
    return std::nullopt;
  }
  part.page.echo(view.under("draws"), *view.find("draws"), std::nullopt, engine::Dimension::none);
  part.page.echo(view.under("column"), *view.find("column"), std::nullopt, engine::Dimension::none);
  const Varies how = part.varies();
  const DrawsColumn reader{part, *file, part.page.path_of(*file)};
  const auto all = reader.values();
  if (!all) return std::nullopt;
  const engine::Marginal marginal = engine::draws(reader.path, *all);
  if (!part.page.keeps(marginal.median(), *view.find("column"), view.path, part.of.bound)) return std::nullopt;
  if (all->size() < few_rows)
    part.page.caution(Level::caution,
                      fmt::format("Only {} draws of {}: no odds beyond 1 in {} follow from them.", all->size(),
                                  part.of.name, all->size()),
                      view.under("draws"));
  const std::string said =
      fmt::format("{} draws of {}, column {}", all->size(), engine::excerpt(*file), engine::excerpt(*column));
  return PartRead{ScatterPart{marginal, ScatterPart::Role::value, how, said, fmt::format("draws ({})", all->size())},
                  std::nullopt, true, false};
}

}  // namespace studies::read
