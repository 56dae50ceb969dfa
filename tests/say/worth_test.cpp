/// Other choices and the sizes beside the pick, in words and in JSON.
#include <catch2/catch.hpp>

#include <cmath>
#include <nlohmann/json.hpp>

#include "studies/say/json.hpp"
#include "studies/say/window.hpp"
#include "studies/say/worth.hpp"
#include "studies/say/wrap.hpp"
#include "tests/say/answers.hpp"

using nlohmann::json;
using studies::say::other_choices;
using studies::say::window_words;

namespace {

/// A press whose sizes hold or miss as said.
tests::Told press_with(const std::vector<std::optional<models::Must>>& misses) {
  tests::Told told = tests::press();
  const studies::Neighbour any = told.answer.window[1];
  told.answer.window.clear();
  int diameter = 30;
  for (const std::optional<models::Must>& miss : misses) {
    studies::Neighbour it = any;
    it.verdict.designation = "Tr " + std::to_string(diameter += 2) + "x6";
    it.verdict.passes = !miss;
    it.verdict.misses = miss;
    told.answer.window.push_back(it);
  }
  return told;
}

constexpr auto holds = std::optional<models::Must>();

}  // namespace

TEST_CASE("Other choices are said in five lines at most, the most helpful first, with what they miss") {
  tests::Told told = tests::press();
  CHECK(
      other_choices(told.answer) ==
      "What another choice would do, at the same pull and each friction at the same place of its range: a rolling "
      "bearing of the same radius instead of the pad: 1.51 kN more force, helps in 100 of 100, passes; Tr 40x3 instead "
      "of Tr 40x7: 1.21 kN more force, helps in 73.1 of 100, 412 g heavier, misses bearing pressure and overload pull; "
      "two more with --json.");
  told.answer.worth.erase(told.answer.worth.begin(), told.answer.worth.begin() + 3);
  CHECK(other_choices(told.answer) ==
        "What another choice would do, at the same pull and each friction at the same place of its range: two starts "
        "instead of one: 4.2 kN less force, helps in 0.21 of 100, misses force and self-locking; dry instead of oiled: "
        "6.12 kN less force, helps in 0 of 100, misses force.");
  for (const tests::Told& each : {tests::press(), tests::inch_press()})
    CHECK(studies::say::wrapped(other_choices(each.answer)).size() <= 5);
}

TEST_CASE("Where no other choice does anything nothing is said of them; what jams has no number") {
  tests::Told told = tests::press();
  told.answer.worth = {told.answer.worth[2], told.answer.worth.back()};
  CHECK(other_choices(told.answer).empty());
  told.answer.worth = {tests::press().answer.worth[4]};
  told.answer.worth[0].mean = told.answer.worth[0].share = std::nan("");
  CHECK(other_choices(told.answer) ==
        "What another choice would do, at the same pull and each friction at the same place of its range: dry instead "
        "of oiled: jams on some passes, helps in 0 of 100, misses force.");
  CHECK(other_choices(tests::no_must().answer).empty());
}

TEST_CASE("The window is said as it is, whatever holds") {
  using models::Must;
  const auto b = std::optional(Must::buckling), y = std::optional(Must::yield), f = std::optional(Must::force);
  CHECK(window_words(tests::press().answer) ==
        "Window: only Tr 40x7 holds; a smaller one buckles, a bigger one falls short of the force.");
  CHECK(
      window_words(press_with({b, b, y, holds, holds, f}).answer) ==
      "Window: Tr 38x6 to Tr 40x6 hold; a smaller one buckles or is too weak in the body, a bigger one falls short of "
      "the force.");
  CHECK(window_words(press_with({b, holds, holds}).answer) ==
        "Window: Tr 34x6 to Tr 36x6 hold; a smaller one buckles.");
  CHECK(window_words(press_with({holds, holds}).answer) == "Window: Tr 32x6 to Tr 34x6 hold, all there are.");
  CHECK(window_words(press_with({b, holds, f, holds, f}).answer) ==
        "Of five sizes from Tr 32x6 to Tr 40x6 two hold: Tr 34x6 and Tr 38x6.");
  CHECK(window_words(press_with({holds}).answer).empty());
  CHECK(window_words(tests::nothing_passes().answer).empty());
}

TEST_CASE("Window and worth in JSON: null where there is no number, with the reason") {
  const json object = json::parse(studies::answer_json(tests::press().answer));
  CHECK(object["window"].size() == 3);
  CHECK(object["window"][0]["misses"] == json{"buckling", "bearing", "overload"});
  CHECK(object["window"][0]["diameter"] == json{{"value", 0.038}, {"unit", "m"}});
  CHECK(object["window"][1] == json{{"designation", "Tr 40x7"},
                                    {"diameter", {{"value", 0.04}, {"unit", "m"}}},
                                    {"mass", {{"value", 5.8912}, {"unit", "kg"}}},
                                    {"holds", true},
                                    {"misses", json::array()},
                                    {"why", nullptr}});
  const json& dry = object["worth"][4];
  CHECK(dry["change"] == "lubrication");
  CHECK(dry["offered"] == true);
  CHECK(dry["of"] == "force");
  CHECK(dry["change_mean"] == json{{"value", -6123.4}, {"unit", "N"}});
  CHECK(dry["helps"]["passes"] == 65536);
  CHECK(dry["misses"] == json{"force"});
  CHECK(dry["why"].is_null());
  const json& impossible = object["worth"][5];
  CHECK(impossible["change_nominal"] == json{{"value", nullptr}, {"unit", "N"}});
  CHECK(impossible["helps"].is_null());
  CHECK(impossible["why"] == "0.8 engaged turns, where at least 1 is needed");
  CHECK(json::parse(studies::answer_json(tests::nothing_passes().answer))["worth"] == json::array());
}
