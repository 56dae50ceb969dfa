/// What other choices are worth, against plain formulas and loops; and the sizes beside the pick, against every nut.
#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "models/thread/designation.hpp"
#include "studies/ask/explain.hpp"
#include "studies/ask/hunt.hpp"
#include "studies/ask/other_choices.hpp"
#include "studies/ask/question.hpp"
#include "studies/ask/worth.hpp"
#include "tests/ask/read_text.hpp"

namespace {

using namespace studies;
using tests::study_of;

/// A screw (invented) turned with 60 N·m under 15 kN: `action`, what may be chosen, the scatter and what must hold.
std::string screw(const std::string& action, const std::string& choose, const std::string& scatter,
                  const std::string& must, unsigned key = 1) {
  return fmt::format(
      "title = \"Screw\"\n[duty]\naction = \"{}\"\nforce = \"15 kN\"\ntorque = \"60 N.m\"\ntravel = \"200 mm\"\n"
      "free_length = \"220 mm\"\n[choose]\nscrew = \"steel 1045 hot rolled\"\n{}\n[scatter]\ntorque = {{ within = "
      "\"4 %\" }}\n{}\n[must]\n{}\n[passes]\ncount = 65536\nkey = {}\n",
      action, choose, scatter, must, key);
}

const std::string one =
    "thread = \"Tr 24x5\"\nnut_length = \"40 mm\"\nlubrication = \"oil\"\nnut = \"bearing bronze "
    "C93200\"\nface = { kind = \"pad\", outer = \"40 mm\", inner = \"20 mm\", on = \"bronze\" }";

const Worth& found(const std::vector<Worth>& all, const std::string& change, const std::string& to) {
  const auto it =
      std::find_if(all.begin(), all.end(), [&](const Worth& w) { return w.change == change && w.to.starts_with(to); });
  INFO(change << " " << to);
  REQUIRE(it != all.end());
  return *it;
}

/// Arm of a trapezoidal thread and a face: T/F = d2/2 · (tan λ + μ s)/(1 − μ s tan λ) + μ_c r_m, s = 1/cos α_n with
/// tan α_n = tan 15° cos λ [m]. Shigley, 9th ed., Eqs. 8-5 and 8-6.
double arm(double d, double pitch, int starts, double friction, double face_friction, double face_radius) {
  const double d2 = d - pitch / 2, tan_lead = pitch * starts / (std::numbers::pi * d2);
  const double tan_flank = std::tan(std::numbers::pi / 12) / std::sqrt(1 + tan_lead * tan_lead);
  const double s = std::sqrt(1 + tan_flank * tan_flank);
  return d2 / 2 * (tan_lead + friction * s) / (1 - friction * s * tan_lead) + face_friction * face_radius;
}

/// Mass of a screw of 200 mm and its 40 mm nut of 1.6 d [kg]: a bar of the pitch diameter, a ring around it.
double mass(double d, double pitch, double steel, double bronze) {
  const double d2 = d - pitch / 2, quarter = std::numbers::pi / 4;
  return steel * quarter * d2 * d2 * 0.24 + bronze * quarter * (2.56 * d * d - d2 * d2) * 0.04;
}

std::set<std::string> names(const std::vector<OtherChoice>& all) {
  std::set<std::string> names;
  for (const OtherChoice& it : all) names.insert(it.change + " " + it.to + (it.offered ? " offered" : ""));
  return names;
}

Candidate of_surface(const models::Design& design, std::size_t index) {
  Candidate candidate;
  candidate.surface = {design.lubrication, design.screw, design.nut, design.face};
  candidate.surface_index = index;
  return candidate;
}

}  // namespace

TEST_CASE("The nominal change of every other choice is that of the formulas", "[ask]") {
  const bool clamp = GENERATE(true, false);
  const Study study = study_of(
      screw(clamp ? "clamp" : "lift", one, clamp ? "" : "load = { within = \"5 %\" }", "yield = { margin = 1.5 }"));
  const Answer answer = rate(study, {});
  const double oiled = std::sqrt(0.10 * 0.16), dry = std::sqrt(0.15 * 0.23), rolling = std::sqrt(0.002 * 0.005);
  const double d = 0.024, r = 0.015, pad = 0.08;  // uniform wear: (20 + 10)/2 mm
  const auto value = [&](double the_arm) { return clamp ? 60 / the_arm : 15e3 * the_arm; };
  const double was = value(arm(d, 0.005, 1, oiled, pad, r));
  const models::Design& pick = answer.pick->design;
  const double steel = pick.screw.density, bronze = pick.nut.density;
  const auto check = [&](const Worth& it, double the_arm, double pitch) {
    INFO(it.change << " " << it.to);
    CHECK(it.nominal == Approx(value(the_arm) - was).epsilon(1e-9));
    CHECK(it.mass == Approx(mass(d, pitch, steel, bronze) - mass(d, 0.005, steel, bronze)).margin(1e-12));
    CHECK(it.share == Approx((value(the_arm) - was) / was).margin(0.02));
    CHECK_FALSE(it.offered);
  };
  const std::vector<Worth>& all = answer.worth;
  check(found(all, "lubrication", "dry"), arm(d, 0.005, 1, dry, pad, r), 0.005);
  check(found(all, "face", "rolling"), arm(d, 0.005, 1, oiled, rolling, r), 0.005);
  check(found(all, "starts", "2"), arm(d, 0.005, 2, oiled, pad, r), 0.005);
  check(found(all, "pitch", "3 mm"), arm(d, 0.003, 1, oiled, pad, r), 0.003);
  check(found(all, "pitch", "8 mm"), arm(d, 0.008, 1, oiled, pad, r), 0.008);
  CHECK(all.size() == 5);
  CHECK(all.front().change == "face");  // nothing else saves as much
  for (std::size_t i = 1; i < all.size(); ++i)
    CHECK((clamp ? all[i - 1].mean >= all[i].mean : all[i - 1].mean <= all[i].mean));
}

