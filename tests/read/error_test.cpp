#include <catch2/catch.hpp>

#include "tests/read/study_texts.hpp"

using Catch::Matchers::Contains;
using studies::Verb;

namespace {

/// One change of a study that is otherwise fine, and the only thing that must be said of it.
struct Wrong {
  std::string from, to;  ///< `to` stands for `from` in the text
  std::string start;     ///< how the message begins, behind "study.toml:"
  std::string problem, fix;
};

void check_all(const std::string& text, const std::vector<Wrong>& all, Verb verb = Verb::vet) {
  REQUIRE(problems(text, verb).empty());
  for (const Wrong& wrong : all) {
    INFO(wrong.to);
    const std::string said = refusal(with(text, {{wrong.from, wrong.to}}), verb);
    CAPTURE(said);
    CHECK(problems(with(text, {{wrong.from, wrong.to}}), verb).size() == 1);
    CHECK_THAT(said, Catch::Matchers::StartsWith("study.toml:" + wrong.start));
    CHECK_THAT(said, Contains(wrong.problem));
    CHECK_THAT(said.substr(said.find("Fix:") == std::string::npos ? said.size() : said.find("Fix:")),
               Contains(wrong.fix));
  }
}

}  // namespace

TEST_CASE("What is missing is named with what to write") {
  check_all(clamp_text,
            {
                {"title = \"A clamp\"", "notes = \"n\"", "1:1: ", "'title' is missing", "title ="},
                {"\"A clamp\"", "\" \"", "1:9: ", "blank", "title ="},
                {"action = \"clamp\"\n", "", "2:1: ", "'duty.action' is missing", "lift"},
                {"torque = \"60 N.m\"\n", "", "3:1: ", "no drive", "hand_force"},
                {"thread = \"Tr 24x5\"\n", "", "7:1: ", "'choose.thread' is missing", "thread ="},
                {"nut_length = \"40 mm\"\n", "", "7:1: ", "'choose.nut_length' is missing", "nut_length ="},
                {"screw = \"steel 1045 hot rolled\"\n", "", "7:1: ", "'choose.screw' is missing", "screw ="},
                {"nut = \"bearing bronze C93200\"\n", "", "7:1: ", "'choose.nut' is missing", "nut ="},
                {"face = { kind = \"pad\", mean_radius = \"4 mm\", on = \"bronze\" }\n", "",
                 "7:1: ", "'choose.face' is missing", "face ="},
                {"lubrication = \"oil\"\n", "", "7:1: ", "'choose.lubrication' is missing", "dry or oil"},
                {", on = \"bronze\"", "", "13:8: ", "does not say what it runs on", "bronze"},
                {", mean_radius = \"4 mm\"", "", "13:8: ", "says no size", "outer"},
                {"kind = \"pad\", ", "", "13:8: ", "does not say its kind", "rolling"},
            });
  CHECK_THAT(refusal(with(lift_text, {{"force = \"2500 lbf\"\n", ""}})), Contains("a lift has no load"));
}

TEST_CASE("A thread friction that is typed needs no lubrication") {
  CHECK(
      problems(with(clamp_text, {{"lubrication = \"oil\"\n", ""}, {"[scatter]", "[scatter]\nthread_friction = 0.15"}}))
          .empty());
}

