/// Two screws compared, against plain formulas, orders written out and the same comparison the other way round.
#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <random>

#include "studies/ask/candidates.hpp"
#include "studies/ask/compare.hpp"
#include "studies/ask/mixtures.hpp"
#include "tests/ask/read_text.hpp"

namespace {

using namespace studies;
using Kind = Measure::Kind;
using Typed = std::map<std::string, std::string>;

/// An invented clamp; what is typed otherwise stands instead, and empty words take a line out.
Study clamp(const Typed& otherwise = {}) {
  Typed typed = {{"force", "\"15 kN\""},
                 {"torque", "\"60 N.m\""},
                 {"travel", "\"200 mm\""},
                 {"overload", ""},
                 {"lowering_force", ""},
                 {"thread", "\"Tr 24x5\""},
                 {"starts", ""},
                 {"nut_length", "\"40 mm\""},
                 {"lubrication", "\"oil\""},
                 {"screw", "\"steel 1045 hot rolled\""},
                 {"nut", "\"bearing bronze C93200\""},
                 {"face", "{ kind = \"pad\", outer = \"40 mm\", inner = \"20 mm\", on = \"bronze\" }"},
                 {"scatter.torque", "{ within = \"4 %\" }"},
                 {"scatter.thread_friction", ""},
                 {"scatter.face_friction", ""},
                 {"scatter.shared_friction", ""},
                 {"scatter.screw_yield", "{ spread = \"6 %\" }"},
                 {"must.force", "{ odds = 0.9 }"},
                 {"must.yield", "{ margin = 2.7, odds = 0.99 }"},
                 {"must.buckling", "{ margin = 3.0 }"},
                 {"must.overload", ""},
                 {"key", "1"}};
  for (const auto& [key, value] : otherwise) typed[key] = value;
  const auto lines = [&](const std::vector<std::string>& keys, const std::string& section = "") {
    std::string text;
    for (const std::string& key : keys)
      if (!typed[section + key].empty()) text += key + " = " + typed[section + key] + "\n";
    return text;
  };
  return tests::study_of(
      "title = \"Clamp\"\n[duty]\naction = \"clamp\"\n" +
          lines({"force", "torque", "travel", "overload", "lowering_force"}) + "[choose]\n" +
          lines({"thread", "starts", "nut_length", "lubrication", "screw", "nut", "face"}) + "[scatter]\n" +
          lines({"torque", "thread_friction", "face_friction", "shared_friction", "screw_yield"}, "scatter.") +
          "[must]\n" + lines({"force", "yield", "buckling", "overload"}, "must.") + "[passes]\n" + lines({"key"}),
      Verb::rate);
}

models::Design screw_of(const Study& study) {
  const Candidate candidate = candidates(study).front();
  return design_of(study, candidate, *candidate.thread, candidate.nut_length->of(candidate.thread->diameter));
}

Comparison compared(const Study& a, const Study& b, unsigned threads = 2) {
  return compare(a, screw_of(a), b, screw_of(b), {threads, {}, nullptr});
}

const Moved& moved(const Comparison& comparison, const std::string& name) {
  const auto it = std::find_if(comparison.moved.begin(), comparison.moved.end(),
                               [&](const Moved& m) { return m.of.name() == name; });
  INFO(name);
  REQUIRE(it != comparison.moved.end());
  return *it;
}

std::vector<std::string> names(const Comparison& comparison) {
  std::vector<std::string> names;
  for (const Alteration& it : comparison.alterations) names.push_back(it.name());
  return names;
}

double sum(const std::vector<double>& values) {
  double sum = 0;
  for (const double value : values) sum += value;
  return sum;
}

/// Shares of every measure sum to its change, but for rounding.
void check_sums(const Comparison& comparison) {
  for (const Moved& it : comparison.moved) {
    INFO(it.of.name());
    REQUIRE(it.by.size() == comparison.alterations.size());
    CHECK(sum(it.by) == Approx(it.to - it.from).margin(1e-11 * std::max({1.0, std::abs(it.from), std::abs(it.to)})));
    CHECK(it.change.estimate == it.to - it.from);
    CHECK(it.change.low <= it.change.estimate);
    CHECK(it.change.estimate <= it.change.high);
  }
}

/// Arm of a trapezoidal thread and a face: T/F = d2/2 · (tan λ + μ s)/(1 − μ s tan λ) + μ_c r_m, s = 1/cos α_n with
/// tan α_n = tan 15° cos λ [m]. Shigley, 9th ed., Eqs. 8-5 and 8-6.
double arm(double d, double pitch, double friction, double face_friction, double face_radius) {
  const double d2 = d - pitch / 2, tan_lead = pitch / (std::numbers::pi * d2);
  const double tan_flank = std::tan(std::numbers::pi / 12) / std::sqrt(1 + tan_lead * tan_lead);
  const double s = std::sqrt(1 + tan_flank * tan_flank);
  return d2 / 2 * (tan_lead + friction * s) / (1 - friction * s * tan_lead) + face_friction * face_radius;
}

const Typed typed_frictions = {{"scatter.thread_friction", "0.12"}, {"scatter.face_friction", "0.1"}};

Typed with(Typed typed, const Typed& more) {
  for (const auto& [key, value] : more) typed[key] = value;
  return typed;
}

/// Every third or so of these is typed.
const Typed choices = {{"torque", "\"66 N.m\""},
                       {"travel", "\"150 mm\""},
                       {"thread", "\"Tr 28x5\""},
                       {"starts", "2"},
                       {"nut_length", "\"1.5 d\""},
                       {"lubrication", "\"dry\""},
                       {"screw", "\"steel 1018 cold drawn\""},
                       {"nut", "\"brass C36000\""},
                       {"face", "{ kind = \"rolling\", mean_radius = \"15 mm\" }"},
                       {"scatter.torque", "[{ within = \"3 %\", varies = \"fixed\" }, { spread = \"2 %\" }]"},
                       {"scatter.shared_friction", "0.2"},
                       {"scatter.screw_yield", "{ spread = \"3 %\" }"},
                       {"must.yield", "{ margin = 2.9, odds = 0.95 }"},
                       {"must.buckling", "{ margin = 2.0 }"},
                       {"force", "\"14 kN\""}};

}  // namespace

