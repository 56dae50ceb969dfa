#include <catch2/catch.hpp>

#include <algorithm>

#include "tests/read/study_texts.hpp"

using namespace studies;
using Catch::Matchers::Contains;
using models::Input;
using models::Limit;
using models::Must;

namespace {

const Echo* echo(const Study& study, const std::string& path) {
  for (const Echo& one : study.echoes)
    if (one.path == path) return &one;
  return nullptr;
}

const Scatter& scatter(const Study& study, Input input) { return study.scatter[static_cast<std::size_t>(input)]; }

/// The clamp with these lines in [scatter].
Study scattering(const std::string& lines) {
  return study_of(with(clamp_text, {{"[scatter]", "[scatter]\n" + lines}}));
}

}  // namespace

TEST_CASE("A clamp is read into SI") {
  const Study study = study_of(clamp_text, Verb::size);
  CHECK(study.title == "A clamp");
  CHECK(study.duty.action == models::Action::clamp);
  CHECK(*study.duty.force == 10000);
  CHECK(study.duty.drive == models::Drive::torque);
  CHECK(study.duty.drive_torque() == 60);
  CHECK(*study.duty.travel == Approx(0.2));
  REQUIRE(study.choices.thread.sizes.size() == 1);
  CHECK(study.choices.thread.sizes[0].pitch == Approx(0.005));
  CHECK(study.choices.starts == std::vector<int>{1});
  CHECK(study.choices.nut_length.values[0].of(1) == Approx(0.04));
  CHECK(study.choices.nut_outside.of(0.02) == Approx(0.032));
  CHECK(study.choices.lubrication == std::vector<std::string>{"oil"});
  CHECK(study.choices.screw[0].yield == 310e6);
  CHECK(*study.choices.face[0].mean_radius == Approx(0.004));
  CHECK(study.scatter.size() == models::input_count);
  CHECK_FALSE(study.inch);
  CHECK(study.units.front() == std::pair(engine::Dimension::force, std::string("kN")));
  CHECK(study.cautions.empty());
}

TEST_CASE("Every default is echoed with why") {
  const Study study = study_of(clamp_text);
  for (const char* path : {"duty.screw_in",
                           "duty.torque_path",
                           "duty.ends",
                           "duty.end_length",
                           "duty.free_length",
                           "duty.people",
                           "choose.starts",
                           "choose.nut_outside",
                           "choose.made",
                           "choose.face.law",
                           "choose.face.hard",
                           "scatter.thread_friction",
                           "scatter.face_friction",
                           "scatter.shared_friction",
                           "must.force.at_least",
                           "aim.least",
                           "passes.count",
                           "passes.plan",
                           "passes.key",
                           "passes.keep"}) {
    INFO(path);
    REQUIRE(echo(study, path) != nullptr);
    CHECK(echo(study, path)->line == 0);
    CHECK_THAT(echo(study, path)->source, Catch::Matchers::StartsWith("default: "));
    CHECK(echo(study, path)->source.size() > 12);
  }
  CHECK(echo(study, "duty.force")->line == 4);
  CHECK(echo(study, "duty.force")->given == "10 kN");
  CHECK(echo(study, "duty.force")->source == "typed");
  CHECK_THAT(echo(study, "choose.screw.yield")->source, Catch::Matchers::StartsWith("table: "));
  CHECK_THAT(echo(study, "scatter.thread_friction.low")->source, Catch::Matchers::StartsWith("table: "));
  CHECK(*echo(study, "scatter.thread_friction.low")->si == 0.10);
  CHECK(study.passes.count == 262144);
  CHECK(study.passes.key == 1);
  CHECK(study.shared_friction == 0.7);
  CHECK(study.held_fixed == std::vector<std::string>{"torque", "drag", "screw_yield", "screw_strength", "nut_strength",
                                                     "modulus", "model_error", "diameters"});
}