TEST_CASE("Unknown keys and words are named with the nearest") {
  check_all(
      clamp_text,
      {
          {"travel =", "travle =", "6:1: ", "unknown key 'travle' in [duty]", "did you mean 'travel'"},
          {"travel =", "count = 3\ntravel =", "6:1: ", "unknown key 'count'", "move it into [passes]"},
          {"[passes]", "[passses]", "18:2: ", "unknown key 'passses'", "did you mean 'passes'"},
          {"[aim]", "[aim]\nwhatever = 1", "18:1: ", "unknown key 'whatever' in [aim]", "least"},
          {"on = \"bronze\"", "onn = \"bronze\"", "13:46: ", "unknown key 'onn' in [choose.face]", "did you mean 'on'"},
          {"margin = 1.5", "margn = 1.5", "16:11: ", "unknown key 'margn' in [must.yield]", "margin"},
          {"\"clamp\"", "\"clam\"", "3:10: ", "unknown word 'clam'", "write 'clamp'"},
          {"\"oil\"", "\"oill\"", "10:15: ", "unknown word 'oill'", "write 'oil'"},
          {"\"pad\"", "\"pod\"", "13:17: ", "unknown word 'pod'", "write 'pad'"},
          {"hot rolled", "hot roled", "11:9: ", "unknown material 'steel 1045 hot roled'",
           "write 'steel 1045 hot rolled'"},
          {"\"bearing bronze C93200\"", "\"gold\"", "12:7: ", "unknown material 'gold'", "acetal"},
          {"travel =", "ends = \"fixed-fre\"\ntravel =", "6:8: ", "unknown word", "write 'fixed-free'"},
          {"[passes]", "[passes]\nplan = \"soboll\"", "19:8: ", "unknown word", "write 'sobol'"},
          {"[aim]", "[aim]\nleast = \"mas\"", "18:9: ", "unknown word", "write 'mass'"},
          {"[passes]", "[passes]\n\"a.b\" = 1", "19:1: ", "unknown key 'a.b'", "take it out"},
      });
}

TEST_CASE("An aim or a cap that cannot be had is refused with the reason") {
  const auto aim = [](const std::string& typed) {
    return std::pair<std::string, std::string>("[aim]", "[aim]\n" + typed);
  };
  const std::vector<std::pair<std::string, std::vector<std::string>>> all = {
      {"least = \"mass\"\nmost = \"mass\"", {"aimed at twice", "take one out"}},
      {"least = [\"mass\", \"torque\", \"turns\"]", {"more than two aims", "cap"}},
      {"least = []", {"empty list", "one or two"}},
      {"least = 3", {"'aim.least' is a number", "name of an output"}},
      {"most = \"odds.buckling\"", {"'odds.buckling' has no limit to go by", "buckling = { … } into [must]"}},
      {"most = \"margin.yeild\"", {"unknown word", "write 'margin.yield'"}},
      {"least = \"stroke_time\"", {"cannot be reckoned", "No speed"}},
      {"least = \"overload_force\"", {"cannot be reckoned", "No overload pull"}},
      {"cap = { hand_force = \"100 N\" }", {"cannot be reckoned", "No handle"}},
      {"cap = { mass = \"3 mm\" }", {"aim.cap.mass", "kg"}},
      {"cap = { mass = 3 }", {"has no unit"}},
      {"cap = { turns = 0 }", {"out of range", "above 0"}},
      {"cap = { weight = \"3 kg\" }", {"unknown word 'weight'"}},
      {"cap = { \"odds.force\" = 0.9 }", {"unknown key 'odds.force'"}},
      {"cap = \"mass\"", {"'aim.cap' is a text", "a table"}},
  };
  for (const auto& [typed, said] : all) {
    INFO(typed);
    const auto found = problems(with(clamp_text, {aim(typed)}));
    REQUIRE(found.size() == 1);
    CHECK(found[0].line >= 18);
    for (const std::string& words : said) CHECK_THAT(engine::text(found[0]), Contains(words));
  }
  CHECK_THAT(refusal(lift_text + "[aim]\nmost = \"force\"\n"), Contains("the same for every screw"));
  CHECK(problems(with(clamp_text, {aim("least = [\"torque\", \"nut_length\"]\ncap = { mass = \"3 kg\" }")})).empty());
}

TEST_CASE("Steps of makeable values that cannot be had are refused") {
  const std::string thread = "thread = \"Tr 24x5\"";
  const auto free = [&](const std::string& diameter, const std::string& pitch) {
    return std::pair<std::string, std::string>(
        thread, "thread = { form = \"square\", diameter = { " + diameter + " }, pitch = " + pitch + " }");
  };
  const auto said = [&](const std::pair<std::string, std::string>& change) {
    return refusal(with(clamp_text, {change}));
  };
  const std::string ends = "from = \"20.2 mm\", to = \"20.8 mm\", step = ";
  CHECK_THAT(said(free(ends + "\"1 mm\"", "\"5 mm\"")),
             Contains("no value between the ends") && Contains("smaller step"));
  CHECK_THAT(said(free(ends + "\"0.1 um\"", "\"5 mm\"")), Contains("more than a thousand values"));
  CHECK_THAT(said(free(ends + "\"0 mm\"", "\"5 mm\"")), Contains("out of range"));
  CHECK(problems(with(clamp_text, {free(ends + "\"0.2 mm\"", "\"5 mm\"")})).empty());
  const std::string ranged = "nut_length = { from = \"1 d\", to = \"2 d\", step = \"1 mm\" }";
  CHECK_THAT(refusal(with(clamp_text,
                          {free("from = \"20 mm\", to = \"30 mm\"", "\"5 mm\""), {"nut_length = \"40 mm\"", ranged}})),
             Contains("choose.nut_length has a step and the thread has none"));
}