TEST_CASE("A single change gets all of what moved, and the force is that of the torque formula", "[ask][compare]") {
  const Typed tight = with(typed_frictions, {{"force", "\"16.4 kN\""}});
  const Comparison it = compared(clamp(tight), clamp(with(tight, {{"torque", "\"66 N.m\""}})));
  CHECK(names(it) == std::vector<std::string>{"torque"});
  for (const Moved& each : it.moved) CHECK(each.by == std::vector<double>{each.to - each.from});
  const double r = 0.015;  // uniform wear: (20 + 10)/2 mm
  CHECK(moved(it, "force").from == Approx(60 / arm(0.024, 0.005, 0.12, 0.1, r)).epsilon(1e-9));
  CHECK(moved(it, "force").to == Approx(66 / arm(0.024, 0.005, 0.12, 0.1, r)).epsilon(1e-9));
  CHECK(it.passes == 65536);
  CHECK(it.mixtures == 2);
  CHECK(moved(it, "shortfall.force").told());
}

TEST_CASE("Two changes share the force as the two orders of making them do, written out", "[ask][compare]") {
  const Typed tight = with(typed_frictions, {{"force", "\"17 kN\""}});
  const Comparison it =
      compared(clamp(tight), clamp(with(tight, {{"torque", "\"72 N.m\""}, {"scatter.thread_friction", "0.16"}})));
  REQUIRE(names(it) == std::vector<std::string>{"torque", "thread friction"});
  const double was = arm(0.024, 0.005, 0.12, 0.1, 0.015), now = arm(0.024, 0.005, 0.16, 0.1, 0.015);
  const Moved& force = moved(it, "force");
  CHECK(force.by[0] == Approx((12 / was + 12 / now) / 2).epsilon(1e-9));
  CHECK(force.by[1] == Approx((60 / now - 60 / was + 72 / now - 72 / was) / 2).epsilon(1e-9));
  // Rectangular torque of ± 4 % alone scatters: its middle is the nominal, and what falls short is a share of its
  // width.
  CHECK(moved(it, "force.median").from == Approx(force.from).epsilon(1e-4));
  const auto short_of = [](double torque, double the_arm) {
    return 100 * std::clamp((17e3 * the_arm / torque - 0.96) / 0.08, 0.0, 1.0);
  };
  const Moved& shortfall = moved(it, "shortfall.force");
  CHECK(shortfall.from == Approx(short_of(60, was)).margin(0.01));
  CHECK(shortfall.to == Approx(short_of(72, now)).margin(0.01));
}

