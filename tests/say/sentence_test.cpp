#include <catch2/catch.hpp>

#include <limits>

#include "studies/say/neighbours.hpp"
#include "studies/say/sentences.hpp"
#include "tests/say/answers.hpp"

using models::Must;
using Kind = models::Limit::Kind;
using studies::verdict_sentence;

TEST_CASE("A press that holds says how surely it reaches its force and what governs") {
  CHECK(verdict_sentence(tests::press().answer) ==
        "Reaches 22 kN in 97 of 100 pulls (3.12 fall short, 3.08 to 3.15; 5 allowed). Every margin holds. "
        "Buckling governs.");
}

TEST_CASE("A share just below the one asked is not rounded up to it") {
  CHECK(verdict_sentence(tests::failing_rate().answer) ==
        "Reaches 22 kN in 94.9 of 100 pulls (5.04 fall short, 5 to 5.09; 5 allowed). "
        "Two limits missed: force, buckling.");
}

TEST_CASE("A single missed limit is said with what it has and what is asked") {
  tests::Told told = tests::failing_rate();
  told.answer.limits.front() = tests::press().answer.limits.front();
  CHECK(verdict_sentence(told.answer) ==
        "Reaches 22 kN in 97 of 100 pulls (3.12 fall short, 3.08 to 3.15; 5 allowed). "
        "One limit missed: buckling, margin 2.47 where 3 is asked.");
}

TEST_CASE("Where nothing passes the nearest screw and the change that admits it are named") {
  CHECK(verdict_sentence(tests::nothing_passes().answer) ==
        "No screw of the 408 passes. Nearest: Tr 40x7; it would pass if force were 20.1 kN instead of 22 kN.");
}

TEST_CASE("Where no single change helps the limits are named together") {
  tests::Told told = tests::nothing_passes();
  told.answer.relax.clear();
  told.answer.no_single_change = {Must::force, Must::buckling, Must::bearing};
  CHECK(verdict_sentence(told.answer) ==
        "No screw of the 408 passes. No single change helps: force, buckling and bearing pressure would have to give "
        "way together.");
}

TEST_CASE("A change is said with what it changes from, a strength as so many times") {
  const tests::Told told = tests::nothing_passes();
  const std::vector<std::string> words = {"it would pass if force were 20.1 kN instead of 22 kN",
                                          "it would pass if bearing pressure were 13.4 MPa instead of 12 MPa",
                                          "it would pass if the margin of buckling were 2.47 instead of 3",
                                          "it would pass if the free length were 480 mm instead of 520 mm",
                                          "it would pass if the screw were 1.12 times as strong"};
  REQUIRE(told.answer.relax.size() == words.size());
  for (std::size_t i = 0; i < words.size(); ++i)
    CHECK(studies::say::relaxed_words(told.study, told.answer.relax[i]) == words[i]);
  tests::Told nut = told;
  nut.answer.relax.back().kind = studies::Change::Kind::nut_strength;
  CHECK(studies::say::relaxed_words(nut.study, nut.answer.relax.back()) ==
        "it would pass if the nut were 1.12 times as strong");
  nut.study.duty.free_length.reset();  // counted to mid-nut: the travel is what is typed
  CHECK(studies::say::relaxed_words(nut.study, nut.answer.relax[3]) ==
        "it would pass if the travel were 480 mm instead of 520 mm");
}

TEST_CASE("Without a limit the force itself is the answer") {
  CHECK(verdict_sentence(tests::no_must().answer) ==
        "Reaches 25.3 kN at nominal; 90 of 100 pulls lie between 22.3 kN and 28.3 kN. No limit was asked.");
}

TEST_CASE("Odds near one are said as the shortfall, of what was counted") {
  CHECK(verdict_sentence(tests::lift().answer) ==
        "Lifts 15 kN with its motor in all but 0.029 of 100 screws built (0.021 to 0.038; 1 allowed). "
        "Every margin holds.");
}

TEST_CASE("Without a miss the count and the bound are said") {
  tests::Told told = tests::press();
  told.answer.passes = 262144;
  told.answer.limits = {tests::judged(Must::force, Kind::at_least, 22e3, 24e3, 0.95, {1 - 1.407e-5, 1, 1}, true)};
  told.answer.governs.reset();
  CHECK(verdict_sentence(told.answer) ==
        "Reaches 22 kN: none of 262 144 pulls fell short (at most 0.00141 in 100; 5 allowed). Every margin holds.");
}

TEST_CASE("A force asked at nominal says so, and how often it falls short") {
  tests::Told told = tests::press();
  told.answer.governs.reset();
  told.answer.limits = {
      tests::judged(Must::force, Kind::at_least, 22e3, 22.768e3, std::nullopt, {0.612, 0.613, 0.614}, true)};
  CHECK(verdict_sentence(told.answer) ==
        "Reaches 22.8 kN at nominal, where 22 kN is asked; 38.7 of 100 pulls fall short, 38.6 to 38.8. "
        "Every margin holds.");
  told.answer.limits = {tests::judged(Must::force, Kind::at_least, 22e3, 20.1e3, std::nullopt, {1, 1, 1}, false)};
  CHECK(
      verdict_sentence(told.answer) ==
      "Reaches only 20.1 kN at nominal, where 22 kN is asked. One limit missed: force, 20.1 kN where 22 kN is asked.");
}