TEST_CASE("Units are checked at the edge") {
  check_all(clamp_text, {
                            {"\"10 kN\"", "10", "4:9: ", "'10' has no unit", "10 kN"},
                            {"\"10 kN\"", "\"10 mm\"", "4:9: ", "duty.force", "kN"},
                            {"\"60 N.m\"", "\"60 Nm.\"", "5:10: ", "duty.torque", "N.m"},
                            {"\"10 kN\"", "true", "4:9: ", "'duty.force' is true or false", "quantity"},
                            {"\"200 mm\"", "\"5 tpi\"", "6:10: ", "threads in a length", "a length"},
                            {"[must]", "[must]\nforce = { at_least = 10 }", "16:22: ", "has no unit", "kN"},
                        });
}

TEST_CASE("Numbers outside what can be are refused") {
  check_all(clamp_text,
            {
                {"\"10 kN\"", "\"0 kN\"", "4:9: ", "out of range", "above 0"},
                {"\"200 mm\"", "\"-1 mm\"", "6:10: ", "out of range", "0 or more"},
                {"margin = 1.5", "margin = 1.5, odds = 1", "16:32: ", "out of range", "between 0 and 1"},
                {"margin = 1.5", "margin = 1.5, odds = \"100 %\"", "16:32: ", "out of range", "between 0 and 1"},
                {"[scatter]", "[scatter]\nthread_friction = 1.2", "15:19: ", "out of range", "from 0 to 1"},
                {"[scatter]", "[scatter]\nshared_friction = 1", "15:19: ", "out of range", "between -1 and 1"},
                {"nut_length", "starts = 1.5\nnut_length", "9:10: ", "not a whole number", "whole number"},
                {"nut_length", "starts = 0\nnut_length", "9:10: ", "not a whole number", "whole number"},
                {"nut_length", "starts = 1e9\nnut_length", "9:10: ", "not a whole number", "whole number"},
                {"[passes]", "[passes]\ncount = 0", "19:9: ", "out of range", "1 or more"},
                {"[passes]", "[passes]\ncount = 2.5", "19:9: ", "not a whole number", "whole number"},
                {"[passes]", "[passes]\nsettle = { digits = 0 }", "19:21: ", "out of range", "1 or more"},
                {"[passes]", "[passes]\nsettle = { digits = 9 }", "19:21: ", "out of reach", "1 or 2"},
                {"[passes]", "[passes]\nsettle = { at_most = 1e30 }", "19:22: ", "out of reach", "fewer"},
                {"[passes]", "[passes]\nsettle = 2", "19:10: ", "passes.settle", "table"},
                {"[passes]", "[passes]\ncount = 9\nsettle = { digits = 2 }", "19:9: ", "count beside", "out"},
                {"[passes]", "[passes]\nsettle = { digit = 2 }", "19:12: ", "unknown key 'digit'", "digits"},
                {"[passes]", "[passes]\nkey = -1", "19:7: ", "out of range", "0 or more"},
                {"nut_length = \"40 mm\"", "nut_length = \"40 mm\"\nnut_outside = \"1.4 d\"", "10:15: ", "below 1.5 d",
                 "1.5 d"},
                {"nut_length = \"40 mm\"", "nut_length = \"40 mm\"\nnut_outside = \"30 mm\"", "10:15: ", "below 1.5 d",
                 "36 mm"},
                {"\"40 mm\"", "\"4 mm\"", "9:14: ", "nut_length = \"4 mm\" gives 0.8 engaged turns", "5 mm or more"},
                {"\"40 mm\"", "{ from = \"2 d\", to = \"1 d\" }", "9:14: ", "from is not below to", "shorter"},
                {"\"40 mm\"", "{ from = \"2 d\", to = \"30 mm\" }", "9:14: ", "from is not below to", "shorter"},
                {"\"40 mm\"", "[]", "9:14: ", "empty list", "one value"},
                {"\"oil\"", "[\"oil\", \"oil\"]", "10:23: ", "twice", "take one out"},
            });
}