TEST_CASE("The shares sum to what moved, for every measure and any changes together", "[ask][compare]") {
  std::mt19937 random(20);
  std::size_t most = 0, put_together = 0, two_orders = 0;
  for (int k = 0; k < 12; ++k) {
    Typed otherwise;
    for (const auto& [key, value] : choices)
      if (k >= 9 || random() % 3 == 0) otherwise[key] = value;
    if (k >= 9) otherwise.erase(std::next(otherwise.begin(), k - 9)->first);
    const Study a = clamp(), b = clamp(otherwise);
    const Comparison it = compared(a, b);
    check_sums(it);
    most = std::max(most, it.alterations.size());
    two_orders += !it.every_order;
    CHECK(it.every_order == (it.alterations.size() <= 8));
    for (const Alteration& each : it.alterations) put_together += each.differences.size() > 1;
    // The ends are the two screws themselves.
    CHECK(moved(it, "force").from == settled(Side(a, screw_of(a)))->nominal[0]);
    CHECK(moved(it, "force").to == settled(Side(b, screw_of(b)))->nominal[0]);
  }
  CHECK(most > 8);
  CHECK(two_orders >= 3);
}

TEST_CASE("A change that bears on nothing judged gets exactly nothing", "[ask][compare]") {
  const Study a = clamp(), b = clamp({{"lowering_force", "\"5 kN\""}, {"torque", "\"61 N.m\""}});
  const Comparison it = compared(a, b);
  REQUIRE(names(it) == std::vector<std::string>{"torque", "force when lowering"});
  for (const Moved& each : it.moved) {
    CHECK(each.by[1] == 0);
    CHECK(each.by[0] == each.to - each.from);
  }
}

TEST_CASE("What does not reach the force leaves every pass of it as it was", "[ask][compare]") {
  const Study a = clamp(), b = clamp({{"scatter.screw_yield", "{ spread = \"12 %\" }"}});
  const Comparison it = compared(a, b);
  CHECK(names(it) == std::vector<std::string>{"scatter of the yield strength of the screw"});
  const Mixtures mixtures(Side(a, screw_of(a)), Side(b, screw_of(b)));
  const CommonDraws draws(mixtures.first().inputs, mixtures.second().inputs, 65536, 1);
  const Side one = mixtures.made(0), other = mixtures.made(1);
  CHECK(mixtures.pass(*settled(one), one, draws).output == mixtures.pass(*settled(other), other, draws).output);
  CHECK(moved(it, "force.median").change.low == 0);
  CHECK(moved(it, "force.median").change.high == 0);
  CHECK(moved(it, "shortfall.force").by == std::vector<double>{0});
  CHECK_FALSE(moved(it, "shortfall.force").told());
  CHECK(moved(it, "shortfall.yield").told());
}

