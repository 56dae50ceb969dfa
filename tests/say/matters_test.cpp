#include "studies/say/matters.hpp"

#include <catch2/catch.hpp>
#include <limits>

#include "tests/say/answers.hpp"

using studies::say::what_helps;

TEST_CASE("What would help most is said with the shortfall it leaves, and the next best beside it") {
  CHECK(what_helps(tests::press().answer) ==
        "What would help most: knowing thread and face friction better. Halving that scatter takes the shortfall from "
        "3.12 "
        "to 0.277 in 100; halving that of hand force leaves 2.55.");
}

TEST_CASE("Two inputs that the passes cannot tell apart are named alike") {
  tests::Told told = tests::press();
  auto& inputs = told.answer.matter->inputs;
  inputs[1].after = studies::Bounded{0.0026, 0.0028, 0.003};
  inputs[1].change = studies::Bounded{-0.0287, -0.0284, -0.028};
  CHECK(what_helps(told.answer) ==
        "What would help most: knowing thread and face friction or hand force better, about alike. Halving the scatter "
        "of "
        "the first takes the shortfall from 3.12 to 0.277 in 100, of the second to 0.28.");
}

TEST_CASE("What does not surely help is not said to help") {
  tests::Told told = tests::press();
  auto& inputs = told.answer.matter->inputs;
  inputs[1].change = studies::Bounded{-0.006, -0.0001, 0.0002};
  CHECK(what_helps(told.answer).ends_with("from 3.12 to 0.277 in 100."));
  inputs[0].change = studies::Bounded{-0.006, -0.0001, 0.0002};
  CHECK(what_helps(told.answer) ==
        "A steadier input would not help: halving the scatter of any one does not make the "
        "shortfall smaller, as far as these passes can tell.");
}

TEST_CASE("A shortfall that vanishes is said with its bound, and another limit than the task's by name") {
  tests::Told told = tests::press();
  told.answer.matter->must = models::Must::bearing;
  told.answer.matter->inputs[0].after = studies::Bounded{0, 0, 1.41e-5};
  told.answer.matter->inputs.pop_back();
  CHECK(what_helps(told.answer) ==
        "What would help most: knowing thread and face friction better. Halving that scatter takes the shortfall of "
        "bearing "
        "pressure from 3.12 to at most 0.00141 in 100.");
}

TEST_CASE("Where nothing falls short it is said whose scatter it is") {
  tests::Told told = tests::press();
  told.answer.matter->before = studies::Bounded{0, 0, 3.5e-6};
  CHECK(what_helps(told.answer) ==
        "Of every 100 parts of the variance of the margin of force, 72 come from thread and face "
        "friction, 27 from hand force.");
  told.answer.matter->must.reset();
  told.answer.matter->judged = "force";
  told.answer.matter->before.reset();
  CHECK(what_helps(told.answer).starts_with("Of every 100 parts of the variance of the force, 72 come"));
  told.answer.matter.reset();
  CHECK(what_helps(told.answer).empty());
}

TEST_CASE("Shares that do not exist are null with a reason") {
  tests::Told told = tests::press();
  constexpr double none = std::numeric_limits<double>::quiet_NaN();
  told.answer.matter->reason = "it has no finite value on some passes";
  for (auto& it : told.answer.matter->inputs) it.share = it.total = {none, none, none};
  studies::say::Notes notes;
  const auto matters = studies::say::matters_json(told.answer, notes);
  CHECK(matters.at("by_input").at(0).at("share").at("estimate").is_null());
  CHECK(matters.at("by_input").at(0).at("swing").size() == 2);
  CHECK(matters.at("by_input").at(1).at("halved").at("shortfall").at("estimate") == 0.0255);
  REQUIRE(notes.list().size() == 2);
  CHECK(notes.list().at(0).at("output") == "matters.thread_friction+face_friction");
  CHECK(notes.list().at(0).at("reason") == told.answer.matter->reason);
  told.answer.matter.reset();
  CHECK(studies::say::matters_json(told.answer, notes).is_null());
}
