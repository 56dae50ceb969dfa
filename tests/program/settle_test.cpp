/// Studies that go on until their digits stand, and what keeping passes asks of the machine.
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "studies/ask/room.hpp"
#include "tests/program/call.hpp"
#include "tests/program/texts.hpp"

namespace {

using namespace tests;
using nlohmann::json;

std::string settling(std::string study, const std::string& how) {
  const std::string count = "count = 65536";
  return study.replace(study.find(count), count.size(), "settle = " + how);
}

Ran rated(const Folder& folder, std::vector<std::string> options) {
  options.insert(options.begin(), {"rate", "screw.toml", "--json"});
  return run(options, folder);
}

}  // namespace

TEST_CASE("A study that settles says how each estimate did, on any number of threads alike", "[program]") {
  const Folder folder;
  folder.write("screw.toml", settling(one_screw, "{ digits = 2 }"));
  const Ran ran = rated(folder, {"--threads", "1"});
  REQUIRE(ran.code == 0);
  const std::string results = folder.read("results/screw.h5");
  const json answer = json::parse(ran.out), &it = answer.at("settling");
  CHECK((it.at("settled") == true && it.at("digits") == 2 && it.at("batches") >= 10));
  CHECK(it.at("batches").get<int>() * it.at("batch_passes").get<int>() == answer.at("provenance").at("passes"));
  CHECK(it.at("estimates").size() == 4 * 4 + 2);  // force, torque, two margins with odds; and these odds
  for (const json& e : it.at("estimates")) CHECK(e.at("tolerance") <= e.at("allowed"));
  CHECK(rated(folder, {"--again", "--threads", "3"}).out == ran.out);
  const bool same_bytes = folder.read("results/screw.h5") == results;
  CHECK(same_bytes);
  const Ran counted = rated(folder, {"--passes", "20000"});  // a number typed overrules
  CHECK(json::parse(counted.out).at("settling").is_null());
}

TEST_CASE("4: what reaches its most before it settles is answered, and says so", "[program]") {
  const Folder folder;
  folder.write("screw.toml", settling(one_screw, "{ at_most = 50_000 }"));
  const Ran ran = rated(folder, {});
  CHECK(ran.code == 4);
  const json answer = json::parse(ran.out);
  CHECK(answer.at("settling").at("settled") == false);
  CHECK(answer.at("provenance").at("passes") <= 50'000);
  CHECK(contains(answer.at("verdict").at("sentence"), "Not settled"));
  CHECK(contains(run({"rate", "screw.toml", "--again"}, folder).out, "not settled to 2 digits in 3 batches"));
  CHECK(rated(folder, {}).code == 4);  // finished before
}

TEST_CASE("A screw sized on passes that settle holds on them", "[program]") {
  const Folder folder;
  std::string study = settling(one_screw, "{ digits = 1 }");
  study.replace(study.find("\"36 mm\""), 7, "{ from = \"20 mm\", to = \"60 mm\" }");
  folder.write("screw.toml", study);
  const Ran ran = run({"size", "screw.toml", "--json"}, folder);
  REQUIRE(ran.code == 0);
  CHECK(json::parse(ran.out).at("verdict").at("holds") == true);
}

TEST_CASE("Keeping more passes than memory holds is refused before anything is computed", "[program]") {
  const Folder folder;
  folder.write("screw.toml", one_screw);
  const Ran ran = rated(folder, {"--keep", "--passes", "100000000000"});
  CHECK(ran.code == 5);
  CHECK(contains(ran.err, "keeping 137 438 953 472 passes takes"));

  studies::Study study;
  study.passes.keep = true;
  const std::uint64_t needed = studies::bytes_kept(study, 1000);
  CHECK_NOTHROW(studies::require_room(study, 1000, needed * 2));
  CHECK_NOTHROW(studies::require_room(study, 1000, std::nullopt));
  CHECK_THROWS(studies::require_room(study, 1000, needed));
  study.passes.keep = false;
  CHECK_NOTHROW(studies::require_room(study, 1000, 1));
  folder.write("meminfo", "MemTotal:  8000 kB\nMemFree: 100 kB\nMemAvailable:   4000 kB\n");
  CHECK(studies::available_memory((folder.path() / "meminfo").string()) == 4000 * 1024);
  CHECK_FALSE(studies::available_memory((folder.path() / "nothing").string()));
}