TEST_CASE("The other way round every sign turns", "[ask][compare]") {
  for (const Typed& otherwise : {Typed{{"torque", "\"66 N.m\""}, {"lubrication", "\"dry\""}, {"thread", "\"Tr 28x5\""}},
                                 Typed{{"scatter.torque",
                                        "[{ spread = \"2 %\", varies = \"every screw\" }, { spread = "
                                        "\"1 %\" }]"},
                                       {"nut_length", "\"36 mm\""}},
                                 choices}) {
    const Study a = clamp(), b = clamp(otherwise);
    const Comparison there = compared(a, b), back = compared(b, a);
    REQUIRE(names(there) == names(back));
    for (std::size_t m = 0; m < there.moved.size(); ++m) {
      const Moved &one = there.moved[m], &other = back.moved[m];
      INFO(one.of.name());
      CHECK(one.from == other.to);
      CHECK(one.to == other.from);
      for (std::size_t i = 0; i < one.by.size(); ++i)
        CHECK(one.by[i] == Approx(-other.by[i]).margin(1e-11 * std::max(1.0, std::abs(one.from))));
      CHECK(one.change.low == Approx(-other.change.high).margin(1e-9));
    }
  }
}

TEST_CASE("The same bits on one thread and on three", "[ask][compare]") {
  const Study a = clamp(),
              b = clamp({{"torque", "\"66 N.m\""}, {"lubrication", "\"dry\""}, {"nut_length", "\"36 mm\""}});
  const Comparison one = compared(a, b, 1), three = compared(a, b, 3);
  for (std::size_t m = 0; m < one.moved.size(); ++m) {
    CHECK(one.moved[m].by == three.moved[m].by);
    CHECK(one.moved[m].change.low == three.moved[m].change.low);
  }
}

TEST_CASE("A torque of two parts and one of a single part share what varies alike, and all else is drawn alike",
          "[ask][compare]") {
  const Study a = clamp({{"scatter.torque", "[{ within = \"4 %\", varies = \"fixed\" }, { spread = \"2 %\" }]"}});
  const Study b = clamp({{"scatter.torque", "{ spread = \"2 %\" }"}});
  const Mixtures mixtures(Side(a, screw_of(a)), Side(b, screw_of(b)));
  const CommonDraws draws(mixtures.first().inputs, mixtures.second().inputs, 65536, 1);
  engine::Block one(models::input_count), other(models::input_count);
  const auto draw = [&](const Ready& ready, Made set, engine::Block& x) {
    draws.draw(ready.inputs.law, draws.rows(ready.inputs.law, mixtures.made(set).taken), 3, x);
  };
  draw(mixtures.first(), 0, one), draw(mixtures.second(), 1, other);
  const auto row = [](const engine::Block& x, models::Input input) { return x.row(static_cast<std::size_t>(input)); };
  double least = 1, most = 1;
  for (std::size_t i = 0; i < 1024; ++i) {
    for (const models::Input input :
         {models::Input::thread_friction, models::Input::face_friction, models::Input::screw_yield})
      REQUIRE(row(one, input)[i] == row(other, input)[i]);
    const double ratio = row(one, models::Input::drive)[i] / row(other, models::Input::drive)[i];
    least = std::min(least, ratio), most = std::max(most, ratio);
  }
  // What is left of the two is the part that the other has not: a rectangle of ± 4 %.
  CHECK(least == Approx(0.96).margin(2e-3));
  CHECK(least >= 0.96 - 1e-9);
  CHECK(most == Approx(1.04).margin(2e-3));
  CHECK(most <= 1.04 + 1e-9);
  CHECK(compared(a, b).alterations.size() == 1);
}

TEST_CASE("What cannot be made alone is one change", "[ask][compare]") {
  // No source gives a friction of greased bronze: grease and its typed friction come together.
  const Study a = clamp(), b = clamp({{"lubrication", "\"grease\""},
                                      {"scatter.thread_friction", "{ mean = 0.11, spread = 0.01 }"},
                                      {"torque", "\"61 N.m\""}});
  const Comparison it = compared(a, b);
  CHECK(names(it) == std::vector<std::string>{"torque", "lubrication and thread friction"});
  check_sums(it);
  CHECK(it.mixtures == 4);
}

