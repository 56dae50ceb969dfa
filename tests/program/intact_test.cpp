/// A complete answer stays until a new complete one takes its place.
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include <chrono>
#include <thread>

#include "tests/program/call.hpp"
#include "tests/program/texts.hpp"

namespace {

using namespace tests;

constexpr double soon = 5;  ///< seconds that stopping may take

/// Interrupts a run that would last minutes and checks that it leaves soon and quietly.
void check_interrupted(const std::vector<std::string>& arguments, const Folder& folder) {
  Running running(arguments, folder.path(), SCREWTINY_PROGRAM);
  std::this_thread::sleep_for(std::chrono::milliseconds(700));
  REQUIRE_FALSE(running.ended());
  const auto asked = std::chrono::steady_clock::now();
  running.interrupt();
  while (!running.ended() && std::chrono::steady_clock::now() - asked < std::chrono::duration<double>(soon))
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
  REQUIRE(running.ended());
  const Ran ran = running.wait();
  CHECK(ran.code == 130);
  CHECK(ran.out.empty());
  CHECK(contains(ran.err, "Interrupted"));
}

/// Checks that the first, complete results are what they were, and alone.
void check_intact(const Folder& folder, const std::string& before) {
  CHECK(folder.files() == std::vector<std::string>{"results/screw.h5", "screw.toml"});
  const bool same_bytes = folder.read("results/screw.h5") == before;
  CHECK(same_bytes);
}

std::string complete(const Folder& folder, const std::string& study, const char* verb) {
  folder.write("screw.toml", study);
  REQUIRE(run({verb, "screw.toml", "--quiet", "--passes", "32768"}, folder).code == 0);
  return folder.read("results/screw.h5");
}

}  // namespace

TEST_CASE("Results stay whole when the study becomes a bad one", "[program]") {
  const Folder folder;
  const std::string before = complete(folder, one_screw, "size");
  folder.write("screw.toml", three_errors);
  CHECK(run({"size", "screw.toml"}, folder).code == 3);
  CHECK(run({"size", "screw.toml", "--again"}, folder).code == 3);
  check_intact(folder, before);
}

TEST_CASE("Results stay whole when a long run of one screw is interrupted", "[program]") {
  const Folder folder;
  const std::string before = complete(folder, one_screw, "rate");
  check_interrupted({"rate", "screw.toml", "--passes", "500000000"}, folder);
  check_intact(folder, before);
}

TEST_CASE("Results stay whole when a long search is interrupted", "[program]") {
  const Folder folder;
  const fs::path press = fs::path(SCREWTINY_SOURCE) / "studies" / "gallery" / "orchard_press.toml";
  const std::string before = complete(folder, bytes_of(press), "size");
  check_interrupted({"size", "screw.toml", "--passes", "50000000"}, folder);
  check_intact(folder, before);
}

TEST_CASE("A first run that is interrupted leaves nothing behind", "[program]") {
  const Folder folder;
  folder.write("screw.toml", one_screw);
  check_interrupted({"rate", "screw.toml", "--passes", "500000000", "--json"}, folder);
  CHECK(folder.files() == std::vector<std::string>{"screw.toml"});
}

TEST_CASE("The same command after an interrupt goes on with what is not finished", "[program]") {
  const Folder folder;
  folder.write("a.toml", one_screw);
  folder.write("b.toml", replaced(one_screw, "count = 65536", "count = 500_000_000"));
  Running running({"rate", "a.toml", "b.toml"}, folder.path(), SCREWTINY_PROGRAM);
  const auto start = std::chrono::steady_clock::now();
  while (!folder.has("results/a.h5") && std::chrono::steady_clock::now() - start < std::chrono::seconds(20))
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
  running.interrupt();
  CHECK(running.wait().code == 130);
  REQUIRE(folder.has("results/a.h5"));
  const auto time = fs::last_write_time(folder.path() / "results/a.h5");
  folder.write("b.toml", one_screw);
  const Ran ran = run({"rate", "a.toml", "b.toml"}, folder);
  CHECK(ran.code == 0);
  CHECK(contains(ran.out, "Finished before: results/a.h5"));
  CHECK(fs::last_write_time(folder.path() / "results/a.h5") == time);
  CHECK(folder.has("results/b.h5"));
}
