#include "studies/say/csv.hpp"

#include <array>
#include <nlohmann/json.hpp>
#include <optional>
#include <utility>

#include "studies/say/units_of_his.hpp"

namespace studies {
namespace {

using Json = nlohmann::ordered_json;

enum class Column {
  section,
  name,
  unit,
  nominal,
  mean,
  spread,
  p5,
  p50,
  p95,
  asked,
  asked_odds,
  has,
  to_spare,
  odds_low,
  odds,
  odds_high,
  holds,
  text,
  si_unit,
  si_per_unit
};
constexpr std::string_view mark_of_utf8 = "\xEF\xBB\xBF", line_end = "\r\n";

/// The dimension of an SI unit as JSON spells it; null is a bare number.
engine::Dimension dimension_of(const Json& unit) {
  if (unit.is_null()) return engine::Dimension::none;
  for (int i = 0; i <= static_cast<int>(engine::Dimension::wear_rate); ++i)
    if (engine::si_unit(static_cast<engine::Dimension>(i)) == unit.get<std::string>())
      return static_cast<engine::Dimension>(i);
  return engine::Dimension::none;
}

/// One line, cell by cell.
class Row {
public:
  Row(std::string_view section, std::string_view name) { (*this)(Column::section, section)(Column::name, name); }

  Row& operator()(Column column, std::string_view text) {
    cells_[static_cast<std::size_t>(column)] = say::csv_cell(text);
    return *this;
  }
  /// A bare number; null stays empty.
  Row& number(Column column, const Json& value) {
    if (value.is_number_integer())
      cells_[static_cast<std::size_t>(column)] = value.dump();
    else if (value.is_number())
      cells_[static_cast<std::size_t>(column)] = say::csv_number(value.get<double>());
    return *this;
  }
  /// SI values, all in the one unit in which the first that is not 0 reads well.
  Row& measured(const say::HisUnits& his, const Json& si_unit, const std::vector<std::pair<Column, Json>>& values);

  std::string line() const {
    std::string text;
    for (const std::string& cell : cells_) text += (&cell == &cells_.front() ? "" : ",") + cell;
    return text + std::string(line_end);
  }

private:
  std::array<std::string, static_cast<std::size_t>(Column::si_per_unit) + 1> cells_;
};

Row& Row::measured(const say::HisUnits& his, const Json& si_unit, const std::vector<std::pair<Column, Json>>& values) {
  const engine::Dimension dimension = dimension_of(si_unit);
  if (dimension == engine::Dimension::none) {
    for (const auto& [column, value] : values) number(column, value);
    return *this;
  }
  double guide = 0;
  for (const auto& [column, value] : values)
    if (guide == 0 && value.is_number()) guide = value.get<double>();
  const std::string unit = his.shown(guide, dimension).unit;
  for (const auto& [column, value] : values)
    if (value.is_number()) number(column, engine::in_unit(value.get<double>(), unit, dimension));
  (*this)(Column::unit, unit)(Column::si_unit, si_unit.get<std::string>());
  return number(Column::si_per_unit, engine::parse_quantity("1 " + unit, dimension).si);
}

std::string yes(const Json& holds) { return holds.get<bool>() ? "yes" : "no"; }

/// A text, or nothing for null.
std::string word(const Json& it) { return it.is_string() ? it.get<std::string>() : std::string(); }

/// Gathers the lines of the parts of one answer.
class Table {
public:
  Table(const Study& study, const Json& answer) : his_(study), answer_(answer) {}

  std::string text() {
    lines_ = csv_header() + std::string(line_end);
    verdict();
    pick();
    for (const Json& it : answer_["limits"]) limit(it);
    for (const auto& [name, it] : answer_["outputs"].items()) output(name, it);
    if (answer_.contains("relax"))
      for (const Json& it : answer_["relax"]) relax(it);
    said();
    provenance();
    return lines_;
  }

private:
  void add(const Row& row) { lines_ += row.line(); }
  void say_text(std::string_view section, std::string_view name, const std::string& text) {
    add(Row(section, name)(Column::text, text));
  }

