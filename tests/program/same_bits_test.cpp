/// The same study and key give the same bits: on any number of threads, in every process.
#include <catch2/catch.hpp>

#include "tests/program/call.hpp"
#include "tests/program/texts.hpp"

namespace {

using namespace tests;

struct Outcome {
  Ran ran;
  std::string results;
};

/// Sizes the study alone in a folder of its own.
Outcome sized(const std::string& study, std::vector<std::string> options) {
  const Folder folder;
  folder.write("screw.toml", study);
  options.insert(options.begin(), {"size", "screw.toml", "--json"});
  Outcome outcome{run(options, folder), {}};
  INFO(outcome.ran.err);
  REQUIRE(outcome.ran.code == 0);
  outcome.results = folder.read("results/screw.h5");
  CHECK(folder.files() == std::vector<std::string>{"results/screw.h5", "screw.toml"});
  return outcome;
}

void check_same(const Outcome& a, const Outcome& b) {
  CHECK(!a.ran.out.empty());
  CHECK(a.ran.out == b.ran.out);
  const bool same_bytes = a.results == b.results;  // not in CHECK: it would print megabytes
  CHECK(same_bytes);
}

void check_threads(const std::string& study, const std::vector<std::string>& options) {
  const auto on = [&](const char* threads) {
    std::vector<std::string> all = options;
    all.insert(all.end(), {"--threads", threads});
    return sized(study, all);
  };
  const Outcome one = on("1");
  check_same(one, on("2"));
  check_same(one, on("5"));
}

std::string orchard() { return bytes_of(fs::path(SCREWTINY_SOURCE) / "studies" / "gallery" / "orchard_press.toml"); }

}  // namespace

TEST_CASE("A press sized on 1, 2 and 5 threads gives the same answer and the same file", "[program]") {
  check_threads(orchard(), {"--passes", "262144"});
}

TEST_CASE("A press that keeps its passes gives the same file on 1, 2 and 5 threads", "[program]") {
  check_threads(orchard(), {"--passes", "65536", "--keep"});
}

TEST_CASE("A clamp with a free thread gives the same answer and file on 1, 2 and 5 threads", "[program]") {
  check_threads(free_thread, {});
}

TEST_CASE("A plain plan gives the same answer and file on 1, 2 and 5 threads", "[program]") {
  check_threads(replaced(orchard(), "[passes]", "[passes]\nplan = \"plain\""), {"--passes", "100000"});
}

TEST_CASE("A Latin plan with draws, odd shapes and correlations gives the same bits on 1, 2 and 5 threads",
          "[program]") {
  // 700000 passes: designs whose blocks and chunks do not come out even.
  const std::string study =
      replaced(replaced(one_screw, "torque      = { spread = \"5 %\" }",
                        "torque = { shape = \"gumbel\", spread = \"5 %\", below = \"60 N.m\" }\n"
                        "drag = { shape = \"weibull\", mean = \"0.5 N.m\", spread = \"40 %\" }\n"
                        "modulus = { shape = \"beta\", spread = \"3 %\", low = \"180 GPa\", high = \"230 GPa\" }\n"
                        "correlation = [[\"torque\", \"drag\", -0.4], [\"modulus\", \"screw_yield\", 0.3]]"),
               "[passes]", "[passes]\nplan = \"latin\"");
  check_threads(study, {"--passes", "700000"});
}

TEST_CASE("Other draws of the same name are another study, the same draws are not", "[program]") {
  const Folder folder;
  const std::string study = replaced(one_screw, "[scatter]",
                                     "[scatter]\nthread_friction = { draws = \"mu.csv\", column = \"mu\" }\n"
                                     "face_friction = { draws = \"mu.csv\", column = \"face\" }");
  folder.write("screw.toml", study);
  folder.write("mu.csv", "mu, face\n0.11, 0.010\n0.13, 0.012\n0.12, 0.011\n");
  const Ran first = run({"size", "screw.toml", "--json"}, folder),
            again = run({"size", "screw.toml", "--json"}, folder);
  CAPTURE(first.err);
  REQUIRE(first.code <= 1);
  CHECK(first.out == again.out);
  CHECK(first.out.find("\"shape\":\"draws\"") != std::string::npos);
  folder.write("mu.csv", "mu, face\n0.14, 0.010\n0.16, 0.012\n0.15, 0.011\n");
  const Ran other = run({"size", "screw.toml", "--json"}, folder);
  REQUIRE(other.code <= 1);
  CHECK(other.out != first.out);
  const Folder missing;
  missing.write("screw.toml", study);
  const Ran without = run({"size", "screw.toml"}, missing);
  CHECK(without.code == 5);
  CHECK(without.err.find("mu.csv") != std::string::npos);
}

TEST_CASE("Two processes one after the other, and a third told to do it again, give the same bits", "[program]") {
  const Outcome first = sized(free_thread, {});
  check_same(first, sized(free_thread, {}));
  const Folder folder;
  folder.write("screw.toml", free_thread);
  REQUIRE(run({"size", "screw.toml", "--quiet"}, folder).code == 0);
  const Outcome again{run({"size", "screw.toml", "--json", "--again"}, folder), folder.read("results/screw.h5")};
  check_same(first, again);
}

TEST_CASE("Another key gives other bits", "[program]") {
  const Outcome first = sized(one_screw, {}), other = sized(one_screw, {"--key", "4"});
  CHECK(first.ran.out != other.ran.out);
  const bool same_bytes = first.results == other.results;
  CHECK_FALSE(same_bytes);
}
