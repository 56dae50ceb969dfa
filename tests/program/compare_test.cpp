/// Results compared as a user would: two studies sized or rated, their files compared, and what is refused.
#include <catch2/catch.hpp>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "tests/program/call.hpp"
#include "tests/program/contract.hpp"

namespace {

using namespace tests;
using nlohmann::json;

const std::string clamp_text =
    "title = \"Clamp\"\n[duty]\naction = \"clamp\"\nforce = \"20 kN\"\ntorque = \"60 N.m\"\ntravel = \"200 mm\"\n"
    "[choose]\nthread = \"Tr 24x5\"\nnut_length = \"1.5 d\"\nlubrication = \"oil\"\nscrew = \"steel 1045 hot "
    "rolled\"\nnut = \"bearing bronze C93200\"\nface = { kind = \"pad\", mean_radius = \"9 mm\", on = \"bronze\" }\n"
    "[scatter]\ntorque = { within = \"4 %\" }\n[must]\nforce = { odds = 0.9 }\nyield = { margin = 1.5 }\n"
    "[passes]\ncount = 65536\n";

/// A folder with results of a clamp, as typed and with places replaced.
void rate(const Folder& folder, const std::string& name, const std::string& text) {
  folder.write(name + ".toml", text);
  const Ran ran = run({"rate", name + ".toml", "--quiet"}, folder);
  INFO(ran.err);
  REQUIRE(ran.code <= 1);
}

const std::string dry_text =
    replaced(replaced(clamp_text, "\"oil\"", "\"dry\""), "torque = \"60 N.m\"", "torque = \"75 N.m\"");

/// Of a list of numbers.
double sum(const json& values) {
  double sum = 0;
  for (const json& value : values) sum += value.get<double>();
  return sum;
}

}  // namespace

TEST_CASE("Two results are compared: what changed, by how much, and the shares sum to it", "[program]") {
  const Folder folder;
  rate(folder, "oiled", clamp_text), rate(folder, "dry", dry_text);
  const Ran said = run({"compare", "results/oiled.h5", "results/dry.h5"}, folder);
  INFO(said.out << said.err);
  REQUIRE(said.code == 0);
  check_terminal(said.out);
  CHECK(said.out.starts_with("dry reaches 20 kN in "));
  CHECK(contains(said.out, "torque"));
  CHECK(contains(said.out, "65 536 passes common to both"));

  const Ran told = run({"compare", "results/oiled.h5", "results/dry.h5", "--json"}, folder);
  REQUIRE(told.code == 0);
  CHECK(lines_of(told.out).size() == 1);
  const json object = json::parse(told.out);
  REQUIRE(object.at("changes").size() == 2);
  CHECK(object["changes"][0]["key"] == "duty.torque");
  CHECK(object["changes"][1]["key"] == "choose.lubrication");
  for (const json& it : object.at("attribution")) {
    INFO(it);
    const double change = it["b"].get<double>() - it["a"].get<double>();
    CHECK(sum(it["by"]) == Approx(change).margin(1e-9 * std::max(1.0, std::abs(it["b"].get<double>()))));
  }
  // The force at nominal is that of each file's own answer, to the last bit.
  for (const char* side : {"a", "b"})
    CHECK(object["attribution"][0][side] == object["outputs"]["force"][side]["nominal"]);
  const json oiled = json::parse(run({"vet", "results/oiled.h5", "--json"}, folder).out);
  CHECK(object["limits"][0]["a"]["odds"]["estimate"] == oiled["limits"][0]["odds"]["estimate"]);
  CHECK(object["outputs"]["force"]["a"]["low"] == oiled["outputs"]["force"]["quantiles"]["0.05"]["estimate"]);

  const Ran quiet = run({"compare", "results/oiled.h5", "results/dry.h5", "--quiet"}, folder);
  CHECK(lines_of(quiet.out).size() == 1);
  CHECK(object["sentence"].get<std::string>() + "\n" == quiet.out);
  for (const char* threads : {"1", "3"})
    CHECK(run({"compare", "results/oiled.h5", "results/dry.h5", "--json", "--threads", threads}, folder).out ==
          told.out);
}

