/// The table for a spreadsheet, cell by cell against the JSON object.
#include <catch2/catch.hpp>

#include <cstdlib>
#include <nlohmann/json.hpp>
#include <set>

#include "studies/say/csv.hpp"
#include "studies/say/json.hpp"
#include "tests/say/answers.hpp"
#include "tests/say/csv_reader.hpp"

using nlohmann::json;
using studies::say::csv_cell;
using studies::say::csv_number;

namespace {

const std::string mark = "\xEF\xBB\xBF";

using Line = std::map<std::string, std::string>;

std::vector<Line> table_of(const tests::Told& told) {
  const std::string text = studies::csv_text(told.study, studies::answer_json(told.answer));
  REQUIRE(text.starts_with(mark));
  return tests::csv_table(text.substr(mark.size()));
}

/// A cell in SI: what stands there times the unit of its line.
void check_cell(const Line& line, const std::string& column, const json& si) {
  INFO(line.at("section") << " " << line.at("name") << " " << column);
  REQUIRE(line.at(column).empty() == si.is_null());
  if (si.is_null()) return;
  CHECK(line.at(column).find_first_not_of("-.0123456789") == std::string::npos);
  const double factor = line.at("si_per_unit").empty() ? 1 : std::stod(line.at("si_per_unit"));
  CHECK(std::stod(line.at(column)) * factor == Approx(si.get<double>()).epsilon(4e-16).margin(0));
}

void check_outputs(const std::vector<Line>& table, const json& outputs) {
  std::size_t found = 0;
  for (const auto& [name, it] : outputs.items()) {
    const Line line = tests::csv_line(table, "output", name);
    REQUIRE(!line.empty());
    ++found;
    CHECK(line.at("si_unit") == (it["unit"].is_null() ? "" : it["unit"].get<std::string>()));
    for (const char* column : {"nominal", "mean", "spread"}) check_cell(line, column, it[column]);
    check_cell(line, "p5", it["quantiles"]["0.05"]["estimate"]);
    check_cell(line, "p50", it["quantiles"]["0.5"]["estimate"]);
    check_cell(line, "p95", it["quantiles"]["0.95"]["estimate"]);
  }
  CHECK(found == outputs.size());
}

void check_limits(const std::vector<Line>& table, const json& limits) {
  for (const json& it : limits) {
    const Line line = tests::csv_line(table, "limit", it["name"]);
    REQUIRE(!line.empty());
    const json& asks = it["asks"];
    for (const char* kind : {"margin", "at_least", "at_most"})
      if (asks.contains(kind)) {
        CHECK(line.at("text") == kind);
        check_cell(line, "asked", asks[kind].is_object() ? asks[kind]["value"] : asks[kind]);
      }
    check_cell(line, "has", it["has"]["value"]);
    CHECK(line.at("asked_odds") == (asks["odds"].is_null() ? "" : csv_number(asks["odds"])));
    CHECK(line.at("to_spare") == (it["spare"].is_null() ? "" : csv_number(it["spare"])));
    CHECK(line.at("odds_low") == csv_number(it["odds"]["low"]));
    CHECK(line.at("odds") == csv_number(it["odds"]["estimate"]));
    CHECK(line.at("odds_high") == csv_number(it["odds"]["high"]));
    CHECK(line.at("holds") == (it["holds"].get<bool>() ? "yes" : "no"));
  }
}

}  // namespace