  void verdict() {
    const Json& it = answer_["verdict"];
    say_text("answer", "study", word(answer_["study"]));
    say_text("answer", "title", word(answer_["title"]));
    add(Row("answer", "verdict")(Column::holds, yes(it["holds"]))(Column::text, word(it["sentence"])));
    say_text("answer", "governs", word(it["governs"]));
    say_text("answer", "tightest", word(it["tightest"]));
    if (answer_.contains("search"))
      add(Row("answer", "proven")(Column::holds, yes(answer_["search"]["proven"]))
              .number(Column::nominal, answer_["search"]["candidates"])(Column::unit, "candidates"));
  }

  void pick() {
    if (answer_["pick"].is_null()) return;
    for (const auto& [name, it] : answer_["pick"].items()) {
      if (it.is_object())
        add(Row("pick", name).measured(his_, it["unit"], {{Column::nominal, it["value"]}}));
      else if (it.is_number())
        add(Row("pick", name).number(Column::nominal, it));
      else
        say_text("pick", name, word(it));
    }
  }

  void limit(const Json& it) {
    const std::string kind = it["asks"].items().begin().key();
    const Json& asks = it["asks"].front();
    Row row("limit", it["name"].get<std::string>());
    row.measured(his_, it["has"]["unit"],
                 {{Column::asked, asks.is_object() ? asks["value"] : asks}, {Column::has, it["has"]["value"]}});
    row.number(Column::asked_odds, it["asks"]["odds"]).number(Column::to_spare, it["spare"]);
    row.number(Column::odds_low, it["odds"]["low"]).number(Column::odds, it["odds"]["estimate"]);
    row.number(Column::odds_high, it["odds"]["high"]);
    add(row(Column::holds, yes(it["holds"]))(Column::text, kind));
  }

  void output(const std::string& name, const Json& it) {
    const auto at = [&](const char* share) { return it["quantiles"][share]["estimate"]; };
    add(Row("output", name)
            .measured(his_, it["unit"],
                      {{Column::nominal, it["nominal"]},
                       {Column::mean, it["mean"]},
                       {Column::spread, it["spread"]},
                       {Column::p5, at("0.05")},
                       {Column::p50, at("0.5")},
                       {Column::p95, at("0.95")}}));
  }

  void relax(const Json& it) {
    const std::string limit = word(it["limit"]);
    add(Row("would do", limit.empty() ? word(it["change"]) : limit)
            .measured(his_, it["unit"], {{Column::asked, it["was"]}, {Column::has, it["to"]}})(Column::text,
                                                                                               word(it["admits"])));
  }

  void said() {
    for (const Json& it : answer_["cautions"]) say_text("caution", word(it["level"]), word(it["text"]));
    for (const Json& it : answer_["assumptions"]) say_text("assumed", "", word(it));
    for (const Json& it : answer_["not_checked"]) say_text("not checked", "", word(it));
  }

  void provenance() {
    for (const auto& [name, it] : answer_["provenance"].items())
      add(it.is_number() ? Row("run", name).number(Column::nominal, it) : Row("run", name)(Column::text, word(it)));
    say_text("run", "version", word(answer_["version"]));
  }

  say::HisUnits his_;
  const Json& answer_;
  std::string lines_;
};

}  // namespace

const std::vector<std::string_view>& csv_columns() {
  static const std::vector<std::string_view> names = {
      "section",    "name", "unit",     "nominal",  "mean", "spread",    "p5",    "p50",  "p95",     "asked",
      "asked_odds", "has",  "to_spare", "odds_low", "odds", "odds_high", "holds", "text", "si_unit", "si_per_unit"};
  return names;
}

std::string csv_header() {
  std::string line(mark_of_utf8);
  for (const std::string_view name : csv_columns())
    line += (name == csv_columns().front() ? "" : ",") + std::string(name);
  return line;
}

std::string csv_text(const Study& study, const std::string& answer_json) {
  const Json answer = Json::parse(answer_json);
  return Table(study, answer).text();
}

}  // namespace studies