TEST_CASE("The drive is one, and complete") {
  check_all(
      clamp_text,
      {
          {"travel", "hand_force = \"100 N\"\nhandle = \"300 mm\"\ntravel", "6:1: ", "two drives", "keep one"},
          {"torque = \"60 N.m\"", "hand_force = \"100 N\"", "5:1: ", "needs the handle", "handle ="},
          {"travel", "handle = \"300 mm\"\ntravel", "6:1: ", "no hand force", "hand_force"},
          {"travel", "hands = 2\ntravel", "6:1: ", "no handle", "handle"},
          {"travel", "handle_overhang = \"30 mm\"\ntravel", "6:1: ", "no handle", "handle"},
          {"torque = \"60 N.m\"", "motor = { torque = \"2 N.m\", ratio = 30 }",
           "5:9: ", "'duty.motor.efficiency' is missing", "efficiency"},
          {"torque = \"60 N.m\"", "motor = { torque = \"2 N.m\", ratio = 30, efficiency = 1.2 }",
           "5:54: ", "out of range", "at most 1"},
          {"torque = \"60 N.m\"",
           "motor = { torque = \"2 N.m\", ratio = 40, efficiency = 0.8, speed = \"1400 rpm\" }\nspeed = \"3 mm/s\"",
           "6:1: ", "given twice", "keep one"},
          {"travel", "overload = { hand_force = \"200 N\" }\ntravel", "6:14: ", "needs the handle", "handle"},
          {"travel", "overload = { torque = \"90 N.m\", hands = 2 }\ntravel", "6:14: ", "given twice", "keep one"},
          {"travel", "overload = { handle = \"1 m\" }\ntravel", "6:12: ", "says no force", "torque"},
          {"travel", "speed = \"3 kg\"\ntravel", "6:9: ", "duty.speed", "rpm"},
      });
}

TEST_CASE("The thread and the face must be possible") {
  check_all(
      clamp_text,
      {
          {"\"Tr 24x5\"", "\"Tr 24x4\"", "8:10: ", "Tr 24x", "diameter"},
          {"\"Tr 24x5\"", "\"spindle\"", "8:10: ", "spindle", ""},
          {"\"Tr 24x5\"", "{ form = \"square\", from = \"20 mm\", to = \"30 mm\" }", "8:10: ", "no series of square",
           "diameter and pitch"},
          {"\"Tr 24x5\"", "{ form = \"trapezoidal\", from = \"30 mm\", to = \"20 mm\" }", "8:34: ", "from is above to",
           "exchange"},
          {"\"Tr 24x5\"", "{ form = \"trapezoidal\", from = \"30.5 mm\", to = \"31 mm\" }", "8:34: ", "no size",
           "widen"},
          {"\"Tr 24x5\"", "{ form = \"trapezoidal\", from = \"30 mm\" }", "8:10: ", "'choose.thread.to' is missing",
           "to ="},
          {"\"Tr 24x5\"", "{ form = \"square\", diameter = \"20 mm\" }", "8:10: ", "'choose.thread.pitch' is missing",
           "pitch ="},
          {"\"Tr 24x5\"", "{ form = \"square\", diameter = \"20 mm\", pitch = \"20 mm\" }", "8:10: ", "pitch", ""},
          {"\"Tr 24x5\"", "{ form = \"trapezoidal\", diameter = \"20 mm\", pitch = \"1 mm\" }", "8:10: ", "pitch", ""},
          {"\"Tr 24x5\"", "{ form = \"square\" }", "8:10: ", "says no size", "from and to"},
          {"\"Tr 24x5\"", "{ diameter = \"20 mm\", pitch = \"4 mm\" }", "8:10: ", "'choose.thread.form' is missing",
           "square"},
          {"\"Tr 24x5\"", "{ form = \"trapezoidal\", from = \"20 mm\", to = \"30 mm\", pitch = \"4 mm\" }",
           "8:10: ", "given twice", "one pair"},
          {"\"Tr 24x5\"", "\"Tr 24x10 P5\"\nstarts = 3", "9:10: ", "contradicts the thread, which says 2",
           "take starts out"},
          {"\"Tr 24x5\"", "[\"Tr 24x5\", 3]", "8:22: ", "a designation", "Tr 40x7"},
          {"mean_radius = \"4 mm\"", "mean_radius = \"4 mm\", outer = \"20 mm\"",
           "13:24: ", "both diameters and a mean_radius", "keep one"},
          {"mean_radius = \"4 mm\"", "outer = \"20 mm\", inner = \"20 mm\"", "13:41: ", "not below the outer", "check"},
          {"mean_radius = \"4 mm\"", "inner = \"20 mm\"", "13:24: ", "no outer one", "outer"},
          {"kind = \"pad\", mean_radius = \"4 mm\"", "kind = \"point\", outer = \"4 mm\"",
           "13:26: ", "a point has no diameters", "pad"},
      });
}