TEST_CASE("How often another choice helps and what it changes is what a loop over the passes counts", "[ask]") {
  const std::string must = "force = { at_least = \"15 kN\", odds = 0.95 }";
  const Answer answer = rate(study_of(screw("clamp", one, "", must)), {});
  std::string two_nuts = one;
  two_nuts.replace(two_nuts.find("\"bearing bronze C93200\""), 23, "[\"bearing bronze C93200\", \"brass C36000\"]");
  const Study study = study_of(screw("clamp", two_nuts, "", must));
  const SharedPasses passes(study, engine::Plan::Kind::sobol, 65536, engine::Stream::worth);
  const models::Design& pick = answer.pick->design;
  const std::vector<double> was = passes.margins(of_surface(pick, 0), pick)[0];
  const std::vector<Worth> worth = worth_of_choices(study, pick, answer.limits, {});
  std::size_t index = 0;
  for (const OtherChoice& change : other_choices(study, pick)) {
    INFO(change.change << " " << change.to);
    const Worth& it = found(worth, change.change, change.to);
    const std::vector<double> now = passes.margins(of_surface(*change.design, ++index), *change.design)[0];
    double helped = 0, sum = 0, missed = 0;
    for (std::size_t i = 0; i < was.size(); ++i) {
      helped += now[i] > was[i];
      sum += (now[i] - was[i]) * 15e3;
      missed += now[i] < 1;
    }
    CHECK(it.helps.estimate == helped / 65536);
    CHECK(it.helps.low < it.helps.high);
    CHECK((it.helps.low <= it.helps.estimate && it.helps.estimate <= it.helps.high));
    CHECK(it.mean == Approx(sum / 65536).epsilon(1e-9));
    CHECK(it.passes == 65536);
    CHECK((it.misses == std::vector<models::Must>{models::Must::force}) == (missed > 0.05 * 65536));
  }
  CHECK(index == 6);
  // Oiled brass rubs with 0.10 to 0.15, bronze with 0.10 to 0.16, both from the 10 % to the 90 % point: less above it.
  const Worth& brass = found(worth, "nut", "brass");
  CHECK(brass.helps.estimate == Approx(0.9).margin(1e-3));
  CHECK(brass.helps.low <= 0.9);
  CHECK(0.9 <= brass.helps.high);
  CHECK(brass.offered);
}

TEST_CASE("What is compared differs in the choice alone: the same pull, each friction at the same place", "[ask]") {
  const Study study = study_of(screw("clamp", one, "screw_yield = { spread = \"6 %\" }", "yield = { margin = 1.5 }"));
  const models::Design pick = rate(study, {}).pick->design;
  const SharedPasses passes(study, engine::Plan::Kind::sobol, 65536, engine::Stream::worth);
  const SharedInputs& was = passes.inputs(of_surface(pick, 0));
  const auto row = [](const SharedInputs& of, models::Input input) {
    return of.held[7].row(static_cast<std::size_t>(input));
  };
  // How far a value is from the median, of a lognormal whose 10 % and 90 % points are the ends of its range.
  const auto place = [](double value, double low, double high) {
    return std::log(value / std::sqrt(low * high)) / std::log(high / low);
  };
  std::size_t index = 0;
  for (const OtherChoice& change : other_choices(study, pick)) {
    INFO(change.change << " " << change.to);
    const SharedInputs& now = passes.inputs(of_surface(*change.design, ++index));
    REQUIRE(now.inputs.law.dimensions() == was.inputs.law.dimensions());
    const bool dry = change.to == "dry", rolling = change.to.starts_with("rolling");
    for (std::size_t i = 0; i < 1024; ++i) {
      for (const models::Input input : {models::Input::drive, models::Input::screw_yield})
        CHECK(row(now, input)[i] == row(was, input)[i]);
      CHECK(place(row(now, models::Input::thread_friction)[i], dry ? 0.15 : 0.10, dry ? 0.23 : 0.16) ==
            Approx(place(row(was, models::Input::thread_friction)[i], 0.10, 0.16)).margin(1e-9));
      CHECK(place(row(now, models::Input::face_friction)[i], rolling ? 0.002 : 0.064, rolling ? 0.005 : 0.1) ==
            Approx(place(row(was, models::Input::face_friction)[i], 0.064, 0.1)).margin(1e-9));
    }
  }
}

