#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "studies/say/json.hpp"
#include "tests/say/answers.hpp"

using nlohmann::json;
using studies::answer_json;

namespace {

bool has_note(const json& object, const std::string& output) {
  for (const json& note : object["notes"])
    if (note["output"] == output && !note["reason"].get<std::string>().empty()) return true;
  return false;
}

void check_common_shape(const json& object) {
  for (const char* key : {"program", "version", "study", "title"}) CHECK(object.at(key).is_string());
  CHECK(object.at("verdict").at("holds").is_boolean());
  CHECK(object["verdict"].at("sentence").is_string());
  CHECK(object["verdict"].contains("governs"));
  CHECK(object["verdict"].contains("tightest"));
  CHECK(object.at("outputs").is_object());
  for (const char* key : {"limits", "scatter", "cautions", "not_checked", "notes", "reached", "assumptions", "worth"})
    CHECK(object.at(key).is_array());
  CHECK(object.contains("pick"));
  for (const char* key : {"study_digest", "tables_digest", "plan"}) CHECK(object.at("provenance").at(key).is_string());
  CHECK(object["provenance"].at("key").is_number_unsigned());
  CHECK(object["provenance"].at("passes").is_number_unsigned());
}

}  // namespace

TEST_CASE("Every answer is one line that parses, with every key of its kind") {
  for (const tests::Told& told : {tests::press(), tests::failing_rate(), tests::nothing_passes(), tests::no_must(),
                                  tests::lift(), tests::inch_press()}) {
    const std::string text = answer_json(told.answer);
    CHECK(text.find('\n') == std::string::npos);
    const json object = json::parse(text);  // refuses nan and inf
    check_common_shape(object);
    for (const char* key : {"search", "lighter", "relax", "next_size_down", "next_size_up", "window"})
      CHECK(object.contains(key) == told.answer.sized);
  }
}

TEST_CASE("A press in JSON is in SI units with its limits as asked") {
  const json object = json::parse(answer_json(tests::press().answer));
  CHECK(object["verdict"]["governs"] == "buckling");
  CHECK(object["verdict"]["tightest"] == "overload");
  CHECK(object["verdict"]["holds"] == true);
  CHECK(object["pick"]["designation"] == "Tr 40x7");
  CHECK(object["pick"]["form"] == "trapezoidal");
  CHECK(object["pick"]["diameter"] == json{{"value", 0.04}, {"unit", "m"}});
  CHECK(object["pick"]["mass"]["unit"] == "kg");
  CHECK(object["pick"]["starts"] == 1);
  CHECK(object["outputs"]["force"]["unit"] == "N");
  CHECK(object["outputs"]["lock_margin"]["unit"].is_null());
  CHECK(object["outputs"]["force"]["quantiles"].size() == 9);
  for (const char* point : {"0.001", "0.01", "0.05", "0.25", "0.5", "0.75", "0.95", "0.99", "0.999"})
    CHECK(object["outputs"]["force"]["quantiles"][point]["estimate"].is_number());
  const json& limits = object["limits"];
  CHECK(limits[0]["asks"] == json{{"at_least", {{"value", 22e3}, {"unit", "N"}}}, {"odds", 0.95}});
  CHECK(limits[1]["asks"] == json{{"margin", 3.0}, {"odds", nullptr}});
  CHECK(limits[1]["has"] == json{{"value", 3.3091}, {"unit", nullptr}});
  CHECK(limits[2]["asks"] == json{{"at_most", {{"value", 12e6}, {"unit", "Pa"}}}, {"odds", 0.95}});
  for (const json& limit : limits) {
    for (const char* key : {"low", "estimate", "high", "passes"}) CHECK(limit["odds"][key].is_number());
    CHECK(limit["spare"].is_number());
    CHECK(limit["nominal_margin"].is_number());
    CHECK(limit["holds"].is_boolean());
  }
  for (const char* key : {"candidates", "examined", "ruled_out", "gap", "model_calls"})
    CHECK(object["search"].at(key).is_number());
  CHECK(object["search"]["proven"] == true);
  CHECK(object["lighter"][0]["misses"] == "buckling");
  CHECK(object["lighter"][0]["has"] == 2.4713);
  CHECK(object["next_size_down"]["mass"]["unit"] == "kg");
  CHECK(object["relax"] == json::array());
  CHECK(object["scatter"][1]["source"] == "held fixed: not stated");
  CHECK(object["cautions"][0]["level"] == "WARNING");
}

TEST_CASE("What does not exist is null with a reason") {
  const json object = json::parse(answer_json(tests::press().answer));
  CHECK(object["outputs"]["stroke_time"]["nominal"].is_null());
  CHECK(object["outputs"]["stroke_time"]["quantiles"]["0.5"]["low"].is_null());
  CHECK(has_note(object, "stroke_time"));
  CHECK(object["reached"][3]["torque"]["value"].is_null());
  CHECK(has_note(object, "reached.buckling"));
}

TEST_CASE("Where nothing passes the pick is null and the rest empty, with what to relax") {
  const json object = json::parse(answer_json(tests::nothing_passes().answer));
  CHECK(object["pick"].is_null());
  CHECK(object["outputs"] == json::object());
  CHECK(object["limits"] == json::array());
  CHECK(object["verdict"]["holds"] == false);
  CHECK(object["verdict"]["governs"].is_null());
  CHECK(object["relax"][0]["limit"] == "force");
  CHECK(object["relax"][0]["change"] == "limit");
  CHECK(object["relax"][0]["was"] == 22000.0);
  CHECK(object["relax"][0]["to"] == 20100.0);
  CHECK(object["relax"][0]["admits"] == "Tr 40x7");
}

TEST_CASE("Rate has no governing limit, holds without limits, and says that an aim is not used") {
  tests::Told told = tests::no_must();
  told.answer.governs = models::Must::force;
  told.study.aim_typed = true;
  const json object = json::parse(answer_json(told.answer));
  CHECK(object["verdict"]["governs"].is_null());
  CHECK(object["verdict"]["tightest"].is_null());
  CHECK(object["verdict"]["holds"] == true);
  CHECK(object["limits"] == json::array());
  CHECK(has_note(object, "aim"));
}

TEST_CASE("Titles with quotes, line breaks and broken bytes stay one line and come back") {
  tests::Told told = tests::press();
  told.study.title = "A \"big\"\npress\u2028\\ é\u0085";
  told.study.path = "odd\xff.toml";
  const std::string text = answer_json(told.answer);
  for (const char* end : {"\n", "\r", "\u2028", "\u0085"}) CHECK(text.find(end) == std::string::npos);
  CHECK(json::parse(text)["title"] == told.study.title);
}

TEST_CASE("Errors are listed with place, reason and fix") {
  const engine::Refusal refusal(engine::ExitCode::study, {engine::Problem{"press.toml", 14, 3, "unknown key 'ptich'",
                                                                          "no such key", "type 'pitch'"},
                                                          engine::Problem{"press.toml", 0, 0, "no title", "", ""}});
  const json object = json::parse(studies::errors_json("press.toml", refusal));
  CHECK(object["program"] == "screwtiny");
  CHECK(object["study"] == "press.toml");
  CHECK(object["version"].is_string());
  CHECK(object["errors"][0] == json{{"file", "press.toml"},
                                    {"line", 14},
                                    {"column", 3},
                                    {"problem", "unknown key 'ptich'"},
                                    {"reason", "no such key"},
                                    {"fix", "type 'pitch'"}});
  CHECK(object["errors"][1]["line"].is_null());
}