TEST_CASE("What the tables do not hold must be typed") {
  check_all(
      clamp_text,
      {
          {"\"oil\"", "\"grease\"", "10:15: ", "no published friction", "dry or oil"},
          {"on = \"bronze\"", "on = \"steel\"", "13:8: ", "no published friction of a face on steel", "face_friction"},
          {"\"bearing bronze C93200\"", "\"acetal\"", "10:15: ", "no published friction", "type thread_friction"},
      });
}

TEST_CASE("A typed face friction does not fit faces of different kinds") {
  const std::string text =
      with(clamp_text,
           {{"face = { kind = \"pad\", mean_radius = \"4 mm\", on = \"bronze\" }",
             "face = [{ kind = \"pad\", mean_radius = \"4 mm\" }, { kind = \"rolling\", mean_radius = \"12 mm\" }]"},
            {"[scatter]", "[scatter]\nface_friction = 0.1"}});
  CHECK_THAT(refusal(text), Contains("study.toml:15:1: ") && Contains("faces of different kinds"));
}

TEST_CASE("A bar beyond its material's row needs its own yield strength") {
  const std::string text = with(clamp_text, {{"steel 1045 hot rolled", "steel 4140 annealed"}, {"Tr 24x5", "Tr 30x6"}});
  CHECK_THAT(refusal(text), Contains("study.toml:11:9: ") && Contains("not known at 30 mm") && Contains("screw_yield"));
  CHECK(problems(with(text, {{"[scatter]", "[scatter]\nscrew_yield = \"400 MPa\""}})).empty());
  CHECK(problems(with(text, {{"\"Tr 30x6\"", "[\"Tr 22x5\", \"Tr 30x6\"]"}})).empty());
}

TEST_CASE("A screw without yield strength is refused") {
  const std::string text = with(clamp_text, {{"steel 1045 hot rolled", "grey iron class 30"},
                                             {"[scatter]", "[scatter]\nthread_friction = 0.15"}});
  CHECK_THAT(refusal(text), Contains("no yield strength"));
}