TEST_CASE("A nut of the same friction with typed friction changes nothing, and helps in no pass", "[ask]") {
  const Study study = study_of(
      screw("clamp",
            "thread = \"Tr 24x5\"\nnut_length = \"40 mm\"\nlubrication = [\"oil\", \"dry\"]\nnut = [\"bearing bronze "
            "C93200\", \"aluminium bronze C95400\"]\nface = { kind = \"pad\", mean_radius = \"9 mm\" }",
            "thread_friction = { mean = 0.13, spread = 0.02 }\nface_friction = 0.1", "force = { odds = 0.5 }"));
  const Answer answer = size(study, {});
  REQUIRE(answer.pick);
  const bool first = answer.pick->design.nut.name == "bearing bronze C93200";
  for (const Worth& it :
       {found(answer.worth, "nut", first ? "aluminium bronze" : "bearing bronze"),
        found(answer.worth, "lubrication", answer.pick->design.lubrication == "oil" ? "dry" : "oil")}) {
    INFO(it.change);
    CHECK(it.offered);
    CHECK(it.nominal == 0);
    CHECK(it.mean == 0);
    CHECK(it.helps.estimate == 0);
    CHECK(it.misses.empty());
  }
  for (const Worth& it : answer.worth) CHECK(it.change != "face");  // typed friction: no bearing can be compared
}

TEST_CASE("Offered is what the study lists; what lies near at hand is added once, where it can be built", "[ask]") {
  const Study study = study_of(screw(
      "clamp",
      "thread = [\"Tr 24x5\", \"Tr 24x8\", \"Tr 30x6\"]\nstarts = [1, 3]\nnut_length = \"7 mm\"\nlubrication = "
      "[\"oil\", \"dry\"]\nnut = \"bearing bronze C93200\"\nface = [{ kind = \"pad\", mean_radius = \"9 mm\", on = "
      "\"bronze\" }, { kind = \"rolling\", mean_radius = \"9 mm\" }]",
      "", "yield = { margin = 1.5 }"));
  const Candidate first = candidates(study).front();
  const models::Design pick = design_of(study, first, *first.thread, 0.007);
  const std::vector<OtherChoice> all = other_choices(study, pick);
  CHECK(names(all) == std::set<std::string>{"lubrication dry offered", "face rolling, mean radius 9 mm offered",
                                            "starts 2", "starts 3 offered", "pitch 3 mm", "pitch 8 mm offered"});
  CHECK(names(all).size() == all.size());
  for (const OtherChoice& it : all) {
    INFO(it.change << " " << it.to);
    CHECK(it.from != it.to);
    CHECK(it.why == (it.to == "8 mm" ? "0.875 engaged turns, where at least 1 is needed" : ""));
  }
  const std::vector<Worth> worth =
      worth_of_choices(study, pick, rate(study_of(screw("clamp", one, "", "yield = { margin = 1.5 }")), {}).limits, {});
  CHECK(worth.back().to == "8 mm");
  CHECK(worth.back().passes == 0);
  CHECK(std::isnan(worth.back().mean));
  CHECK_FALSE(worth.back().why.empty());
}

TEST_CASE("A choice that does not bear on a limit is not said to miss it, however near the limit is", "[ask]") {
  // The nut is just long enough for the bearing pressure, on other passes than these.
  std::size_t near = 0;
  for (unsigned key = 1; key <= 6; ++key) {
    const Study study = study_of(
        screw("clamp",
              "thread = \"Tr 24x5\"\nnut_length = { from = \"0.5 d\", to = \"3 d\" }\nlubrication = \"oil\"\nnut = "
              "[\"bearing bronze C93200\", \"aluminium bronze C95400\"]\nface = { kind = \"pad\", mean_radius = \"9 "
              "mm\", on = "
              "\"bronze\" }",
              "", "bearing = { odds = 0.95 }", key));
    const Answer answer = size(study, {});
    REQUIRE(answer.pick);
    near += answer.limits.back().spare < 1e-3;
    const Worth& other =
        found(answer.worth, "nut", answer.pick->design.nut.name == "bearing bronze C93200" ? "alum" : "bear");
    CHECK(other.misses.empty());
    CHECK(found(answer.worth, "face", "rolling").misses == std::vector<models::Must>{models::Must::bearing});
  }
  CHECK(near == 6);
}

TEST_CASE("A limit that has no value with a rolling bearing is said to be unjudged, not missed", "[ask]") {
  const Study study = study_of(screw("clamp", one, "", "face_bearing = { at_most = \"20 MPa\" }"));
  const Worth it = found(rate(study, {}).worth, "face", "rolling");
  CHECK(it.misses.empty());
  CHECK_THAT(it.why, Catch::StartsWith("face pressure is not judged: "));
}
