/// Comparisons made by hand, in words and as JSON.
#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>
#include <sstream>

#include "studies/say/compare.hpp"
#include "studies/say/compare_words.hpp"
#include "studies/say/wrap.hpp"
#include "tests/say/answers.hpp"

using namespace studies;
using nlohmann::json;
using Kind = Measure::Kind;
using engine::Dimension;
using models::Must;

namespace {

Moved moved(Kind kind, Must must, double from, double to, Bounded change, std::vector<double> by) {
  return {{kind, models::Output::force, must}, from, to, change, std::move(by)};
}

/// The press as it is, and dried with a longer pull: what falls short goes from 3.12 to 5.04 of 100.
Comparison dried() {
  Comparison it;
  it.alterations = {{{{"choose.lubrication", "lubrication", {"oil", {}}, {"dry", {}}}}},
                    {{{"duty.hand_force", "hand force", {"", 140.0, Dimension::force}, {"", 150.0, Dimension::force}}}},
                    {{{"choose.nut_length", "nut length", {"diameters", 1.5}, {"", 0.072, Dimension::length}}}}};
  it.besides = {{"must.force.odds", "odds of force asked", {"95 of 100", {}}, {"90 of 100", {}}}};
  it.moved = {moved(Kind::nominal, Must::force, 25.31e3, 23.11e3, {-2.2e3, -2.2e3, -2.2e3}, {-4e3, 1.8e3, 0}),
              moved(Kind::median, Must::force, 25.2e3, 23e3, {-2.25e3, -2.2e3, -2.15e3}, {-4e3, 1.8e3, 0}),
              moved(Kind::margin, Must::force, 1.15, 1.05, {-0.1, -0.1, -0.1}, {-0.18, 0.08, 0}),
              moved(Kind::shortfall, Must::force, 3.11, 5.03, {1.88, 1.92, 1.96}, {4.123, -2.203, 0}),
              moved(Kind::margin, Must::buckling, 3.97, 2.97, {-1, -1, -1}, {-0.7, -0.3, 0}),
              moved(Kind::shortfall, Must::buckling, 6.9, 6.9, {-0.01, 0, 0.02}, {0, 0, 0})};
  it.passes = 65536;
  it.mixtures = 8;
  return it;
}

struct Pair {
  tests::Told a = tests::press(), b = tests::failing_rate();
  Comparison comparison = dried();
  Compared told(const std::string& one = "results/oiled.h5", const std::string& other = "results/dried.h5") const {
    return {a.answer, b.answer, one, other, comparison};
  }
};

std::vector<std::string> lines_of(const std::string& text) {
  std::istringstream stream(text);
  std::vector<std::string> lines;
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

bool has_line(const std::string& text, const std::string& line) {
  const std::vector<std::string> lines = lines_of(text);
  return std::find(lines.begin(), lines.end(), line) != lines.end();
}

/// No word for a number that is none, in a JSON object, whatever the depth.
void check_finite(const json& value) {
  if (value.is_number_float()) CHECK(std::isfinite(value.get<double>()));
  if (value.is_structured())
    for (const json& each : value) check_finite(each);
}

}  // namespace

TEST_CASE("The sentence of a comparison says who does the task how surely, and by what", "[say]") {
  const Pair pair;
  CHECK(compare_sentence(pair.told()) ==
        "dried reaches 22 kN in 94.9 of 100 pulls where oiled does in 96.9 of 100: of 100, lubrication dry instead of "
        "oil "
        "costs 4.12, hand force 150 N instead of 140 N saves 2.2. dried misses force and buckling, which oiled holds.");
}

TEST_CASE("Without a limit of the task on both sides the sentence tells the values at nominal", "[say]") {
  Pair pair;
  pair.a.answer.limits.clear();
  CHECK(compare_sentence(pair.told()) ==
        "dried reaches 23.1 kN at nominal where oiled reaches 25.3 kN: lubrication dry instead of oil takes 4 kN, hand "
        "force 150 N instead of 140 N adds 1.8 kN.");
}

TEST_CASE("A change within the bounds of the passes is not said to be one", "[say]") {
  Pair pair;
  pair.comparison.moved[3].change = {-0.1, 0.02, 0.12};
  CHECK(compare_sentence(pair.told()).find("no change that these passes can tell") != std::string::npos);
}

TEST_CASE("Two results without a difference are said to have none; what is only asked otherwise is said so", "[say]") {
  Pair pair;
  pair.comparison.alterations.clear();
  for (Moved& it : pair.comparison.moved) it.by.clear();
  CHECK(compare_sentence(pair.told())
            .starts_with("dried is the same screw under the same loads as oiled: only what is "
                         "asked of it, or how, changed."));
  pair.comparison.besides.clear();
  CHECK(compare_sentence(pair.told()) == "Nothing changed between oiled and dried.");
  CHECK(compare_sentence(pair.told("one/press.h5", "two/press.h5")) ==
        "Nothing changed between one/press.h5 and two/press.h5.");
}

TEST_CASE("The page has what changed, outputs, odds and what each change did, with the sum below", "[say]") {
  const Pair pair;
  const std::string text = compare_text(pair.told(), false);
  INFO(text);
  CHECK(has_line(text, "  what changed         oiled      dried"));
  CHECK(has_line(text, "  lubrication          oil        dry"));
  CHECK(has_line(text, "  hand force           140 N      150 N"));
  CHECK(has_line(text, "  nut length           1.5 d      72 mm"));
  CHECK(has_line(text, "  odds of force asked  95 of 100  90 of 100"));
  CHECK(has_line(text, "  force             3.12   5.04, missed  +1.92 (+1.88 to +1.96)"));
  CHECK(has_line(text, "  buckling          6.9    59, missed    none told (-0.01 to +0.02)"));
  CHECK(has_line(text, "  bearing pressure  0.18   -             asked of one only"));
  CHECK(has_line(text, "  what it did  force [kN]  force short  buckling margin  force margin"));
  CHECK(has_line(text, "  lubrication  -4          +4.12        -0.7             -0.18"));
  CHECK(has_line(text, "  hand force   +1.8        -2.2         -0.3             +0.08"));
  CHECK(has_line(text, "  nut length   0           0            0                0"));
  CHECK(has_line(text, "  together     -2.2        +1.92        -1               -0.1"));
  CHECK(text.find("all orders in which the changes could be made") != std::string::npos);
  CHECK(text.find("on 65 536 passes common to both") != std::string::npos);
  CHECK(say::fits(lines_of(text)));
}

TEST_CASE("What cannot be told apart is said so, long words and odd names fit the page", "[say]") {
  Pair pair;
  pair.comparison.every_order = false;
  pair.comparison.alterations[0].differences.push_back(
      {"scatter.thread_friction",
       "thread friction",
       {"handbook", {}},
       {"0.1 to 0.16 inside 80 of 100, lognormal and spread 0.01, normal and spread 0.02, normal", {}}});
  const std::string text = compare_text(pair.told("results/a\x1b[31mvery\nlong name of a press.h5"), false);
  INFO(text);
  CHECK(text.find("Taken as one change, since one cannot be made without the other: lubrication and") !=
        std::string::npos);
  CHECK(text.find("in the order listed and in the opposite one") != std::string::npos);
  CHECK(say::fits(lines_of(text)));
  CHECK(text.find('\x1b') == std::string::npos);
}

TEST_CASE("Units are those of the first study", "[say]") {
  Pair pair;
  pair.a.study.units = {{Dimension::force, "lbf"}};
  CHECK(compare_text(pair.told(), false).find("31.5 lbf") != std::string::npos);
  CHECK(compare_text(pair.told(), false).find("kN") == std::string::npos);
}

TEST_CASE("The JSON of a comparison has every key, one line, and null where there is no number", "[say]") {
  Pair pair;
  pair.comparison.moved[4].from = std::numeric_limits<double>::infinity();
  pair.comparison.moved[4].by = {std::nan(""), std::nan(""), 0};
  const std::string text = compare_json(pair.told());
  CHECK(text.find('\n') == std::string::npos);
  const json object = json::parse(text);
  std::vector<std::string> keys;
  for (const auto& [key, value] : object.items()) keys.push_back(key);
  std::sort(keys.begin(), keys.end());
  CHECK(keys == std::vector<std::string>{"a", "attribution", "b", "changes", "common", "limits", "notes", "outputs",
                                         "program", "sentence", "version"});
  check_finite(object);
  CHECK(object["a"]["file"] == "results/oiled.h5");
  CHECK(object["changes"].size() == 4);
  CHECK(object["changes"][1]["to"] == json{{"words", "150 N"}, {"value", 150.0}, {"unit", "N"}});
  CHECK(object["changes"][2]["from"]["unit"] == "d");
  CHECK(object["changes"][2]["change"] == 2);
  CHECK(object["changes"][3]["change"].is_null());
  CHECK(object["attribution"][0]["of"] == "force");
  CHECK(object["attribution"][0]["by"] == json{-4000.0, 1800.0, 0.0});
  CHECK(object["attribution"][3]["of"] == "shortfall.force");
  CHECK(object["attribution"][3]["told"] == true);
  CHECK(object["attribution"][4]["a"].is_null());
  CHECK(object["attribution"][4]["by"][0].is_null());
  CHECK_FALSE(object["notes"].empty());
  CHECK(object["limits"].size() == 5);
  CHECK(object["limits"][0]["a"]["holds"] == true);
  CHECK(object["limits"][2]["b"].is_null());
  CHECK(object["outputs"]["force"]["unit"] == "N");
}
