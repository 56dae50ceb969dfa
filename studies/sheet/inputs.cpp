/// Every input with its value in both systems, its scatter and where it came from.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "studies/say/figures.hpp"
#include "studies/say/words.hpp"
#include "studies/sheet/html.hpp"
#include "studies/sheet/sections.hpp"

namespace studies::sheet {
namespace {

using engine::Dimension;

struct Group {
  const char* begins;  ///< of the paths of its values
  const char* head;
};
constexpr std::array<Group, 7> groups = {{{"duty.", "What it must do"},
                                          {"choose.", "What may be chosen"},
                                          {"scatter.", "What scatters"},
                                          {"must.", "What must hold"},
                                          {"aim.", "What it is sought by"},
                                          {"passes.", "How it is computed"},
                                          {"", "Else"}}};

std::size_t group_of(const std::string& path) {
  for (std::size_t i = 0; i + 1 < groups.size(); ++i)
    if (path.rfind(groups[i].begins, 0) == 0) return i;
  return groups.size() - 1;
}

/// "thread friction" of "scatter.thread_friction".
std::string quantity(const std::string& path) {
  const auto dot = path.find('.');
  std::string words = dot == std::string::npos ? path : path.substr(dot + 1);
  std::replace(words.begin(), words.end(), '_', ' ');
  for (auto at = words.find('.'); at != std::string::npos; at = words.find('.')) words.replace(at, 1, ", ");
  if (const auto at = words.find('['); at != std::string::npos)  // the first of a list is its number 1
    words = fmt::format("{} {}", words.substr(0, at), std::stoul(words.substr(at + 1)) + 1);
  return words;
}

struct Row {
  std::string what;
  std::string value;  ///< HTML
  std::string band, varies, tag, source;
};

std::string source_cell(const Row& row) {
  return fmt::format("<span class=src><span class=\"tag{}\">{}</span><span>{}</span></span>",
                     row.tag == "assumed" ? " assumed" : "", row.tag, printed(row.source));
}

std::string row_html(const Row& row) {
  const auto idle = [](const std::string& text) { return text.empty() ? " class=idle" : ""; };
  const auto text = [](const std::string& words) { return words.empty() ? "–" : softened(words); };
  return fmt::format(
      "<tr><td>{}<td data-l=\"Value\">{}<td data-l=\"5 % to 95 %\"{}>{}<td data-l=\"Varies\"{}>{}<td "
      "data-l=\"Source\">{}",
      printed(row.what), row.value.empty() ? "–" : row.value, idle(row.band), text(row.band), idle(row.varies),
      text(row.varies), source_cell(row));
}

/// The source of an echo, taken apart: a tag and the rest.
void set_source(const Echo& echo, Row& row) {
  const auto after = [&](const char* opening) { return echo.source.substr(std::string_view(opening).size()); };
  if (echo.line > 0) {
    row.tag = "study", row.source = fmt::format("line {}", echo.line);
  } else if (echo.source.rfind("table: ", 0) == 0) {
    row.tag = "table", row.source = after("table: ");
  } else if (echo.source.rfind("default: ", 0) == 0) {
    row.tag = "assumed", row.source = after("default: ");
  } else {
    row.tag = "assumed", row.source = echo.source;
  }
}

/// The last word of a path: "yield" of "choose.screw.yield".
std::string last_word(const std::string& path) {
  std::string word = path.substr(path.rfind('.') + 1);
  std::replace(word.begin(), word.end(), '_', ' ');
  return word;
}

bool from_table(const Echo& echo) { return echo.source.rfind("table: ", 0) == 0 && echo.si; }

/// "yield 310 MPa [45 ksi]" of a row of a table, else what was typed, in both systems.
std::string value(const Echo& echo, const Study& study) {
  if (!from_table(echo)) return with_other(echo.given, study);
  return printed(last_word(echo.path)) + " " + softened(both(say::HisUnits(study), *echo.si, echo.dimension));
}

/// The table that a value stands in: "duty.overload" of "duty.overload.handle"; empty for one of a section itself.
std::string inner_table(const std::string& path) {
  const auto last = path.rfind('.');
  return last == std::string::npos || path.find('.') == last ? "" : path.substr(0, last);
}

/// Whether two values stand in one row: of one row of a table of data, of one list, or of one table of the study.
bool together(const Echo& a, const Echo& b) {
  if (from_table(a) || from_table(b))
    return from_table(a) && from_table(b) && a.source == b.source && a.given == b.given;
  if (a.path == b.path) return a.line == b.line;
  const std::string table = inner_table(a.path);
  return !table.empty() && table == inner_table(b.path) && (a.line > 0) == (b.line > 0);
}

Row row_of(const std::vector<const Echo*>& echoes, const Study& study) {
  const Echo& first = *echoes.front();
  const bool of_table = from_table(first), named = !of_table && !inner_table(first.path).empty();
  Row row{quantity(of_table || named ? first.path.substr(0, first.path.rfind('.')) : first.path), "", "", "", "", ""};
  for (const Echo* echo : echoes)
    row.value += (row.value.empty() ? ""
                  : of_table        ? "; "
                                    : ", ") +
                 (named ? printed(last_word(echo->path)) + " " : "") + value(*echo, study);
  set_source(first, row);
  if (of_table) row.value = printed(first.given) + ": " + row.value;
  return row;
}

/// Whether a value describes the scatter of an input that is told as it was drawn.
bool is_drawn(const Shown& shown, const std::string& path) {
  if (path.rfind("scatter.", 0) != 0 || !shown.scene) return false;
  const std::string name = path.substr(8, path.find_first_of(".[", 8) - 8);
  const auto& scatter = shown.answer.scatter;
  return std::any_of(scatter.begin(), scatter.end(), [&](const ScatterUsed& used) { return used.name == name; });
}

/// The values of a group, those that belong together in one row, each row of a table once.
std::vector<Row> echoed(const Shown& shown, std::size_t group) {
  const Study& study = shown.result.study;
  std::vector<std::vector<const Echo*>> sets;
  std::vector<std::string> told;
  for (const Echo& echo : study.echoes) {
    if (group_of(echo.path) != group || is_drawn(shown, echo.path)) continue;
    const auto beside =
        std::find_if(sets.begin(), sets.end(), [&](const auto& set) { return together(*set.front(), echo); });
    const auto same = [&](const Echo* it) { return it->path == echo.path && it->given == echo.given; };
    if (beside == sets.end())
      sets.push_back({&echo});
    else if (std::none_of(beside->begin(), beside->end(), same))
      beside->push_back(&echo);
  }
  std::vector<Row> rows;
  for (const auto& set : sets) {
    Row row = row_of(set, study);
    const std::string key = row.what + "|" + row.value + "|" + row.source;
    if (std::find(told.begin(), told.end(), key) != told.end()) continue;
    told.push_back(key);
    rows.push_back(std::move(row));
  }
  return rows;
}

/// What scatters, as it was drawn: the band is that of the passes.
std::vector<Row> scattered(const Shown& shown) {
  std::vector<Row> rows;
  if (!shown.scene) return rows;
  const say::HisUnits his(shown.result.study);
  for (const ScatterUsed& used : shown.answer.scatter) {
    Row row{say::input_words(used.name),
            softened(both(his, used.nominal, used.dimension)),
            "",
            used.varies,
            "study",
            used.said};
    for (std::size_t k = 0; k < models::input_count; ++k) {
      const auto input = static_cast<models::Input>(k);
      if (input_name(shown.result.study.duty, input) != used.name) continue;
      const std::vector<double>& values = shown.scene->row(input);
      row.band = his(quantile(values, 0.05), used.dimension) + " to " + his(quantile(values, 0.95), used.dimension);
      if (shown.result.study.scatter[k].handbook) row.tag = "table";
    }
    row.source += used.source.empty() || used.source == "typed" ? "" : "; " + used.source;
    rows.push_back(std::move(row));
  }
  return rows;
}

std::string group_html(const char* head, const std::vector<Row>& rows) {
  if (rows.empty()) return "";
  std::string html = fmt::format("<tbody><tr class=group><th scope=rowgroup colspan=5>{}", head);
  for (const Row& row : rows) html += row_html(row);
  return html + "</tbody>";
}

}  // namespace

std::string inputs(const Shown& shown) {
  const Study& study = shown.result.study;
  std::string html =
      "<h2>What went in, and where it came from</h2>\n<table class=\"cards inputs\"><thead><tr><th "
      "scope=col>Quantity<th "
      "scope=col>Value<th scope=col>5 % to 95 %<th scope=col>Varies<th scope=col>Source</thead>";
  for (std::size_t i = 0; i < groups.size(); ++i) {
    std::vector<Row> rows = echoed(shown, i);
    if (std::string_view(groups[i].begins) == "scatter.")
      for (Row& row : scattered(shown)) rows.push_back(std::move(row));
    html += group_html(groups[i].head, rows);
  }
  html +=
      "</table>\n<p class=note>study: as it was given. table: shipped with the program, or from the files that the "
      "study names. "
      "assumed: filled in by the program; look at these first.";
  if (!study.held_fixed.empty()) {
    std::vector<std::string> held;
    for (const std::string& input : study.held_fixed) held.push_back(say::input_words(input));
    html += printed(" Held fixed, as no scatter is stated: " + say::joined(held, ", ") + ".");
  }
  return html + "</p>\n";
}

}  // namespace studies::sheet