TEST_CASE("The same file twice says that nothing changed; several files are each compared with the first",
          "[program]") {
  const Folder folder;
  rate(folder, "oiled", clamp_text), rate(folder, "dry", dry_text);
  const Ran ran = run({"compare", "results/oiled.h5", "results/oiled.h5", "results/dry.h5", "--quiet"}, folder);
  CHECK(ran.code == 0);
  const std::vector<std::string> lines = lines_of(ran.out);
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].starts_with("Nothing changed between "));
  CHECK(lines[1].starts_with("dry reaches "));
}

TEST_CASE("What cannot be compared is refused by name, and the rest is compared", "[program]") {
  const Folder folder;
  rate(folder, "oiled", clamp_text), rate(folder, "dry", dry_text);
  rate(folder, "jack",
       replaced(replaced(clamp_text, "\"clamp\"", "\"lift\""), "force = { odds = 0.9 }", "torque = { odds = 0.9 }"));
  folder.write("weak.toml", replaced(replaced(clamp_text, "\"60 N.m\"", "\"6 N.m\""), "\"oil\"", "[\"oil\", \"dry\"]"));
  REQUIRE(run({"size", "weak.toml", "--quiet"}, folder).code == 1);
  folder.write("results/none.h5", "no results\n");

  const auto refused = [&](const std::string& file, int code, const std::string& words) {
    const Ran ran = run({"compare", "results/oiled.h5", file, "results/dry.h5"}, folder);
    INFO(ran.err);
    CHECK(ran.code == code);
    CHECK(contains(ran.err, file + ": "));
    CHECK(contains(ran.err, words));
    CHECK(contains(ran.err, "Fix: "));
    CHECK(contains(ran.out, "dry reaches 20 kN in "));
    const Ran told = run({"compare", "results/oiled.h5", file, "--json"}, folder);
    CHECK(told.code == code);
    CHECK(json::parse(told.out).at("errors").at(0).at("file") == file);
  };
  refused("results/jack.h5", 2, "a clamp and a lift cannot be compared");
  refused("results/weak.h5", 2, "nothing passed");
  refused("results/none.h5", 5, "");
  refused("results/missing.h5", 5, "");
  CHECK(run({"compare", "results/missing.h5", "results/dry.h5"}, folder).out.empty());
  CHECK(run({"compare", "results/oiled.h5"}, folder).code == 2);
}

TEST_CASE("A comparison that the README shows is what its two studies come to", "[program]") {
  // The README's study, saved again with a rolling bearing and less to turn it with.
  std::vector<std::string> shown;
  std::string study;
  bool in_study = false, in_comparison = false;
  for (const std::string& each : lines_of(bytes_of(fs::path(SCREWTINY_SOURCE) / "README.md"))) {
    if (each.starts_with("```")) in_study = in_comparison = false;
    if (each.starts_with("title") && study.empty()) in_study = true;
    if (in_study) study += each + "\n";
    if (in_comparison) shown.push_back(each);
    if (each.starts_with("$ screwtiny compare ")) in_comparison = true;
  }
  REQUIRE_FALSE(shown.empty());
  const Folder folder;
  folder.write("truss_jack.toml", study);
  folder.write("rolling.toml",
               replaced(replaced(study, "{ kind = \"pad\", outer = \"44 mm\", inner = \"22 mm\", on = \"cast iron\" }",
                                 "{ kind = \"rolling\", mean_radius = \"16 mm\" }"),
                        "\"90 N.m\"", "\"60 N.m\""));
  REQUIRE(run({"size", "truss_jack.toml", "rolling.toml", "--quiet"}, folder).code <= 1);
  const Ran ran = run({"compare", "results/truss_jack.h5", "results/rolling.h5"}, folder);
  REQUIRE(ran.code == 0);
  const std::vector<std::string> said = lines_of(ran.out);
  for (const std::string& each : shown) {
    INFO(each << "\n" << ran.out);
    if (each != "...") CHECK(std::count(said.begin(), said.end(), each) >= 1);
  }
}