TEST_CASE("What follows from the thread is not said again", "[ask][compare]") {
  const Study a = clamp({{"nut_length", "\"1.5 d\""}}),
              b = clamp({{"nut_length", "\"1.5 d\""}, {"thread", "\"Tr 28x5\""}});
  CHECK(names(compared(a, b)) == std::vector<std::string>{"thread"});
  const Study longer = clamp({{"nut_length", "\"1.8 d\""}, {"thread", "\"Tr 28x5\""}});
  CHECK(names(compared(a, longer)) == std::vector<std::string>{"thread", "nut length"});
}

TEST_CASE("A limit moved changes how often it falls short and no output; odds asked change nothing", "[ask][compare]") {
  const Study a = clamp(), b = clamp({{"must.yield", "{ margin = 2.9, odds = 0.9 }"}, {"must.buckling", ""}});
  const Comparison it = compared(a, b);
  CHECK(names(it) == std::vector<std::string>{"margin of yield of the body asked"});
  CHECK(moved(it, "force").by[0] == 0);
  CHECK(moved(it, "margin.yield").by[0] == 0);
  CHECK(moved(it, "shortfall.yield").to > moved(it, "shortfall.yield").from);
  CHECK(std::none_of(it.moved.begin(), it.moved.end(),
                     [](const Moved& m) { return m.of.kind != Kind::nominal && m.of.must == models::Must::buckling; }));
  std::vector<std::string> besides;
  for (const Difference& each : it.besides) besides.push_back(each.key);
  CHECK(besides == std::vector<std::string>{"must.yield.odds", "must.buckling"});
}

TEST_CASE("The same study twice has no difference and moves nothing", "[ask][compare]") {
  const Comparison it = compared(clamp(), clamp());
  CHECK(it.alterations.empty());
  CHECK(it.besides.empty());
  for (const Moved& each : it.moved) {
    CHECK(each.from == each.to);
    CHECK(each.by.empty());
  }
}

TEST_CASE("A clamp and a lift are not compared", "[ask][compare]") {
  const Study a = clamp();
  const Study lift = tests::study_of(
      "title = \"Jack\"\n[duty]\naction = \"lift\"\nforce = \"15 kN\"\ntorque = \"60 N.m\"\n[choose]\nthread = \"Tr "
      "24x5\"\nnut_length = \"40 mm\"\nlubrication = \"oil\"\nscrew = \"steel 1045 hot rolled\"\nnut = \"bearing "
      "bronze "
      "C93200\"\nface = { kind = \"pad\", mean_radius = \"9 mm\", on = \"bronze\" }\n",
      Verb::rate);
  REQUIRE_THROWS_AS(compared(a, lift), engine::Refusal);
  try {
    compared(a, lift);
  } catch (const engine::Refusal& refusal) {
    CHECK(refusal.code() == engine::ExitCode::usage);
    CHECK(std::string(refusal.what()).find("a clamp and a lift cannot be compared") != std::string::npos);
  }
}

TEST_CASE("The difference in what falls short is that of the distribution, within its bounds", "[ask][compare]") {
  // Only a normal torque scatters: the force falls short where it is below a value, with odds known exactly.
  const Typed normal = with(typed_frictions, {{"scatter.torque", "{ spread = \"5 %\", shape = \"normal\" }"},
                                              {"scatter.screw_yield", ""},
                                              {"force", "\"17 kN\""}});
  const double the_arm = arm(0.024, 0.005, 0.12, 0.1, 0.015);
  const auto short_of = [&](double torque) {
    return 50 * std::erfc(-((17e3 * the_arm / torque - 1) / 0.05) / std::numbers::sqrt2);
  };
  std::size_t inside = 0;
  for (int key = 1; key <= 20; ++key) {
    const Typed keyed = with(normal, {{"key", std::to_string(key)}});
    const Moved it = moved(compared(clamp(keyed), clamp(with(keyed, {{"torque", "\"60.5 N.m\""}}))), "shortfall.force");
    CHECK(it.told());
    CHECK(it.change.high - it.change.low < 0.2);
    const double exact = short_of(60.5) - short_of(60);
    inside += it.change.low <= exact && exact <= it.change.high;
  }
  CHECK(inside >= 17);  // of 20 bounds of 95 %, fewer than 17 hold once in 600 such tests
}
