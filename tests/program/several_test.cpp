/// Several studies in one run: a bad one never stops the rest, and what is finished is not done again.
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "tests/program/call.hpp"
#include "tests/program/contract.hpp"
#include "tests/program/texts.hpp"

namespace {

using namespace tests;
using nlohmann::json;

/// A folder with three studies, the one in the middle with three errors.
void fill(const Folder& folder) {
  folder.write("many/a.toml", one_screw);
  folder.write("many/b.toml", three_errors);
  folder.write("many/c.toml", replaced(one_screw, "\"Tr 24x5\"", "[\"Tr 26x5\", \"Tr 28x5\"]"));
}

std::size_t count(const std::string& text, const std::string& part) {
  std::size_t found = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++found;
  return found;
}

/// A results file as it stands: when it was written, and what is in it.
struct Stand {
  fs::file_time_type time;
  std::string bytes;
};

Stand stand(const Folder& folder, const std::string& name) {
  return {fs::last_write_time(folder.path() / name), folder.read(name)};
}

bool untouched(const Folder& folder, const std::string& name, const Stand& before) {
  const Stand now = stand(folder, name);
  return now.time == before.time && now.bytes == before.bytes;
}

}  // namespace

TEST_CASE("A bad study in the middle of a folder leaves the rest answered, with one table at the end", "[program]") {
  const Folder folder;
  fill(folder);
  const Ran ran = run({"size", "many"}, folder);
  CHECK(ran.code == 3);
  CHECK(lines_of(ran.err).size() == 3);
  CHECK(ran.err.starts_with("many/b.toml:5:1: "));
  CHECK(folder.has("results/a.h5"));
  CHECK_FALSE(folder.has("results/b.h5"));
  CHECK(folder.has("results/c.h5"));
  check_terminal(ran.out);
  const std::vector<std::string> lines = lines_of(ran.out);
  REQUIRE(lines.size() > 4);
  const std::vector<std::string> table(lines.end() - 4, lines.end());
  CHECK(table[0].starts_with("study "));
  CHECK(contains(table[0], "pick"));
  CHECK(table[1].starts_with("a "));
  CHECK(contains(table[1], "Tr 24x5"));
  CHECK(contains(table[2], "3 errors"));
  CHECK(contains(table[3], "Tr 26x5"));
  CHECK(count(ran.out, "study  answer") == 1);
}

TEST_CASE("With --json every study of a run is one line, in order, and quiet leaves stderr to the errors",
          "[program]") {
  const Folder folder;
  fill(folder);
  for (const bool again : {false, true}) {
    INFO("finished before: " << again);
    const Ran ran = run({"size", "many", "--json", "--quiet"}, folder);
    CHECK(ran.code == 3);
    CHECK(lines_of(ran.err).size() == 3);
    const std::vector<std::string> lines = lines_of(ran.out);
    REQUIRE(lines.size() == 3);
    const json a = json::parse(lines[0]), b = json::parse(lines[1]), c = json::parse(lines[2]);
    CHECK(a.at("study") == "many/a.toml");
    check_contract(a, true);
    CHECK(b.at("study") == "many/b.toml");
    CHECK(b.at("errors").size() == 3);
    CHECK(c.at("study") == "many/c.toml");
    check_contract(c, true);
  }
}

TEST_CASE("Of several studies the largest exit code counts", "[program]") {
  const Folder folder;
  folder.write("good.toml", one_screw);
  folder.write("misses.toml", replaced(one_screw, "margin = 2.5", "margin = 25"));
  folder.write("bad.toml", three_errors);
  const auto code = [&](std::vector<std::string> studies) {
    studies.insert(studies.begin(), {"rate", "--quiet"});
    return run(studies, folder).code;
  };
  CHECK(code({"good.toml", "misses.toml"}) == 1);
  CHECK(code({"misses.toml", "good.toml"}) == 1);
  CHECK(code({"bad.toml", "misses.toml", "good.toml"}) == 3);
  CHECK(code({"bad.toml", "none.toml", "good.toml"}) == 5);
  CHECK(folder.has("results/good.h5"));
}

TEST_CASE("What is finished is said again and not done again, unless --again is typed", "[program]") {
  const Folder folder;
  fill(folder);
  const Ran first = run({"size", "many"}, folder);
  const Stand a = stand(folder, "results/a.h5"), c = stand(folder, "results/c.h5");
  const Ran second = run({"size", "many"}, folder);
  CHECK(second.code == first.code);
  CHECK(untouched(folder, "results/a.h5", a));
  CHECK(untouched(folder, "results/c.h5", c));
  CHECK(count(second.out, "Finished before: ") == 2);
  CHECK(contains(second.out, "--again"));
  CHECK_FALSE(contains(first.out, "Finished before"));
  CHECK(contains(second.out, first.out.substr(0, first.out.find("\n\n"))));
  const Ran again = run({"size", "many", "--again"}, folder);
  CHECK(again.out == first.out);
  CHECK_FALSE(untouched(folder, "results/a.h5", a));
  CHECK(folder.read("results/a.h5").size() == a.bytes.size());
}

TEST_CASE("A changed study, key, number of passes or verb is done again, and passes that are kept are not lost",
          "[program]") {
  const Folder folder;
  folder.write("screw.toml", one_screw);
  const std::string results = "results/screw.h5";
  REQUIRE(run({"size", "screw.toml", "--quiet"}, folder).code == 0);
  const auto redone = [&](std::vector<std::string> arguments) {
    const Stand before = stand(folder, results);
    arguments.push_back("--quiet");
    CHECK(run(arguments, folder).code == 0);
    return !untouched(folder, results, before);
  };
  CHECK_FALSE(redone({"size", "screw.toml"}));
  CHECK_FALSE(redone({"size", "screw.toml", "--threads", "2"}));
  CHECK(redone({"size", "screw.toml", "--key", "4"}));
  CHECK(redone({"size", "screw.toml"}));
  CHECK(redone({"size", "screw.toml", "--passes", "32768"}));
  CHECK(redone({"rate", "screw.toml", "--passes", "32768"}));
  CHECK(redone({"rate", "screw.toml", "--passes", "32768", "--keep"}));
  CHECK_FALSE(redone({"rate", "screw.toml", "--passes", "32768"}));
  folder.write("screw.toml", one_screw + "# a word more\n");
  CHECK(redone({"rate", "screw.toml", "--passes", "32768"}));
  folder.write("screw.toml", one_screw);
  fs::resize_file(folder.path() / results, 1000);  // damaged
  CHECK(redone({"rate", "screw.toml", "--passes", "32768"}));
}

TEST_CASE("Two studies of one run whose results would have the same name: the second is refused", "[program]") {
  const Folder folder;
  folder.write("here/screw.toml", one_screw);
  folder.write("there/screw.toml", replaced(one_screw, "Tr 24x5", "Tr 26x5"));
  const Ran ran = run({"size", "here", "there", "--json", "--quiet"}, folder);
  CHECK(ran.code == 5);
  CHECK(contains(ran.err, "here/screw.toml"));
  CHECK(contains(ran.err, "there/screw.toml"));
  const std::vector<std::string> lines = lines_of(ran.out);
  REQUIRE(lines.size() == 2);
  CHECK(json::parse(lines[0]).at("pick").at("designation") == "Tr 24x5");
  CHECK(json::parse(lines[1]).at("errors").size() == 1);
  CHECK(folder.files().size() == 3);
}