TEST_CASE("A lift judged at nominal says the torque it takes beside the torque allowed") {
  tests::Told told = tests::lift();
  told.answer.limits = {tests::judged(Must::torque, Kind::at_most, 20, 18.216, std::nullopt, {1, 1, 1}, true)};
  CHECK(verdict_sentence(told.answer) ==
        "Lifts 15 kN with 18.2 N.m at nominal, where 20 N.m is allowed. Every margin holds.");
}

TEST_CASE("Bounds far apart make the estimate coarse") {
  tests::Told told = tests::press();
  told.answer.governs.reset();
  told.answer.limits = {
      tests::judged(Must::force, Kind::at_least, 22e3, 22.768e3, 0.9, {0.94123, 0.96877, 0.98454}, true)};
  CHECK(verdict_sentence(told.answer) ==
        "Reaches 22 kN in 97 of 100 pulls (3.1 fall short, 1.5 to 5.9; 10 allowed). Every margin holds.");
}

TEST_CASE("The next sizes say why they are not the pick") {
  const tests::Told told = tests::press();
  CHECK(studies::say::size_down(told.answer) ==
        "One size down, Tr 38x7 (5.21 kg), buckles: margin 2.47 where 3 is asked; it misses bearing pressure and "
        "overload pull too. No single change admits it.");
  CHECK(studies::say::size_up(told.answer) ==
        "One size up, Tr 42x7 (6.63 kg), falls short of the force: 21.9 kN in 95 of 100 where 22 kN is asked.");
}

TEST_CASE("The next size down, or the nearest lighter one, says what would admit it") {
  const auto changes = tests::nothing_passes().answer.relax;
  tests::Told told = tests::press();
  told.study.duty.free_length = 0.52;
  const std::vector<std::string> words = {"It would do if force were 20.1 kN instead of 22 kN.",
                                          "It would do if bearing pressure were 13.4 MPa instead of 12 MPa.",
                                          "It would do if the margin of buckling were 2.47 instead of 3.",
                                          "It would do with a free length of 480 mm instead of 520 mm.",
                                          "It would do with a screw 1.12 times as strong."};
  for (std::size_t i = 0; i < words.size(); ++i) {
    told.answer.lighter.front().admit = changes[i];
    CHECK(studies::say::size_down(told.answer).ends_with("overload pull too. " + words[i]));
  }
  told.answer.lighter.front().admit.reset();
  CHECK(studies::say::size_down(told.answer).ends_with("overload pull too. No single change admits it."));
  told.answer.lighter.front().designation = "Tr 36x6";
  told.answer.lighter.front().admit = changes[3];
  CHECK(studies::say::size_down(told.answer).ends_with("overload pull too."));
  CHECK(studies::say::lighter_ones(told.answer)
            .ends_with("Tr 36x6 would do with a free length of 480 mm instead of 520 mm."));
  told.answer.lighter.front().admit.reset();
  CHECK(studies::say::lighter_ones(told.answer).ends_with("No single change admits Tr 36x6."));
}

TEST_CASE("The proof is exact about what was searched") {
  tests::Told told = tests::press();
  CHECK(studies::say::proof(told.answer) == "Proven lightest of 408 screws.");
  told.answer.search.proven = false;
  told.answer.search.gap = 0.0312;
  CHECK(studies::say::proof(told.answer) ==
        "Best found: 37 of 408 screws examined; what is left could be 3.03 % lighter at most.");
  told.answer.search.continuous = true;
  told.answer.search.starts = 12;
  CHECK(studies::say::proof(told.answer) == "Best found from 12 starts; what is left could be 3.03 % lighter at most.");
  told.answer.search.gap = std::numeric_limits<double>::quiet_NaN();
  CHECK(studies::say::proof(told.answer) == "Best found from 12 starts.");
  told.answer.pick.reset();
  CHECK(studies::say::proof(told.answer) ==
        "37 of 408 screws examined: nothing found that passes, which proves nothing.");
  told.answer.searched = false;
  CHECK(studies::say::proof(told.answer) == "Nothing to choose: one screw judged.");
}

TEST_CASE("A part that is to go first is named with what goes before it") {
  tests::Told told = tests::press();
  studies::LimitVerdict first = tests::judged(Must::goes_first, Kind::margin, 1, 0.83, 0.99, {0.61, 0.62, 0.63}, false);
  for (const auto& [part, words] : {std::pair{Must::yield, "the body yields"},
                                    {Must::thread_root, "the thread root gives way"},
                                    {Must::nut_body, "the nut body gives way"},
                                    {Must::buckling, "the screw buckles"},
                                    {Must::stripping, "the threads strip"}}) {
    first.limit.part = part;
    told.study.limits = {first.limit};
    told.answer.next_size_down->verdict.misses = Must::goes_first;
    told.answer.next_size_down->verdict.has = 0.83;
    told.answer.next_size_down->verdict.needs = 1;
    CHECK_THAT(studies::say::size_down(told.answer),
               Catch::Matchers::Contains("lets another part go before " + std::string(words) +
                                         ": margin 0.83 in 99 of 100 where 1 is asked"));
    const studies::Relaxation relaxation{Must::goes_first, 0.834, 1, {}, true, "Tr 40x7"};
    CHECK(studies::say::relaxed_words(told.study, relaxation) ==
          "it would pass if another part might go at 0.834 of the torque at which " + std::string(words));
  }
  told.answer.limits = {first};
  CHECK_THAT(verdict_sentence(told.answer),
             Catch::Matchers::Contains("One limit missed: stripping goes first, margin 0.83 in 99 of 100 where 1"));
}
