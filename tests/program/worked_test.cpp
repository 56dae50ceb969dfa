/// Published values through the public face: every study in worked/ is run once and compared with worked/expected.csv.
#include <catch2/catch.hpp>

#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <stdexcept>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "tests/program/call.hpp"

namespace {

namespace fs = std::filesystem;
using nlohmann::json;

const fs::path folder = fs::path(SCREWTINY_SOURCE) / "tests" / "program" / "worked";

/// One published value and where it stands.
struct Row {
  std::string study;      ///< name of the file without .toml; studies named search_… are sized, the others rated
  std::string what;       ///< an output, or "pick." and a part of the pick
  std::string value;      ///< as published; a number but for designations
  std::string unit;       ///< of value; empty for a bare number
  std::string tolerance;  ///< "0.005" in that unit, or "0.2 %" of the value; empty for a text
  std::string source, mark;
  std::string kind;     ///< worked example, standard, table or search
  std::string formula;  ///< what is being checked
};

std::vector<std::string> cells(const std::string& line) {
  std::vector<std::string> all;
  std::string cell;
  for (const char letter : line) letter == ',' ? void((all.push_back(cell), cell.clear())) : void(cell += letter);
  all.push_back(cell);
  return all;
}

std::vector<Row> read_rows() {
  std::ifstream file(folder / "expected.csv");
  std::string line;
  if (!std::getline(file, line) || line != "study,what,value,unit,tolerance,source,mark,kind,formula")
    throw std::runtime_error("expected.csv: not the columns that are read here");
  std::vector<Row> rows;
  while (std::getline(file, line)) {
    const std::vector<std::string> c = cells(line);
    if (c.size() != 9) throw std::runtime_error("expected.csv: nine cells are due in: " + line);
    rows.push_back({c[0], c[1], c[2], c[3], c[4], c[5], c[6], c[7], c[8]});
  }
  return rows;
}

const std::vector<Row>& rows() {
  static const std::vector<Row> all = read_rows();
  return all;
}

/// A unit of the table in the SI unit that the program writes.
struct Scale {
  std::string si;
  double factor;
};

Scale scale(const std::string& unit) {
  constexpr double inch = 0.0254, pound = 4.4482216152605;  // exact by definition
  static const std::map<std::string, Scale> known = {{"", {"", 1}},
                                                     {"%", {"", 0.01}},
                                                     {"mm", {"m", 1e-3}},
                                                     {"in", {"m", inch}},
                                                     {"N", {"N", 1}},
                                                     {"kN", {"N", 1e3}},
                                                     {"N.m", {"N.m", 1}},
                                                     {"N.mm", {"N.m", 1e-3}},
                                                     {"lbf.in", {"N.m", pound * inch}},
                                                     {"MPa", {"Pa", 1e6}},
                                                     {"psi", {"Pa", pound / (inch * inch)}}};
  return known.at(unit);
}

/// Tolerance of a row in its own unit.
double allowed(const Row& row) {
  const bool relative = row.tolerance.back() == '%';
  return std::stod(row.tolerance) * (relative ? std::abs(std::stod(row.value)) / 100 : 1);
}

/// Whether a value in the row's unit is the published one.
bool agrees(double ours, const Row& row) { return std::abs(ours - std::stod(row.value)) <= allowed(row); }

struct Run {
  int exit_code = -1;
  json answer;         ///< null where nothing could be read
  std::string errors;  ///< what went to stderr
};

Run run(const std::string& study) {
  static const tests::Folder scratch;
  const std::string verb = study.rfind("search_", 0) == 0 ? "size" : "rate";
  const tests::Ran ran = tests::run({verb, (folder / (study + ".toml")).string(), "--json", "--quiet"}, scratch);
  return {ran.code, json::parse(ran.out, nullptr, false), ran.err};
}

/// Each study is run once a test program.
const Run& run_once(const std::string& study) {
  static std::map<std::string, Run> done;
  const auto found = done.find(study);
  return found != done.end() ? found->second : done.emplace(study, run(study)).first->second;
}

/// What the answer says of a row: a text, or an object with the number and its unit.
json said(const json& answer, const std::string& what) {
  if (what.rfind("pick.", 0) == 0) return answer.at("pick").at(what.substr(5));
  const json& output = answer.at("outputs").at(what);
  return json{{"value", output.at("nominal")}, {"unit", output.at("unit")}};
}

/// The answer's number in the row's unit.
/// @throws nlohmann::json::exception where it has none, std::runtime_error where it is in another unit than the SI one
/// due
double ours(const json& answer, const Row& row) {
  const json it = said(answer, row.what);
  const Scale due = scale(row.unit);
  const std::string unit = it.at("unit").is_null() ? "" : it.at("unit").get<std::string>();
  if (unit != due.si) throw std::runtime_error(row.what + " is in '" + unit + "' where '" + due.si + "' is due");
  return it.at("value").get<double>() / due.factor;
}

const Row& row_of(const std::string& study, const std::string& what) {
  for (const Row& row : rows())
    if (row.study == study && row.what == what) return row;
  throw std::runtime_error("expected.csv: no row " + study + " " + what);
}

}  // namespace

