/// The summary for a spreadsheet, as a user calls for it.
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "tests/program/call.hpp"
#include "tests/program/texts.hpp"
#include "tests/say/csv_reader.hpp"

namespace {

using namespace tests;
using nlohmann::json;

std::vector<std::map<std::string, std::string>> table(const Folder& folder, const std::string& name) {
  return csv_table(folder.read(name).substr(3));
}

/// The force's nominal value [N] as the table has it.
double force_in(const std::map<std::string, std::string>& line) {
  return std::stod(line.at("nominal")) * std::stod(line.at("si_per_unit"));
}

const std::string nothing_passes = replaced(one_screw, "yield    = { margin = 2.0", "yield    = { margin = 90.0");

}  // namespace

TEST_CASE(
    "With --csv the summary is written beside the results file, with --json's numbers, and nothing else without it",
    "[program]") {
  const Folder folder;
  folder.write("screw.toml", one_screw);
  REQUIRE(run({"rate", "screw.toml", "--out", "plain"}, folder).code == 0);
  CHECK(!folder.has("plain/screw.csv"));
  const Ran ran = run({"rate", "screw.toml", "--csv", "--json"}, folder);
  REQUIRE(ran.code == 0);
  const json object = json::parse(ran.out);
  CHECK(lines_of(ran.out).size() == 1);
  CHECK(folder.files() ==
        std::vector<std::string>{"plain/screw.h5", "results/screw.csv", "results/screw.h5", "screw.toml"});
  const auto force = csv_line(table(folder, "results/screw.csv"), "output", "force");
  CHECK(force.at("unit") == "kN");
  CHECK(force_in(force) == Approx(object["outputs"]["force"]["nominal"].get<double>()).epsilon(4e-16));
}

TEST_CASE("The summary is the same on any number of threads, and of a run finished before", "[program]") {
  const Folder folder;
  folder.write("screw.toml", one_screw);
  REQUIRE(run({"size", "screw.toml", "--csv", "--threads", "1"}, folder).code == 0);
  const std::string first = folder.read("results/screw.csv");
  REQUIRE(run({"size", "screw.toml", "--csv", "--threads", "3", "--again"}, folder).code == 0);
  CHECK(folder.read("results/screw.csv") == first);
  fs::remove(folder.path() / "results/screw.csv");
  const Ran before = run({"size", "screw.toml", "--csv"}, folder);
  CHECK(before.code == 0);
  CHECK(contains(before.out, "Finished before"));
  CHECK(folder.read("results/screw.csv") == first);
}

TEST_CASE("A search in which nothing passes, and a screw of which nothing is asked, have summaries too", "[program]") {
  const Folder folder;
  folder.write("none.toml", nothing_passes);
  folder.write("asks_nothing.toml", replaced(one_screw.substr(0, one_screw.find("[must]")), "force  = \"9 kN\"\n", ""));
  CHECK(run({"size", "none.toml", "--csv"}, folder).code == 1);
  CHECK(csv_line(table(folder, "results/none.csv"), "answer", "verdict").at("holds") == "no");
  CHECK(run({"rate", "asks_nothing.toml", "--csv"}, folder).code == 0);
  const auto free = table(folder, "results/asks_nothing.csv");
  CHECK(csv_line(free, "answer", "verdict").at("holds") == "yes");
  CHECK(!csv_line(free, "output", "force").at("p95").empty());
}

TEST_CASE("A title that is a formula is none in the summary", "[program]") {
  const Folder folder;
  folder.write("odd.toml", replaced(one_screw, "title = \"One screw\"", "title = '=2+3, \"so\"'"));
  REQUIRE(run({"rate", "odd.toml", "--csv"}, folder).code == 0);
  CHECK(csv_line(table(folder, "results/odd.csv"), "answer", "title").at("text") == "'=2+3, \"so\"");
}

TEST_CASE("A file of that name that is no summary is not replaced, and nothing is computed", "[program]") {
  const Folder folder;
  folder.write("screw.toml", one_screw);
  folder.write("screw.csv", "torque\n12\n");
  const Ran ran = run({"rate", "screw.toml", "--csv", "--out", "."}, folder);
  CHECK(ran.code == 5);
  CHECK(contains(ran.err, "screw.csv: another file has this name"));
  CHECK(folder.read("screw.csv") == "torque\n12\n");
  CHECK(!folder.has("screw.h5"));
}

TEST_CASE("A summary that cannot be written is refused by its name before computing", "[program]") {
  const Folder folder;
  folder.write("screw.toml", one_screw);
  folder.write("results/screw.csv/in_the_way", "");
  const Ran ran = run({"rate", "screw.toml", "--csv"}, folder);
  CHECK(ran.code == 5);
  CHECK(contains(ran.err, "results/screw.csv"));
  CHECK(contains(ran.err, "Fix: "));
  CHECK(!folder.has("results/screw.h5"));
}
