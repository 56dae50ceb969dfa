#include "studies/say/rare.hpp"

#include <catch2/catch.hpp>
#include <limits>
#include <nlohmann/json.hpp>

#include "studies/say/json.hpp"
#include "studies/say/sentences.hpp"
#include "studies/say/terminal.hpp"
#include "tests/say/answers.hpp"

using models::Must;
using studies::Bounded;
using studies::say::rare_words;
using Kind = models::Limit::Kind;

namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

/// The press with a limit of yield judged by rare odds.
tests::Told judged_rarely(const Bounded& shortfall, double odds, bool holds) {
  tests::Told told = tests::press();
  studies::LimitVerdict limit = tests::judged(Must::yield, Kind::margin, 1.5, holds ? 1.6 : 1.4, odds,
                                              {1 - shortfall.high, 1 - shortfall.estimate, 1 - shortfall.low}, holds);
  limit.by_rare = true;
  limit.misses = 0;
  told.answer.limits.push_back(limit);
  studies::RareVerdict rare;
  rare.must = Must::yield;
  rare.name = "yield";
  rare.judges = rare.trusted = true;
  rare.reason = "two methods agree";
  rare.shortfall = rare.importance = shortfall;
  rare.subset = {none, none, none};
  rare.beta = 4.5;
  rare.first_order = 3.4e-6;
  rare.points = {{4.5, std::vector<double>(models::input_count, 0.2)}};
  rare.calls = 12345;
  rare.other = {"normal", "lognormal", "two methods agree", {1.1e-5, 1.23e-5, 1.3e-5}, true};
  told.answer.rare = {rare};
  return told;
}

}  // namespace

TEST_CASE("Rare odds are said of a million in two figures, with what leans on the shape of the friction") {
  const tests::Told told = judged_rarely({2.91e-6, 3.214e-6, 3.46e-6}, 0.99999, true);
  CHECK(rare_words(told.answer) ==
        std::vector<std::string>{"Yield of the body falls short in 3.2 of a million pulls (2.9 to 3.5; 10 allowed); "
                                 "with normal friction instead of lognormal in 12."});
}

TEST_CASE("Below one in a million no number is said, only the side of what is allowed") {
  const tests::Told held = judged_rarely({2.9e-8, 3.2e-8, 3.5e-8}, 0.9999999, true);
  const tests::Told missed = judged_rarely({2.9e-7, 3.2e-7, 3.5e-7}, 0.9999999, false);
  CHECK(rare_words(held.answer)[0].find("in fewer than 1 of a million pulls (no more than the 0.1 allowed); with") !=
        std::string::npos);
  CHECK(rare_words(missed.answer)[0].find("in fewer than 1 of a million pulls (but more than the 0.1 allowed); with") !=
        std::string::npos);
}

TEST_CASE("A rounded share stays on the side of what is allowed that it is on") {
  const tests::Told told = judged_rarely({1.01e-5, 1.002e-5, 1.1e-5}, 0.99999, false);
  CHECK(rare_words(told.answer)[0].find("falls short in 11 of a million") != std::string::npos);
}

TEST_CASE("Where the shape of the friction says nothing the reason is given, and alike is said alike") {
  tests::Told told = judged_rarely({2.9e-6, 3.2e-6, 3.5e-6}, 0.99999, true);
  told.answer.rare[0].other->shape = told.answer.rare[0].other->from = "";
  told.answer.rare[0].other->reason = "no friction scatters";
  CHECK(rare_words(told.answer)[0].ends_with("; no other shape of the friction was tried: no friction scatters."));
  told.answer.rare[0].other = {"normal", "lognormal", "", {2.9e-6, 3.2e-6, 3.5e-6}, true};
  CHECK(rare_words(told.answer)[0].ends_with("; the same with normal friction instead of lognormal."));
  told.answer.rare[0].other->trusted = false;
  CHECK(
      rare_words(told.answer)[0].ends_with("; with normal friction instead of lognormal the odds could not be "
                                           "established."));
}

TEST_CASE("Untrusted odds are no sentence, and limits that never fail share one") {
  tests::Told told = judged_rarely({2.9e-6, 3.2e-6, 3.5e-6}, 0.99999, true);
  told.answer.rare[0].trusted = told.answer.rare[0].judges = false;
  CHECK(rare_words(told.answer).empty());
  told.answer.rare[0] = {};
  told.answer.rare[0].must = Must::yield;
  told.answer.rare[0].trusted = true;
  told.answer.rare[0].shortfall = {0, 0, 1e-9};
  told.answer.rare.push_back(told.answer.rare[0]);
  told.answer.rare[1].must = Must::bearing;
  CHECK(rare_words(told.answer) ==
        std::vector<std::string>{"Yield of the body and bearing pressure fall short in fewer than 1 of a million "
                                 "pulls."});
}

TEST_CASE("A task judged by its rare odds is said with them, and the terminal says no count beside it") {
  tests::Told told = judged_rarely({2.91e-6, 3.2e-6, 3.46e-6}, 0.99999, true);
  studies::LimitVerdict& force = told.answer.limits.front();
  force.limit.odds = 0.99999;
  force.by_rare = true;
  told.answer.rare[0].must = Must::force;
  CHECK(studies::verdict_sentence(told.answer)
            .starts_with("Reaches 22 kN in all but 3.2 of a million pulls (2.9 to 3.5; 10 allowed)."));
  const std::string text = studies::terminal_text(judged_rarely({2.9e-6, 3.2e-6, 3.5e-6}, 0.99999, true).answer, false);
  CHECK(text.find("Yield of the body falls short in 3.2 of a million") != std::string::npos);
  CHECK(text.find("yield of the body none") == std::string::npos);
}

TEST_CASE("Rare odds in JSON carry the full numbers, each method and the other shape") {
  using nlohmann::json;
  const tests::Told told = judged_rarely({2.91e-6, 3.214e-6, 3.46e-6}, 0.99999, true);
  const json rare = json::parse(studies::answer_json(told.answer)).at("rare").at(0);
  CHECK(rare["name"] == "yield");
  CHECK(rare["judges"] == true);
  CHECK(rare["shortfall"] == json{{"low", 2.91e-6}, {"estimate", 3.214e-6}, {"high", 3.46e-6}});
  CHECK(rare["first_order"]["estimate"] == 3.4e-6);
  CHECK(rare["first_order"]["points"][0]["distance"] == 4.5);
  CHECK(rare["first_order"]["points"][0]["inputs"][0] ==
        json{{"input", "thread_friction"}, {"value", 0.2}, {"unit", nullptr}});
  CHECK(rare["subset"].is_null());
  CHECK(rare["importance"]["high"] == 3.46e-6);
  CHECK(rare["calls"] == 12345);
  CHECK(rare["other_shape"]["shape"] == "normal");
  CHECK(rare["other_shape"]["instead_of"] == "lognormal");
  CHECK(rare["other_shape"]["estimate"] == 1.23e-5);
}

TEST_CASE("Outputs that are not computed yet are null with that reason") {
  using nlohmann::json;
  const json answer = json::parse(studies::answer_json(tests::press().answer));
  for (const char* name : {"pv", "face_pv", "friction_power", "critical_speed", "wear_life"}) {
    CHECK(answer["outputs"][name]["nominal"].is_null());
    bool noted = false;
    for (const json& note : answer["notes"])
      noted = noted || (note["output"] == name && note["reason"] == "not computed in this version");
    CHECK(noted);
  }
  CHECK(answer["outputs"]["pv"]["unit"] == "Pa.m/s");
}
