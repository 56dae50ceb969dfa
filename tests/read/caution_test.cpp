#include <catch2/catch.hpp>

#include "studies/read/not_checked.hpp"
#include "tests/read/study_texts.hpp"

using namespace studies;
using Catch::Matchers::Contains;

namespace {

/// The cautions of a text, a line each.
std::string cautions(const std::string& text) {
  std::string all;
  for (const Caution& caution : study_of(text).cautions) all += caution.text + " (" + caution.why + ")\n";
  return all;
}

std::string free(const std::string& diameter, const std::string& pitch, const std::string& starts) {
  return with(clamp_text, {{"\"Tr 24x5\"", "{ form = \"trapezoidal\", diameter = \"" + diameter + "\", pitch = \"" +
                                               pitch + "\" }\nstarts = " + starts}});
}

std::string face(const std::string& size) { return with(clamp_text, {{"mean_radius = \"4 mm\"", size}}); }

bool listed(const Study& study, const std::string& item) {
  const std::vector<std::string> all = not_checked(study);
  return std::find(all.begin(), all.end(), item) != all.end();
}

}  // namespace

TEST_CASE("A lead typed as a pitch is doubted") {
  CHECK_THAT(cautions(free("24 mm", "10 mm", "2")), Contains("the lead") && Contains("5 mm with 2 starts"));
  CHECK_THAT(cautions(free("25 mm", "10 mm", "1")), Contains("the lead"));
  CHECK(cautions(free("25 mm", "5 mm", "1")).empty());
  CHECK(cautions(free("22 mm", "8 mm", "1")).empty());  // coarse, but a size of the series
}

TEST_CASE("A diameter in the wrong unit is doubted") {
  CHECK_THAT(cautions(free("20 in", "1 in", "1")), Contains("diameter in the unit meant"));
}

TEST_CASE("Diameters and radii mixed up are doubted") {
  CHECK_THAT(cautions(face("mean_radius = \"25 mm\"")), Contains("a diameter?"));
  CHECK(cautions(face("mean_radius = \"15 mm\"")).empty());
  CHECK_THAT(cautions(face("outer = \"15 mm\", inner = \"10 mm\"")), Contains("radii"));
  CHECK(cautions(face("outer = \"15 mm\"")).empty());  // a tip may be smaller than the screw
  CHECK(cautions(face("outer = \"40 mm\", inner = \"22 mm\"")).empty());
  CHECK_THAT(cautions(face("outer = \"40 in\", inner = \"22 in\"")), Contains("unit meant"));
  CHECK_THAT(cautions(with(lift_text, {{"\"18 in\"", "\"18 ft\""}})), Contains("radius of the handle"));
}

TEST_CASE("A hand that is too strong or too weak is doubted") {
  CHECK_THAT(cautions(with(lift_text, {{"\"30 lbf\"", "\"300 lbf\""}})), Contains("Few people pull so hard"));
  CHECK_THAT(cautions(with(lift_text, {{"\"30 lbf\"", "\"0.5 lbf\""}})), Contains("So weak a pull"));
}

TEST_CASE("A torque in the wrong unit is doubted with the unit that would suit") {
  CHECK_THAT(cautions(with(clamp_text, {{"60 N.m", "60 N.mm"}})), Contains("far too weak") && Contains("60 N.m meant"));
  CHECK_THAT(cautions(with(clamp_text, {{"60 N.m", "60 kN.m"}})), Contains("far stronger") && Contains("60 N.m meant"));
  CHECK_THAT(cautions(with(clamp_text, {{"10 kN", "10 N"}})), Contains("far stronger"));
  CHECK(cautions(with(clamp_text, {{"60 N.m", "30 N.m"}})).empty());
  CHECK(cautions(with(clamp_text, {{"60 N.m", "200 N.m"}})).empty());
  CHECK_THAT(cautions(with(lift_text, {{"\"18 in\"", "\"18 mm\""}})), Contains("18 in meant"));
}

TEST_CASE("Friction far from practice is doubted") {
  CHECK_THAT(cautions(with(clamp_text, {{"[scatter]", "[scatter]\nthread_friction = 0.5"}})),
             Contains("outside 0.03 to 0.35"));
  CHECK_THAT(
      cautions(with(clamp_text, {{"[scatter]", "[scatter]\nthread_friction = { mean = 0.015, spread = 0.001 }"}})),
      Contains("outside 0.03 to 0.35"));
  CHECK(cautions(with(clamp_text, {{"[scatter]", "[scatter]\nthread_friction = 0.12\nface_friction = 0.09"}})).empty());
  CHECK_THAT(cautions(with(lift_text, {{"[scatter]", "[scatter]\nface_friction = 0.12"}})),
             Contains("outside 0.0005 to 0.03"));
  CHECK(cautions(with(lift_text, {{"[scatter]", "[scatter]\nface_friction = 0.003"}})).empty());
}

TEST_CASE("A drag above the torque, and friction from rest below running, are doubted") {
  CHECK_THAT(cautions(with(clamp_text, {{"[scatter]", "[scatter]\ndrag = \"70 N.m\""}})), Contains("drag alone"));
  CHECK(cautions(with(clamp_text, {{"[scatter]", "[scatter]\ndrag = \"2 N.m\""}})).empty());
  CHECK_THAT(cautions(with(clamp_text, {{"travel", "start = 0.8\ntravel"}})), Contains("seldom below"));
  CHECK(cautions(with(clamp_text, {{"travel", "start = 1.4\ntravel"}})).empty());
}

TEST_CASE("What has no say is said") {
  CHECK_THAT(cautions(with(clamp_text, {{"mean_radius = \"4 mm\"", "mean_radius = \"4 mm\", law = \"pressure\""}})),
             Contains("no say"));
  CHECK_THAT(cautions(with(clamp_text, {{"[scatter]", "[scatter]\nthread_friction = 0.15\nshared_friction = 0.5"}})),
             Contains("does nothing"));
  CHECK_THAT(cautions(with(clamp_text, {{"travel", "ends = \"fixed-fixed\"\nscrew_in = \"tension\"\ntravel"}})),
             Contains("tension"));
  CHECK_THAT(cautions(with(clamp_text, {{"Tr 24x5", "1-5 Acme"}, {"nut_length", "made = \"rolled\"\nnut_length"}})),
             Contains("rolled root"));
}

TEST_CASE("People are a danger, whatever the answer") {
  const Study study = study_of(with(clamp_text, {{"travel", "people = true\ntravel"}}));
  REQUIRE(study.cautions.size() == 1);
  CHECK(study.cautions[0].level == Level::danger);
  CHECK(study_of(with(clamp_text, {{"travel", "people = false\ntravel"}})).cautions.empty());
}

TEST_CASE("The list of what is not checked grows with what is not given") {
  const Study clamp = study_of(clamp_text);
  for (const char* item : {"frame", "welds", "handle", "fatigue", "shock", "corrosion", "foundation", "wear", "heat"})
    CHECK(listed(clamp, item));
  CHECK_FALSE(listed(clamp, "column"));
  CHECK(listed(study_of(with(clamp_text, {{"travel = \"200 mm\"\n", ""}})), "column"));
  CHECK_FALSE(listed(clamp, "bending by the handle"));
  CHECK(listed(study_of(lift_text), "bending by the handle"));
  CHECK_FALSE(
      listed(study_of(with(lift_text, {{"travel", "handle_overhang = \"2 in\"\ntravel"}})), "bending by the handle"));
}
