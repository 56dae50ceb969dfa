/// One line of typing: the same figures as the study it amounts to, every option, and errors said of options.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <sstream>

#include "tests/program/call.hpp"
#include "tests/program/contract.hpp"

namespace {

using namespace tests;
using nlohmann::json;
using Words = std::vector<std::string>;

constexpr double pi = 3.14159265358979323846;
const std::string before_study = "The study this amounts to:\n\n";

Words reckon(Words words, const Words& more = {}) {
  words.insert(words.begin(), "reckon");
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

const Words clamp = {"--thread", "Tr 40x7", "--torque", "120 N.m"};
const Words inch_clamp = {"--thread", "1-1/2-4 Acme",  "--hand-force", "30 lbf", "--handle", "14 in", "--hands",
                          "2",        "--lubrication", "dry"};
const Words lift = {"--thread", "Tr 24x5", "--load", "12 kN"};

json answer_of(const Words& words, int code = 0) {
  const Folder folder;
  const Ran ran = run(reckon(words, {"--json"}), folder);
  INFO(json(words) << ran.err);
  REQUIRE(ran.code == code);
  return json::parse(ran.out);
}

double nominal(const json& answer, const std::string& output) {
  return answer.at("outputs").at(output).at("nominal").get<double>();
}

/// The line of the study that says this key, without what stands behind the value.
std::string line_of(const json& answer, const std::string& key) {
  for (const std::string& line : lines_of(answer.at("study_text").get<std::string>())) {
    const std::size_t end = line.find(' ');
    if (line.substr(0, end) == key) return line;
  }
  return "";
}

/// Torque of a trapezoidal or square screw over the force that it raises, with a face.
/// T/F = (d2/2)(tan λ + μ s)/(1 − μ s tan λ) + μc rm, s = 1/cos αn, tan αn = tan α cos λ.
/// @source Shigley, Mechanical Engineering Design, 9th ed., Eqs. 8-5 and 8-6 with the flank angle in the normal section
double torque_per_force(double pitch_diameter, double lead, double flank, double friction, double face_friction,
                        double face_radius) {
  const double tan_lead = lead / (pi * pitch_diameter);
  const double normal_flank = std::atan(std::tan(flank) * std::cos(std::atan(tan_lead)));
  const double rub = friction / std::cos(normal_flank);
  return pitch_diameter / 2 * (tan_lead + rub) / (1 - rub * tan_lead) + face_friction * face_radius;
}

}  // namespace

TEST_CASE("Reckon gives the figures of the study that it prints, bit for bit, and writes nothing", "[program]") {
  for (const Words& words : {clamp, inch_clamp, lift,
                             Words{"--thread", "square 25x5", "--torque", "40 lbf.ft", "--rolling", "--travel",
                                   "200 mm", "--passes", "20000", "--key", "7"}}) {
    const Folder folder;
    INFO(json(words));
    const Ran said = run(reckon(words), folder), told = run(reckon(words, {"--json"}), folder);
    REQUIRE(said.code == 0);
    REQUIRE(told.code == 0);
    CHECK(said.err.empty());
    CHECK(folder.files().empty());
    const std::size_t at = said.out.find(before_study);
    REQUIRE(at != std::string::npos);
    const std::string study = said.out.substr(at + before_study.size());
    folder.write("reckon.toml", study);
    const Ran rated = run({"rate", "reckon.toml", "--json"}, folder);
    REQUIRE(rated.code == 0);
    json reckoned = json::parse(told.out), rate = json::parse(rated.out);
    if (words == lift) check_contract(rate, false);
    CHECK(reckoned.at("study") == "reckon");
    CHECK(reckoned.at("study_text") == study);
    reckoned.erase("study_text");
    reckoned.erase("study");
    rate.erase("study");
    CHECK(reckoned == rate);
    CHECK(run({"vet", "reckon.toml"}, folder).code == 0);
  }
}

TEST_CASE("The short answer fits a glance: verdict first, some twenty lines, none too wide", "[program]") {
  const Folder folder;
  for (const Words& words : {clamp, inch_clamp, lift}) {
    const Ran said = run(reckon(words), folder);
    const std::string answer = said.out.substr(0, said.out.find(before_study));
    check_terminal(answer);
    INFO(answer);
    CHECK(lines_of(answer).size() <= 21);
    CHECK(answer.starts_with(words == lift ? "Lifting 12 kN takes " : "Reaches "));
    CHECK(contains(answer, "90 of 100 pulls lie between "));
    CHECK(contains(answer, "Of every 100 "));
    CHECK(contains(answer, "Winding back: "));
    CHECK((contains(answer, " goes first, at ") || contains(answer, "The working pull is past ")));
    CHECK(contains(answer, "Starting it from rest takes ") == (words == lift));
  }
}

TEST_CASE("The force of a clamp is that of the torque formula", "[program]") {
  const json answer = answer_of({"--thread", "Tr 40x7", "--torque", "120 N.m", "--friction", "0.12", "--face-friction",
                                 "0.1", "--face-radius", "20 mm"});
  // ISO 2904: d2 = d − P/2, flanks of 15 degrees.
  const double per_force = torque_per_force(0.0365, 0.007, 15 * pi / 180, 0.12, 0.1, 0.020);
  CHECK(nominal(answer, "force") == Approx(120 / per_force).epsilon(1e-12));
}

TEST_CASE("A published example is one line of typing", "[program][published]") {
  // Shigley, Mechanical Engineering Design, 9th ed., Example 8-1.
  const json answer =
      answer_of({"--thread", "square 32x8 P4", "--load", "6.4 kN", "--friction", "0.08", "--face-friction", "0.08"});
  CHECK(nominal(answer, "torque") == Approx(26.18).margin(0.005));
  CHECK(nominal(answer, "face_torque") == Approx(10.24).margin(0.005));
  // The collar assumed has the middle diameter of the example's.
  CHECK(nominal(answer, "torque") ==
        Approx(6400 * torque_per_force(0.030, 0.008, 0, 0.08, 0.08, 0.020)).epsilon(1e-12));
}

TEST_CASE("Every option of reckon says its key, and changes the answer", "[program]") {
  const json usual = answer_of(lift);
  const std::vector<const char*> told = {"pick", "outputs", "reached"};
  struct Case {
    Words words;
    std::string key, value;
  };
  for (const Case& it : std::vector<Case>{{{"--torque", "99 N.m"}, "torque", "\"99 N.m\""},
                                          {{"--handle", "300 mm"}, "handle", "\"300 mm\""},
                                          {{"--handle", "300 mm", "--hands", "2"}, "hands", "2"},
                                          {{"--hand-force", "300 N", "--handle", "300 mm"}, "hand_force", "\"300 N\""},
                                          {{"--travel", "200 mm"}, "travel", "\"200 mm\""},
                                          {{"--tension", "--travel", "200 mm"}, "screw_in", "\"tension\""},
                                          {{"--starts", "2"}, "starts", "2"},
                                          {{"--nut-length", "40 mm"}, "nut_length", "\"40 mm\""},
                                          {{"--lubrication", "dry"}, "lubrication", "\"dry\""},
                                          {{"--screw", "steel 4140 annealed"}, "screw", "\"steel 4140 annealed\""},
                                          {{"--nut", "grey iron class 30"}, "nut", "\"grey iron class 30\""},
                                          {{"--rolling"}, "kind", "\"rolling\""},
                                          {{"--face-radius", "9 mm"}, "mean_radius", "\"9 mm\""},
                                          {{"--face-on", "bronze"}, "on", "\"bronze\""},
                                          {{"--friction", "0.1"}, "thread_friction", "0.1"},
                                          {{"--face-friction", "0.1"}, "face_friction", "0.1"},
                                          {{"--passes", "5000"}, "count", "5000"},
                                          {{"--key", "12"}, "key", "12"}}) {
    Words words = lift;
    words.insert(words.end(), it.words.begin(), it.words.end());
    INFO(json(words));
    const Folder folder;
    const Ran ran = run(reckon(words, {"--json"}), folder);
    CHECK(ran.code <= 1);
    const json answer = json::parse(ran.out);
    const std::string line = line_of(answer, it.key), other = line_of(usual, it.key);
    CHECK(contains(line, "= " + it.value));
    CHECK_FALSE(contains(line, "assumed"));
    CHECK((other.empty() || contains(other, "# assumed: ")));
    const bool same =
        std::all_of(told.begin(), told.end(), [&](const char* part) { return answer.at(part) == usual.at(part); });
    CHECK_FALSE(same);
  }
}

TEST_CASE("A force that is asked is judged at nominal and decides the exit code", "[program]") {
  const Folder folder;
  for (const auto& [force, code] : {std::pair("10 kN", 0), std::pair("90 kN", 1)}) {
    const Ran ran = run(reckon(clamp, {"--force", force}), folder);
    INFO(ran.out << ran.err);
    CHECK(ran.code == code);
    CHECK(contains(ran.out.substr(0, ran.out.find(before_study)), std::string("where ") + force + " is asked"));
    CHECK(contains(ran.out, "90 of 100 pulls lie between "));
    const json answer = answer_of({"--thread", "Tr 40x7", "--torque", "120 N.m", "--force", force}, code);
    CHECK(answer.at("verdict").at("holds") == (code == 0));
    CHECK(answer.at("limits").size() == 1);
  }
}

TEST_CASE("Quiet is the verdict alone, and threads change nothing", "[program]") {
  const Folder folder;
  const Ran quiet = run(reckon(clamp, {"--quiet"}), folder);
  const Ran one = run(reckon(clamp, {"--json", "--threads", "1"}), folder);
  const Ran three = run(reckon(clamp, {"--json", "--threads", "3"}), folder);
  CHECK(quiet.out == json::parse(one.out).at("verdict").at("sentence").get<std::string>() + "\n");
  CHECK(one.out == three.out);
}

TEST_CASE("3: what is wrong is said of its option, never of a line that nobody wrote", "[program]") {
  struct Case {
    Words words;
    std::string opens, tells;
  };
  const Words thread = {"--thread", "Tr 40x7"};
  const Folder folder;
  for (const Case& it : std::vector<Case>{
           {{"--torque", "12"}, "--torque: '12' has no unit", "Fix: "},
           {{"--torque", "12 parsecs"}, "--torque: ", "parsecs"},
           {{"--torque=-12 N.m"}, "--torque", "above 0"},
           {{"--torque", "12 mm"}, "--torque: ", "Fix: "},
           {{"--torque", ""}, "--torque: ", "Fix: "},
           {{"--hand-force", "30 lbf"}, "--hand-force: ", "write --handle"},
           {{"--torque", "12 N.m", "--hands", "2"}, "--hands: '--hands' has no handle", "--handle"},
           {{"--torque", "12 N.m", "--hand-force", "30 N", "--handle", "1 m"}, "--hand-force: two drives", "keep one"},
           {{"--torque", "12 N.m", "--lubrication", "grease"}, "--lubrication: ", "--friction"},
           {{"--torque", "12 N.m", "--lubrication", "oli"}, "--lubrication: ", "oil"},
           {{"--torque", "12 N.m", "--nut-length", "2 mm"}, "--nut-length: ", "engaged turns"},
           {{"--torque", "12 N.m", "--nut", "chewing gum"}, "--nut: ", "Fix: "},
           {{"--torque", "12 N.m", "--screw", "steel 1045"}, "--screw: ", "Fix: "},
           {{"--torque", "12 N.m", "--friction", "1.2"}, "--friction", "Fix: "},
           {{"--torque", "12 N.m", "--friction", "much"}, "--friction: ", "Fix: "},
           {{"--torque", "12 N.m", "--face-radius", "0 mm"}, "--face-radius", "above 0"},
           {{"--torque", "12 N.m", "--face-on", "steel"}, "--", "--face-friction"},
           {{"--torque", "12 N.m", "--starts", "1.5"}, "--starts", "Fix: "},
           {{"--torque", "12 N.m", "--passes", "many"}, "--passes", "Fix: "},
           {{"--torque", "12 N.m", "--key", "18446744073709551615"}, "--key", "Fix: "},
           {{"--torque", "12 N.m", "--force", "12"}, "--force: '12' has no unit", "Fix: "},
           {{"--load", "12"}, "--load: '12' has no unit", "Fix: "},
           {{"--torque", "12 N.m", "--travel", "-5 mm", "--tension"}, "--travel", "Fix: "}}) {
    Words words = thread;
    words.insert(words.end(), it.words.begin(), it.words.end());
    const Ran ran = run(reckon(words), folder);
    INFO(json(words) << " " << ran.err);
    CHECK(ran.code == 3);
    CHECK(ran.out.empty());
    CHECK(ran.err.starts_with(it.opens));
    CHECK(contains(ran.err, it.tells));
    for (const char* section : {"[duty]", "[choose]", "duty.", "choose.", ".toml", "reckon:"})
      CHECK_FALSE(contains(ran.err, section));
    const Ran told = run(reckon(words, {"--json"}), folder);
    const json object = json::parse(told.out);
    CHECK(told.code == 3);
    CHECK(object.at("study") == "reckon");
    CHECK(object.at("errors").at(0).at("line").is_null());
  }
  for (const std::string thread_typed : {"Tr 41x7", "Tr 40", "", "square 25x30"}) {
    const Ran ran = run({"reckon", "--thread", thread_typed, "--torque", "12 N.m"}, folder);
    INFO(thread_typed << " " << ran.err);
    CHECK(ran.code == 3);
    CHECK(ran.err.starts_with("--thread: "));
    CHECK_FALSE(contains(ran.err, "{"));
  }
  const Ran acetal = run(reckon(clamp, {"--nut", "acetal"}), folder);
  CHECK(acetal.code == 3);
  CHECK(acetal.err.starts_with("--lubrication: no published friction"));
  CHECK(contains(acetal.err, "(it was assumed)"));
  CHECK(contains(acetal.err, "type --friction."));
  CHECK(folder.files().empty());
}

TEST_CASE("3: no text that is typed breaks out of its quotes or the program", "[program]") {
  const Folder folder;
  for (const std::string& text :
       {std::string("12 N.m\"\n[must]\nyield = {}\n#"), std::string("\\"), std::string("\"\"\""),
        std::string("\x01\x1f\x7f"), std::string("\xff\xfe"), std::string("12 N.m\xc3"), std::string("\xe2\x80\xa8"),
        std::string("# 12 N.m"), std::string(100000, '9'), std::string("1e999 N.m"), std::string("nan"),
        std::string("{ spread = 1 }")}) {
    for (const std::string option : {"--thread", "--torque", "--hands", "--nut", "--friction", "--passes", "--key"}) {
      Words words = {"reckon", option + "=" + text};
      if (option != "--thread") words.push_back("--thread=Tr 40x7");
      if (option != "--torque") words.push_back("--torque=120 N.m");
      const Ran ran = run(words, folder);
      INFO(option << " " << ran.code << " " << ran.err.substr(0, 400));
      CHECK(ran.code == 3);
      CHECK(ran.out.empty());
      CHECK(ran.err.starts_with("--"));
      for (const unsigned char letter : ran.err) CHECK((letter >= 0x20 || letter == '\n'));
      CHECK(ran.err.size() < 2000);
    }
  }
}

TEST_CASE("2: a line that is not what reckon takes", "[program]") {
  const Folder folder;
  for (const Words& words :
       std::vector<Words>{{},
                          {"--thread", "Tr 40x7"},
                          {"--torque", "12 N.m"},
                          {"--thread", "Tr 40x7", "--torq", "12 N.m"},
                          {"--thread", "Tr 40x7", "--torque"},
                          {"--thread", "Tr 40x7", "--torque", "12 N.m", "press.toml"},
                          {"--thread", "Tr 40x7", "--torque", "12 N.m", "--torque", "13 N.m"},
                          {"--thread", "Tr 40x7", "--load", "12 kN", "--force", "12 kN"},
                          {"--thread", "Tr 40x7", "--load", "12 kN", "--rolling", "--face-on", "bronze"},
                          {"--thread", "Tr 40x7", "--load", "12 kN", "--out", "here"},
                          {"--thread", "Tr 40x7", "--load", "12 kN", "--threads", "0"}}) {
    const Ran ran = run(reckon(words), folder);
    INFO(json(words) << " " << ran.err);
    CHECK(ran.code == 2);
    CHECK(ran.out.empty());
    CHECK(contains(ran.err, "Fix: "));
  }
}

TEST_CASE("The examples in reckon's help and in the README are answered, the README's as shown", "[program]") {
  const Folder folder;
  const auto shell = [&](const std::string& command) {
    return run({"-c", replaced(command, "screwtiny ", std::string("\"") + SCREWTINY_PROGRAM + "\" ")}, folder.path(),
               "/bin/sh");
  };
  std::size_t examples = 0;
  for (const std::string& line : lines_of(run({"reckon", "--help"}, folder).out)) {
    if (!line.starts_with("  screwtiny reckon --")) continue;
    INFO(line);
    CHECK(shell(line).code == 0);
    ++examples;
  }
  CHECK(examples == 3);
  const std::string readme = bytes_of(fs::path(SCREWTINY_SOURCE) / "README.md"),
                    fence = "```console\n$ screwtiny reckon";
  const std::size_t at = readme.find(fence);
  REQUIRE(at != std::string::npos);
  const std::size_t begin = readme.find('$', at), end = readme.find("\n```", begin);
  Words shown = lines_of(readme.substr(begin, end - begin));
  const Words said = lines_of(shell(shown.front().substr(2)).out);
  shown.erase(shown.begin());
  CHECK(shown.size() > 5);
  for (const std::string& line : shown) {
    INFO(line);
    if (line != "...") CHECK(std::count(said.begin(), said.end(), line) >= 1);
  }
}