TEST_CASE("Limits are asked in the ways that make sense, with the data they need") {
  check_all(
      clamp_text,
      {
          {"margin = 1.5", "margin = 1.5, at_most = \"90 MPa\"", "16:25: ", "asked twice", "keep one"},
          {"margin = 1.5", "at_least = \"90 MPa\"", "16:11: ", "cannot be asked by at_least", "margin or at_most"},
          {"[must]", "[must]\nmass = {}", "16:8: ", "does not say what is asked", "at_most"},
          {"[must]", "[must]\nslenderness = { margin = 2 }", "16:17: ", "cannot be asked by margin", "at_most"},
          {"[must]", "[must]\ntorque = { at_most = \"20 N.m\" }", "16:12: ", "a clamp's torque is given", "force"},
          {"[must]", "[must]\nhand_force = { at_most = \"20 N\" }", "16:16: ", "a clamp's hand force is given",
           "force"},
          {"[must]", "[must]\noverload = {}", "16:12: ", "no overload pull", "overload ="},
          {"[must]", "[must]\nface_bearing = {}", "16:1: ", "needs the area", "outer and inner"},
          {"[must]", "[must]\nforce = { at_least = \"11 kN\" }", "16:11: ", "differs from the one in [duty]", "equal"},
          {"[must]", "[must]\nforce = { at_most = \"11 kN\" }", "16:11: ", "two limits of the force", "take one"},
          {"margin = 1.5", "margin = 1.5, basis = \"yield\"", "16:25: ", "has no basis", "take it out"},
          {"yield = { margin = 1.5 }", "yield = 1.5", "16:9: ", "a number where a table is due", "table"},
      });
  CHECK_THAT(refusal(with(clamp_text, {{"travel = \"200 mm\"\n", ""}, {"[must]", "[must]\nbuckling = {}"}})),
             Contains("neither free_length nor travel"));
  CHECK_THAT(
      refusal(with(clamp_text, {{"travel", "screw_in = \"tension\"\ntravel"}, {"[must]", "[must]\nbuckling = {}"}})),
      Contains("does not buckle"));
  CHECK_THAT(refusal(with(clamp_text, {{"force = \"10 kN\"\n", ""}, {"[must]", "[must]\nforce = { margin = 1.2 }"}})),
             Contains("no force is asked in [duty]"));
  CHECK_THAT(refusal(with(lift_text, {{"[must]", "[must]\nforce = { at_least = \"1 kN\" }"}})),
             Contains("a lift's force is its load"));
  CHECK_THAT(refusal(with(lift_text, {{"hand_force = \"30 lbf\"\nhandle = \"18 in\"\n", ""},
                                      {"[must]", "[must]\nhand_force = { at_most = \"30 lbf\" }"}})),
             Contains("no handle is given"));
  CHECK_THAT(refusal(with(lift_text, {{"hand_force = \"30 lbf\"\n", ""}, {"[must]", "[must]\ntorque = {}"}})),
             Contains("no drive is given"));
  CHECK_THAT(refusal(with(clamp_text, {{"bearing bronze C93200", "acetal"},
                                       {"[scatter]", "[scatter]\nthread_friction = 0.15"},
                                       {"[must]", "[must]\nbearing = {}"}})),
             Contains("no published bearing pressure") && Contains("at_most"));
  CHECK_THAT(refusal(with(clamp_text, {{"nut = \"bearing bronze C93200\"",
                                        "nut = [\"grey iron class 30\", \"bearing bronze C93200\"]"},
                                       {"[must]", "[must]\nstripping = {}"}})),
             Contains("some nuts are brittle") && Contains("margin ="));
}

TEST_CASE("One part that can break may be told to go first") {
  const std::string parts = "yield, thread_root, nut_body, buckling or stripping";
  check_all(
      clamp_text,
      {
          {"[must]", "[must]\nbearing = { first = true }", "16:13: ", "must.bearing cannot go first", parts},
          {"[must]", "[must]\nmass = { at_most = \"9 kg\", first = true }", "16:28: ", "no part that breaks", parts},
          {"margin = 1.5 }", "first = true }\nstripping = { first = true }",
           "17:15: ", "two parts are to go first: yield and stripping", "keep first = true on one"},
          {"margin = 1.5", "first = \"true\"", "16:19: ", "text where", "true or false"},
          {"margin = 1.5", "first = 1", "16:19: ", "a number where", "true or false"},
          {"[must]", "[must]\ngoes_first = \"stripping\"", "16:1: ", "unknown key 'goes_first'",
           "stripping = { first = true }"},
          {"[must]", "[must]\nfirst = \"stripping\"", "16:1: ", "unknown key 'first'", "stripping = { first = true }"},
      });
  const auto hanging = with(
      clamp_text, {{"travel", "screw_in = \"tension\"\ntravel"}, {"[must]", "[must]\nbuckling = { first = true }"}});
  CHECK_THAT(refusal(hanging), Contains("a screw in tension does not buckle"));
  CHECK(problems(hanging).size() == 1);
}