TEST_CASE("Every number of the table for a spreadsheet is that of the JSON object, in the units of the study") {
  for (const tests::Told& told : {tests::press(), tests::failing_rate(), tests::nothing_passes(), tests::no_must(),
                                  tests::lift(), tests::inch_press()}) {
    const std::vector<Line> table = table_of(told);
    const json object = json::parse(studies::answer_json(told.answer));
    INFO(object["title"]);
    check_outputs(table, object["outputs"]);
    check_limits(table, object["limits"]);
    CHECK(tests::csv_line(table, "answer", "verdict").at("text") == object["verdict"]["sentence"]);
    CHECK(tests::csv_line(table, "pick", "designation").empty() == object["pick"].is_null());
    if (object["pick"].is_null()) continue;
    CHECK(tests::csv_line(table, "pick", "designation").at("text") == object["pick"]["designation"]);
    for (const char* name : {"diameter", "pitch", "nut_length", "mass"})
      check_cell(tests::csv_line(table, "pick", name), "nominal", object["pick"][name]["value"]);
  }
}

TEST_CASE("The table of an inch study is in inch units, and that of a metric one is not") {
  CHECK(tests::csv_line(table_of(tests::inch_press()), "pick", "diameter").at("unit") == "in");
  CHECK(tests::csv_line(table_of(tests::press()), "pick", "diameter").at("unit") == "mm");
}

TEST_CASE("Where nothing passes the table says what would do") {
  const tests::Told told = tests::nothing_passes();
  const json object = json::parse(studies::answer_json(told.answer));
  const std::vector<Line> table = table_of(told);
  REQUIRE(!object["relax"].empty());
  for (const json& it : object["relax"]) {
    const Line line = tests::csv_line(table, "would do", it["limit"].is_null() ? it["change"] : it["limit"]);
    REQUIRE(!line.empty());
    check_cell(line, "asked", it["was"]);
    check_cell(line, "has", it["to"]);
    CHECK(line.at("text") == it["admits"]);
  }
}

TEST_CASE("The header names each column once, and every line has a cell for it") {
  const std::string text = studies::csv_text(tests::press().study, studies::answer_json(tests::press().answer));
  const std::vector<tests::CsvRow> rows = tests::csv_rows(text.substr(mark.size()));
  CHECK(rows.front().size() == studies::csv_columns().size());
  CHECK(std::set<std::string>(rows.front().begin(), rows.front().end()).size() == rows.front().size());
  CHECK(text.starts_with(studies::csv_header() + "\r\n"));
  for (const tests::CsvRow& row : rows) CHECK(row.size() == rows.front().size());
}

TEST_CASE("A text that a spreadsheet would run as a formula has an apostrophe before it") {
  for (const std::string text : {"=1+1", "+1", "-1", "@SUM(A1)", "  =1+1", "\t=1+1", "\r=1+1"}) {
    INFO(text);
    const std::string cell = tests::csv_rows(csv_cell(text) + "\r\n").front().front();
    CHECK(cell.front() == '\'');
  }
  CHECK(csv_cell("Tr 40x7") == "Tr 40x7");
  CHECK(csv_cell("=HYPERLINK(\"a\",\"b\")") == "\"'=HYPERLINK(\"\"a\"\",\"\"b\"\")\"");
}

TEST_CASE("Odd titles come back from the table as they were typed") {
  for (const std::string title : {"Press, 40 mm", "The \"big\" one", "T\xC3\xBCr", "'quoted'", "a;b", " blank first"}) {
    tests::Told told = tests::press();
    told.study.title = title;
    CHECK(tests::csv_line(table_of(told), "answer", "title").at("text") == title);
  }
  tests::Told told = tests::press();
  told.study.title = "two\nlines\x01";
  CHECK(tests::csv_line(table_of(told), "answer", "title").at("text") == "two lines ");
}

TEST_CASE("Numbers are plain decimals from the least to the greatest, with every figure") {
  CHECK(csv_number(0.1) == "0.1");
  CHECK(csv_number(-2.5e-7) == "-0.00000025");
  CHECK(csv_number(1e21) == "1000000000000000000000");
  for (const double value : {1.0 / 3, 5e-324, 1.7976931348623157e308, 2.2250738585072014e-308}) {
    const std::string text = csv_number(value);
    CHECK(text.find('e') == std::string::npos);
    CHECK(std::strtod(text.c_str(), nullptr) == value);
  }
}
