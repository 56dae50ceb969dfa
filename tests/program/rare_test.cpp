/// Limits whose odds no count of passes can show, from the study to JSON, terminal and results file.
#include <catch2/catch.hpp>

#include "tests/program/call.hpp"
#include "tests/program/contract.hpp"
#include "tests/program/texts.hpp"

namespace {

using namespace tests;
using nlohmann::json;

/// One screw, or several to choose from, whose yield is asked at one in ten million.
std::string asking(const std::string& thread, const std::string& margin) {
  const std::string text = replaced(one_screw, R"(thread      = "Tr 24x5")", "thread = " + thread);
  const std::string yield = "yield    = { margin = " + margin + ", odds = 0.9999999 }";
  return replaced(text, "yield    = { margin = 2.0, odds = 0.99 }", yield);
}

struct Told {
  Ran ran;
  json answer;
};

Told told(const Folder& folder, const std::string& verb, const std::string& study, const char* threads = "2") {
  folder.write("screw.toml", study);
  Ran ran = run({verb, "screw.toml", "--json", "--again", "--threads", threads}, folder);
  INFO(ran.err);
  REQUIRE((ran.code == 0 || ran.code == 1));
  json answer = json::parse(ran.out);
  return {std::move(ran), std::move(answer)};
}

const json& named(const json& list, const std::string& name) {
  for (const json& it : list)
    if (it.at("name") == name) return it;
  throw std::logic_error("no " + name);
}

}  // namespace

TEST_CASE("A limit at one in ten million is answered within the contract, and judged both ways", "[program]") {
  const Folder folder;
  const Told weak = told(folder, "rate", asking(R"("Tr 24x5")", "2.0"));
  check_contract(weak.answer, false);
  CHECK(weak.ran.code == 1);
  CHECK(named(weak.answer.at("rare"), "yield").at("judges") == true);
  CHECK(named(weak.answer.at("limits"), "yield").at("holds") == false);
  const Told strong = told(folder, "rate", asking(R"("Tr 24x5")", "1.5"));
  check_contract(strong.answer, false);
  CHECK(strong.ran.code == 0);
  CHECK(named(strong.answer.at("rare"), "yield").at("judges") == true);
  CHECK(named(strong.answer.at("limits"), "yield").at("holds") == true);
  check_terminal(run({"rate", "screw.toml", "--again"}, folder).out);
}

TEST_CASE("What is sized at one in ten million keeps the contract and is the same on any threads", "[program]") {
  const Folder folder;
  const std::string study = asking(R"(["Tr 20x4", "Tr 24x5", "Tr 28x5", "Tr 30x6", "Tr 32x6"])", "2.0");
  const Told one = told(folder, "size", study, "1");
  const std::string bytes = folder.read("results/screw.h5");
  check_contract(one.answer, true);
  CHECK(one.ran.code == 0);
  CHECK(one.answer.at("verdict").at("governs") == "yield");
  const Told five = told(folder, "size", study, "5");
  CHECK(five.ran.out == one.ran.out);
  const bool same = folder.read("results/screw.h5") == bytes;
  CHECK(same);
}

TEST_CASE("The results file holds the rare odds of the answer", "[program]") {
  const Folder folder;
  const Told it = told(folder, "rate", asking(R"("Tr 24x5")", "2.0"));
  const Ran ran = run({"-c", R"(
import h5py
with h5py.File("results/screw.h5") as file:
    rare = file["rare/rated"]
    at = [name.decode() for name in rare["limit"][()]].index("yield")
    print(repr(float(rare["shortfall"][at, 1])))
    print(int(rare["judges"][at]), len(rare["distance"]) > 0, rare["screw_yield"].attrs["units"].decode())
)"},
                      folder.path(), "/usr/bin/python3");
  INFO(ran.err);
  REQUIRE(ran.code == 0);
  const std::vector<std::string> lines = lines_of(ran.out);
  CHECK(std::stod(lines.at(0)) == named(it.answer.at("rare"), "yield").at("shortfall").at("estimate").get<double>());
  CHECK(lines.at(1) == "1 True Pa");
}