TEST_CASE("Settling is read in place of a count, and its defaults are echoed") {
  const auto settling = [](const std::string& typed) {
    return study_of(with(clamp_text, {{"[passes]", "[passes]\nsettle = " + typed}}));
  };
  const Study usual = settling("{}");
  REQUIRE(usual.passes.settle);
  CHECK((usual.passes.settle->digits == 2 && usual.passes.settle->at_most == 100'000'000));
  CHECK_THAT(echo(usual, "passes.settle.digits")->source, Catch::Matchers::StartsWith("default: "));
  CHECK(echo(usual, "passes.count") == nullptr);
  const Study typed = settling("{ digits = 1, at_most = 300_000 }");
  CHECK((typed.passes.settle->digits == 1 && typed.passes.settle->at_most == 300'000));
  CHECK_FALSE(study_of(clamp_text).passes.settle);
}

TEST_CASE("Inch studies keep their units") {
  const Study study = study_of(lift_text);
  CHECK(study.inch);
  CHECK(study.duty.drive_torque() == Approx(30 * 4.4482216152605 * 18 * 0.0254));
  CHECK(study.cautions.empty());
  CHECK(study.held_fixed.front() == "hand_force");
}

TEST_CASE("A motor, its gear and speeds are resolved at the screw") {
  const Study study = study_of(
      with(clamp_text, {{"torque = \"60 N.m\"",
                         "motor = { torque = \"2 N.m\", ratio = 40, efficiency = \"80 %\", speed = \"1400 rpm\" }"}}));
  CHECK(study.duty.drive == models::Drive::motor);
  CHECK(study.duty.drive_torque() == Approx(64));
  CHECK(*study.duty.screw_speed == Approx(1400.0 / 60 / 40));
  CHECK(*study_of(with(clamp_text, {{"travel", "speed = \"30 rpm\"\ntravel"}})).duty.screw_speed == Approx(0.5));
  CHECK(*study_of(with(clamp_text, {{"travel", "speed = \"30 mm/s\"\ntravel"}})).duty.travel_speed == Approx(0.03));
}

TEST_CASE("The overload pull takes the duty's handle and one hand") {
  const Study study =
      study_of(with(lift_text, {{"travel", "overload = { hand_force = \"100 N\" }\nhands = 2\ntravel"}}));
  CHECK(study.duty.overload->torque == Approx(100 * 18 * 0.0254));
  CHECK(*study.duty.overload->handle == Approx(18 * 0.0254));
  CHECK(study.duty.overload->hands == 1);
  CHECK(study.duty.hands == 2);
  CHECK(study_of(with(clamp_text, {{"travel", "overload = { torque = \"90 N.m\" }\ntravel"}})).duty.overload->torque ==
        90);
}

TEST_CASE("Threads may be named, listed, a part of a series or free") {
  const auto sizes = [](const std::string& thread) {
    return study_of(with(clamp_text, {{"\"Tr 24x5\"", thread}})).choices.thread;
  };
  CHECK(sizes("[\"Tr 24x5\", \"1-5 Acme\"]").sizes.size() == 2);
  CHECK(sizes("{ form = \"trapezoidal\", from = \"22 mm\", to = \"24 mm\" }").sizes.size() == 6);
  CHECK(sizes("{ form = \"acme\", from = \"1 in\", to = \"1 1/4 in\" }").sizes.size() == 3);
  const ThreadChoice free =
      sizes("{ form = \"square\", diameter = { from = \"20 mm\", to = \"30 mm\" }, pitch = \"5 tpi\" }");
  REQUIRE(free.free.size() == 1);
  CHECK(free.free[0].pitch.fixed());
  CHECK(free.free[0].pitch.from == Approx(0.00508));
  const ThreadChoice band =
      sizes("{ form = \"acme\", diameter = \"1 in\", pitch = { from = \"4 tpi\", to = \"6 tpi\" } }");
  CHECK(band.free[0].pitch.from < band.free[0].pitch.to);
  CHECK(sizes("\"Tr 24x10 P5\"").sizes[0].starts == 2);
  CHECK(study_of(with(clamp_text, {{"\"Tr 24x5\"", "\"Tr 24x10 P5\"\nstarts = 2"}})).choices.starts ==
        std::vector<int>{2});
}

TEST_CASE("Nut lengths may be lengths, multiples of d, a list or a range") {
  const auto nut = [](const std::string& typed) {
    return study_of(with(clamp_text, {{"\"40 mm\"", typed}})).choices.nut_length;
  };
  CHECK(nut("\"1.5 d\"").values[0].of(0.02) == Approx(0.03));
  CHECK(nut("\"1.5d\"").values[0].times_diameter);
  CHECK(nut("[\"30 mm\", \"2 d\"]").values.size() == 2);
  REQUIRE(nut("{ from = \"1 d\", to = \"2.5 d\" }").range);
  CHECK(nut("{ from = \"1 d\", to = \"2.5 d\" }").range->second.of(0.02) == Approx(0.05));
}

TEST_CASE("Fixed values override, deviations multiply or add") {
  const Study fixed = scattering("thread_friction = 0.15\nscrew_yield = \"355 MPa\"");
  CHECK(*scatter(fixed, Input::thread_friction).base == 0.15);
  CHECK_FALSE(scatter(fixed, Input::thread_friction).handbook);
  CHECK(scatter(fixed, Input::face_friction).handbook);
  CHECK(*scatter(fixed, Input::screw_yield).base == 355e6);
  CHECK(scatter(fixed, Input::screw_yield).parts.empty());

  const Study parts =
      scattering("torque = [{ within = \"4 %\", varies = \"fixed\" }, { spread = \"1 %\" }, { within = \"2 N.m\" }]");
  const Scatter& torque = scatter(parts, Input::drive);
  REQUIRE(torque.parts.size() == 3);
  CHECK_FALSE(torque.base);
  CHECK(torque.parts[0].role == ScatterPart::Role::factor);
  CHECK(torque.parts[0].marginal.a == Approx(0.96));
  CHECK(torque.parts[0].marginal.b == Approx(1.04));
  CHECK(torque.parts[0].varies == Varies::fixed);
  CHECK(torque.parts[0].said == "± 4 %, rectangular");
  CHECK(torque.parts[1].marginal.shape == engine::Shape::normal);
  CHECK(torque.parts[1].varies == Varies::every_pull);
  CHECK(torque.parts[2].role == ScatterPart::Role::added);
  CHECK(torque.parts[2].marginal.b == Approx(2));
  CHECK(torque.place.line == 15);
}

TEST_CASE("A mean with a spread is a value, the same as the duty's is fine") {
  const Study study = scattering("torque = { shape = \"normal\", mean = \"60 N.m\", spread = \"5 %\" }");
  const Scatter& torque = scatter(study, Input::drive);
  CHECK(*torque.base == 60);
  REQUIRE(torque.parts.size() == 1);
  CHECK(torque.parts[0].role == ScatterPart::Role::value);
  CHECK(torque.parts[0].marginal.spread() == Approx(3));
}

TEST_CASE("Strengths are lognormal from screw to screw unless typed otherwise") {
  const Study study = scattering("screw_yield = { spread = \"6 %\" }");
  const ScatterPart& part = scatter(study, Input::screw_yield).parts.at(0);
  CHECK(part.role == ScatterPart::Role::factor);
  CHECK(part.marginal.shape == engine::Shape::lognormal);
  CHECK(part.marginal.mean() == Approx(1));
  CHECK(part.marginal.spread() == Approx(0.06));
  CHECK(part.varies == Varies::every_screw);
  CHECK(echo(study, "scatter.screw_yield.shape")->given == "lognormal");
  const Study absolute = scattering("screw_yield = { spread = \"20 MPa\" }");
  CHECK(scatter(absolute, Input::screw_yield).parts[0].marginal.mean() == Approx(310e6));
}

TEST_CASE("A range of practice is no limit, limits are typed with their shape") {
  const ScatterPart practice =
      scatter(scattering("thread_friction = { low = 0.11, high = 0.17 }"), Input::thread_friction).parts.at(0);
  CHECK(practice.marginal.shape == engine::Shape::lognormal);
  CHECK(practice.marginal.quantile(0.1) == Approx(0.11));
  CHECK(practice.marginal.quantile(0.9) == Approx(0.17));
  CHECK(practice.said == "0.11 to 0.17 inside 80 of 100, lognormal");
  const ScatterPart most =
      scatter(scattering("thread_friction = { low = 0.11, high = 0.17, inside = \"95 %\", shape = \"normal\" }"),
              Input::thread_friction)
          .parts.at(0);
  CHECK(most.marginal.quantile(0.025) == Approx(0.11));
  const ScatterPart limits =
      scatter(scattering("thread_friction = { shape = \"uniform\", low = 0.11, high = 0.17 }"), Input::thread_friction)
          .parts.at(0);
  CHECK(limits.marginal.a == Approx(0.11));
  const ScatterPart triangle =
      scatter(scattering("thread_friction = { shape = \"triangular\", low = 0.1, mode = 0.12, high = 0.2 }"),
              Input::thread_friction)
          .parts.at(0);
  CHECK(triangle.marginal.c == Approx(0.12));
}

TEST_CASE("Readings give Student's distribution of the next, or of the constant behind them") {
  // JCGM 101:2008, 6.4.9: mean 0.15, s 0.02, n 3.
  const Study next = scattering("thread_friction = { readings = [0.13, 0.15, 0.17] }");
  const ScatterPart& part = scatter(next, Input::thread_friction).parts.at(0);
  CHECK(part.marginal.a == Approx(0.15));
  CHECK(part.marginal.b == Approx(0.02 * std::sqrt(4.0 / 3)));
  CHECK(part.marginal.c == 2);
  CHECK(part.source == "readings (3)");
  CHECK(next.cautions.size() == 1);
  const Study constant = scattering("thread_friction = { readings = [0.13, 0.15, 0.17, 0.15], varies = \"fixed\" }");
  const double s = std::sqrt(0.0008 / 3);
  CHECK(scatter(constant, Input::thread_friction).parts.at(0).marginal.b == Approx(s / 2));
  CHECK(constant.cautions.empty());
}

TEST_CASE("A deviation of a friction is taken from the table's value") {
  const Scatter friction = scatter(scattering("face_friction = { within = \"20 %\" }"), Input::face_friction);
  CHECK(*friction.base == Approx(0.08));
  CHECK(friction.parts.at(0).role == ScatterPart::Role::factor);
  CHECK(*scatter(scattering("thread_friction = { spread = \"10 %\" }"), Input::thread_friction).base ==
        Approx(std::sqrt(0.10 * 0.16)));
}

TEST_CASE("Limits stand in their own order, implied ones among them") {
  const Study clamp = study_of(with(clamp_text, {{"[must]", "[must]\nmass = { at_most = \"3 kg\" }\nstripping = {}"}}));
  REQUIRE(clamp.limits.size() == 4);
  CHECK(clamp.limits[0].must == Must::force);
  CHECK(clamp.limits[0].kind == Limit::Kind::at_least);
  CHECK(clamp.limits[0].asked == 10000);
  CHECK_FALSE(clamp.limits[0].odds);
  CHECK(clamp.limits[1].must == Must::yield);
  CHECK(clamp.limits[2].must == Must::stripping);
  CHECK(clamp.limits[2].asked == 1);
  CHECK(clamp.limits[3].must == Must::mass);

  const Study typed =
      study_of(with(clamp_text, {{"[must]", "[must]\nforce = { at_least = \"10 kN\", odds = \"95 %\" }"}}));
  CHECK(typed.limits.size() == 2);
  CHECK(*typed.limits[0].odds == Approx(0.95));

  const Study lift = study_of(lift_text);
  REQUIRE(lift.limits.size() == 2);
  CHECK(lift.limits[0].must == Must::torque);
  CHECK(lift.limits[0].kind == Limit::Kind::margin);
  CHECK(study_of(with(lift_text, {{"[must]", "[must]\nhand_force = { at_most = \"40 lbf\" }"}})).limits.size() == 2);
  CHECK(study_of(
            with(clamp_text, {{"bearing bronze C93200", "grey iron class 30"}, {"[must]", "[must]\nstripping = {}"}}))
            .limits[2]
            .asked == 4);
}

TEST_CASE("A part that is to go first has a limit for that beside its own, with the same odds") {
  const auto limits_of = [](const std::string& stripping) {
    return study_of(with(clamp_text, {{"[must]", "[must]\nmass = { at_most = \"9 kg\" }\nstripping = " + stripping}}))
        .limits;
  };
  const std::vector<Limit> limits = limits_of("{ margin = 2, odds = 0.99, first = true }");
  REQUIRE(limits.size() == 5);
  CHECK(limits[2].must == Must::stripping);
  CHECK(limits[2].asked == 2);
  CHECK(limits[3].must == Must::goes_first);
  CHECK(limits[3].part == Must::stripping);
  CHECK(limits[3].kind == Limit::Kind::margin);
  CHECK(limits[3].asked == 1);
  CHECK(*limits[3].odds == 0.99);
  CHECK(limits[4].must == Must::mass);
  CHECK_FALSE(limits_of("{ first = true }")[3].odds);
  CHECK(limits_of("{ margin = 2, first = false }").size() == limits_of("{ margin = 2 }").size());
  CHECK(study_of(with(clamp_text, {{"margin = 1.5", "at_most = \"90 MPa\", first = true"}})).limits.back().part ==
        Must::yield);
}

TEST_CASE("The units of a study are the first typed of each dimension") {
  const Study study = study_of(
      with(clamp_text, {{"\"200 mm\"", "\"8 in\""}, {"\"40 mm\"", "\"1.5 in\""}, {"\"4 mm\"", "\"0.15 in\""}}));
  const auto of = [&](engine::Dimension dimension) {
    for (const auto& [one, unit] : study.units)
      if (one == dimension) return unit;
    return std::string();
  };
  CHECK(of(engine::Dimension::length) == "in");
  CHECK(of(engine::Dimension::torque) == "N.m");
  CHECK(study.inch);
}