TEST_CASE("The published values come out of the program", "[published]") {
  for (const Row& row : rows()) {
    DYNAMIC_SECTION(row.study << " " << row.what) {
      const Run& it = run_once(row.study);
      INFO(row.source << " (" << row.mark << "): " << row.value << " " << row.unit << " within " << row.tolerance);
      INFO(it.errors);
      REQUIRE(it.exit_code == 0);
      REQUIRE(it.answer.is_object());
      if (row.tolerance.empty()) {
        CHECK(said(it.answer, row.what) == row.value);
      } else {
        const double here = ours(it.answer, row);
        INFO("here: " << here << " " << row.unit);
        CHECK(agrees(here, row));
      }
    }
  }
}

TEST_CASE("The table of published values is broad: seventy rows, thirty of them worked examples", "[published]") {
  std::map<std::string, int> of_kind;
  std::map<std::pair<std::string, std::string>, int> of_formula;
  std::set<std::pair<std::string, std::string>> seen;
  for (const Row& row : rows()) {
    ++of_kind[row.kind];
    ++of_formula[{row.formula, row.kind}];
    INFO(row.study << " " << row.what);
    CHECK(seen.insert({row.study, row.what}).second);
    CHECK((row.mark == "seen" || row.mark == "from memory" || row.mark == "recomputed"));
  }
  CHECK(rows().size() >= 70);
  CHECK(of_kind["worked example"] >= 30);
  CHECK(of_kind["search"] >= 1);
  for (const auto& [formula, count] : of_formula) {
    INFO(formula.first << " from a " << formula.second);
    CHECK(count <= 3);
  }
}

TEST_CASE("Every thread form has its pitch and root diameters among the published values", "[published]") {
  std::set<std::string> formulas;
  for (const Row& row : rows()) formulas.insert(row.formula);
  for (const std::string form :
       {"acme", "stub acme", "trapezoidal", "square", "buttress 7-45", "buttress 3-30", "iso metric", "unified"}) {
    INFO(form);
    CHECK(formulas.count("pitch diameter " + form) == 1);
    CHECK(formulas.count("root diameter " + form) == 1);
  }
}

TEST_CASE("Every study beside the table stands in it, and every study in the table is there", "[published]") {
  std::set<std::string> named, there;
  for (const Row& row : rows()) named.insert(row.study);
  for (const fs::directory_entry& entry : fs::directory_iterator(folder))
    if (entry.path().extension() == ".toml") there.insert(entry.path().stem().string());
  CHECK(named == there);
}

TEST_CASE("A value computed by the wrong formula is rejected", "[published]") {
  constexpr double pi = 3.14159265358979323846;
  // a square thread in place of the trapezoidal one
  const double tan_λ = 24 / (pi * 94);
  CHECK_FALSE(agrees(300e3 * 0.047 * (tan_λ + 0.15) / (1 - 0.15 * tan_λ), row_of("e06_bhandari_6_2", "torque")));
  // uniform wear in place of uniform pressure
  CHECK_FALSE(agrees(100e3 * 0.15 * (42 + 10.5) / 2, row_of("e19_sadhu_singh_9_6_jack", "face_torque")));
  // Euler in place of Johnson
  CHECK_FALSE(agrees(0.25 * pi * pi * 200e6 / (44.9 * 44.9) * pi * 400e-6,
                     row_of("e19_sadhu_singh_9_6_jack", "buckling_load")));
  // the pitch in place of the lead
  CHECK_FALSE(agrees(0.311 / 2, row_of("e01_shigley_8_1", "efficiency")));
  // the Acme clearance on radius in place of diameter
  CHECK_FALSE(agrees(0.79, row_of("geometry_acme_1_5", "pick.root_diameter")));
}

TEST_CASE("A published value that is altered by two per cent is rejected", "[published]") {
  for (Row row : rows()) {
    if (row.tolerance.empty() || row.formula == "torque of a bolt") continue;  // K is published as about 0.20
    INFO(row.study << " " << row.what);
    const double published = std::stod(row.value);
    CHECK(agrees(published, row));
    CHECK_FALSE(agrees(published * 1.02, row));
    CHECK_FALSE(agrees(published * 0.98, row));
  }
}

TEST_CASE("The published values beside those of the program", "[.table]") {
  for (const Row& row : rows()) {
    const Run& it = run_once(row.study);
    if (!it.answer.is_object() || it.exit_code != 0) {
      std::printf("%-32s %-24s exit code %d %s\n", row.study.c_str(), row.what.c_str(), it.exit_code,
                  it.errors.c_str());
      continue;
    }
    const std::string here =
        row.tolerance.empty() ? said(it.answer, row.what).get<std::string>() : std::to_string(ours(it.answer, row));
    const bool good = row.tolerance.empty() ? here == row.value : agrees(ours(it.answer, row), row);
    std::printf("%-32s %-24s %14s %18s %-7s %-8s %-3s %s (%s)\n", row.study.c_str(), row.what.c_str(),
                row.value.c_str(), here.c_str(), row.unit.c_str(), row.tolerance.c_str(), good ? "ok" : "NO",
                row.source.c_str(), row.mark.c_str());
  }
}