TEST_CASE("Scatter must say one thing, of something that is there") {
  check_all(
      clamp_text,
      {
          {"[scatter]", "[scatter]\nhand_force = { spread = \"5 %\" }", "15:1: ", "nothing to scatter", "take it out"},
          {"[scatter]", "[scatter]\nload = { spread = \"5 %\" }", "15:1: ", "nothing to scatter", "take it out"},
          {"[scatter]", "[scatter]\ntorque = { mean = \"70 N.m\", spread = \"5 %\" }", "15:10: ", "lies elsewhere",
           "equal"},
          {"[scatter]", "[scatter]\ntorque = \"61 N.m\"", "15:10: ", "lies elsewhere", "equal"},
          {"[scatter]", "[scatter]\ntorque = \"handbook\"", "15:10: ", "the handbook has no scatter", "type how"},
          {"[scatter]", "[scatter]\ntorque = { within = \"4 %\", spread = \"5 %\" }",
           "15:28: ", "both 'within' and 'spread'", "take"},
          {"[scatter]", "[scatter]\ntorque = { within = \"-4 %\" }", "15:21: ", "out of range", "0 or more"},
          {"[scatter]", "[scatter]\ntorque = { varies = \"fixed\" }", "15:10: ", "does not say how it scatters",
           "spread"},
          {"[scatter]", "[scatter]\ntorque = { low = \"50 N.m\" }", "15:10: ", "'scatter.torque.high' is missing",
           "high"},
          {"[scatter]", "[scatter]\ntorque = { low = \"50 N.m\", high = \"40 N.m\" }",
           "15:10: ", "low must be below high", "check"},
          {"[scatter]", "[scatter]\ntorque = { shape = \"triangular\", low = \"50 N.m\", high = \"70 N.m\" }",
           "15:12: ", "'scatter.torque.mode' is missing", "mode"},
          {"[scatter]", "[scatter]\ntorque = { low = \"50 N.m\", high = \"70 N.m\", mode = \"60 N.m\" }",
           "15:45: ", "has no say", "triangular"},
          {"[scatter]", "[scatter]\ntorque = { readings = [\"50 N.m\"] }", "15:23: ", "1 readings", "better four"},
          {"[scatter]", "[scatter]\ntorque = { spread = \"5 %\", varies = \"daily\" }",
           "15:37: ", "unknown word 'daily'", "every pull"},
          {"[scatter]", "[scatter]\ntorque = { spread = \"5 %\", shape = \"norml\" }",
           "15:36: ", "unknown word 'norml'", "normal"},
          {"[scatter]", "[scatter]\ndiameters = { within = \"1 %\" }", "15:24: ", "is a share", "a length"},
          {"[scatter]", "[scatter]\ndrag = { spread = \"10 %\" }", "15:10: ", "share of nothing", "mean"},
          {"[scatter]", "[scatter]\ntorque = []", "15:10: ", "empty list", "part"},
          {"[scatter]", "[scatter]\nthread_friction = [\"handbook\", { spread = \"5 %\" }]",
           "15:20: ", "stands beside other parts", "alone"},
          {"[scatter]", "[scatter]\nthread_friction = [0.15, 0.2]", "15:26: ", "says again", "keep one mean"},
          {"[scatter]", "[scatter]\nthread_friction = { low = 0, high = 0.2 }", "15:19: ", "lognormal", "check"},
          {"[scatter]", "[scatter]\ntorque = { readings = [\"50 N.m\", \"51 N.m\"], spread = \"5 %\" }",
           "15:45: ", "both 'readings' and 'spread'", "take"},
      });
  const std::string two = with(clamp_text, {{"\"oil\"", "[\"dry\", \"oil\"]"},
                                            {"[scatter]", "[scatter]\nthread_friction = { spread = \"10 %\" }"}});
  CHECK_THAT(refusal(two), Contains("does not say where the friction lies"));
}

TEST_CASE("rate takes one value for every choice") {
  check_all(
      clamp_text,
      {
          {"\"Tr 24x5\"", "[\"Tr 24x5\", \"Tr 26x5\"]", "8:10: ", "choose.thread", "size"},
          {"\"Tr 24x5\"", "{ form = \"square\", diameter = { from = \"20 mm\", to = \"30 mm\" }, pitch = \"5 mm\" }",
           "8:10: ", "choose.thread", "one value"},
          {"nut_length", "starts = [1, 2]\nnut_length", "9:10: ", "choose.starts", "one value"},
          {"\"40 mm\"", "{ from = \"1 d\", to = \"2 d\" }", "9:14: ", "choose.nut_length", "one value"},
          {"\"oil\"", "[\"dry\", \"oil\"]", "10:15: ", "choose.lubrication", "one value"},
          {"\"bearing bronze C93200\"", "[\"bearing bronze C93200\", \"aluminium bronze C95400\"]",
           "12:7: ", "choose.nut", "one value"},
          {"{ kind = \"pad\", mean_radius = \"4 mm\", on = \"bronze\" }",
           "[{ kind = \"pad\", mean_radius = \"4 mm\", on = \"bronze\" }, { kind = \"rolling\", mean_radius = \"9 mm\" "
           "}]",
           "13:8: ", "choose.face", "one value"},
      },
      Verb::rate);
}

TEST_CASE("size without any limit is refused, rate and vet are not") {
  const std::string text = with(clamp_text, {{"force = \"10 kN\"\n", ""}, {"yield = { margin = 1.5 }", ""}});
  CHECK_THAT(refusal(text, Verb::size), Contains("nothing must hold"));
  CHECK(problems(text, Verb::rate).empty());
  CHECK(problems(text, Verb::vet).empty());
}

TEST_CASE("Every error of a file is said in one go, in the order of its lines") {
  const std::string text = with(clamp_text, {{"\"10 kN\"", "\"10 kNn\""},
                                             {"travel =", "travle ="},
                                             {"\"Tr 24x5\"", "\"Tr 24x4\""},
                                             {"margin = 1.5", "margin = -1"},
                                             {"[passes]", "[passes]\nplan = \"latn\""}});
  const auto all = problems(text);
  REQUIRE(all.size() == 5);
  for (std::size_t i = 1; i < all.size(); ++i) CHECK(all[i - 1].line <= all[i].line);
  for (const engine::Problem& problem : all) {
    CHECK(problem.file == "study.toml");
    CHECK(problem.column > 0);
    CHECK_FALSE(problem.fix.empty());
  }
}

TEST_CASE("Syntax errors, an empty file and a file that is not there have their codes") {
  CHECK_THAT(refusal("title = \"a\nb"), Contains("study.toml:1:"));
  CHECK_THAT(refusal(""), Contains("empty"));
  CHECK_THAT(refusal("title = 3\n"), Contains("'title' is a number"));
  try {
    studies::read_study("no/such/study.toml", SCREWTINY_SOURCE "/models/tables", Verb::vet);
    FAIL("read");
  } catch (const engine::Refusal& error) {
    CHECK(error.code() == engine::ExitCode::files);
  }
}

TEST_CASE("What is known but not built yet is refused by name, never ignored") {
  const std::vector<std::pair<std::string, std::string>> later = {
      {"travel", "side_load = \"3 %\"\ntravel"},
      {"travel", "offset = \"1 mm\"\ntravel"},
      {"travel", "reverse = { force = \"1 kN\" }\ntravel"},
      {"travel", "cycles = 1000\ntravel"},
      {"travel", "duty_share = \"50 %\"\ntravel"},
      {"nut_length", "class = \"2G\"\nnut_length"},
      {"[scatter]", "[scatter]\nwear_rate = \"1e-8 mm2/N\""},
      {"[scatter]", "[scatter]\nthread_friction = { learned = \"a.h5\" }"},
      {"[must]", "[must]\npv = {}"},
      {"[must]", "[must]\nface_pv = {}"},
      {"[must]", "[must]\nheat = {}"},
      {"[must]", "[must]\ncritical_speed = {}"},
      {"[must]", "[must]\nwear = {}"},
      {"[must]", "[must]\nfatigue = {}"},
      {"[aim]", "[aim]\nleast = \"wear_life\""},
      {"[aim]", "[aim]\ncap = { pv = \"3 MPa.m/s\" }"},
      {"[passes]", "[sweep]\n\"duty.force\" = [\"1 kN\"]\n[passes]"}};
  for (const auto& change : later) {
    INFO(change.second);
    const auto all = problems(with(clamp_text, {change}));
    REQUIRE(all.size() == 1);
    CHECK_THAT(engine::text(all[0]), Contains("not built yet") && Contains("This version") && Contains("Fix: "));
    CHECK(all[0].line > 1);
  }
  CHECK_THAT(refusal(with(clamp_text, {{"travel", "side_load = \"3 %\"\ntravel"}})),
             Catch::Matchers::StartsWith("study.toml:6:1: 'side_load' is not built yet. This version"));
}
