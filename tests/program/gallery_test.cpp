/// The invented example studies: each works alone, and each teaches something of its own.
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include <set>

#include "tests/program/call.hpp"
#include "tests/program/contract.hpp"

namespace {

using namespace tests;
using nlohmann::json;

/// The comment that a study begins with.
std::string opening_comment(const std::string& study) {
  std::string comment;
  for (const std::string& line : lines_of(study)) {
    if (!line.starts_with("#")) break;
    comment += line + "\n";
  }
  return comment;
}

}  // namespace

TEST_CASE("Every gallery study, alone in an empty folder, is answered with every key that a script may rely on",
          "[program]") {
  REQUIRE(gallery().size() >= 6);
  for (const fs::path& study : gallery()) {
    INFO(study.filename());
    const Folder folder;
    folder.bring(study);
    const std::string name = study.filename().string(), results = "results/" + study.stem().string() + ".h5";
    const Ran ran = run({"size", name, "--json"}, folder);
    INFO(ran.err);
    REQUIRE(ran.code == 0);
    CHECK(ran.err.empty());
    CHECK(lines_of(ran.out).size() == 1);
    const json answer = json::parse(ran.out);
    CHECK(answer.at("study") == name);
    check_contract(answer, true);
    CHECK(folder.files().size() == 2);
    CHECK(folder.has(results));
    const Ran told = run({"size", name}, folder);
    CHECK(told.code == 0);
    CHECK(contains(told.out, answer.at("pick").at("designation").get<std::string>()));
    check_terminal(told.out);
  }
}

TEST_CASE("The gallery shows at least six different limits that govern", "[program][plain-build]") {
  const std::set<std::string> known = {"force",   "torque",    "hand_force",  "buckling",     "yield",
                                       "bearing", "stripping", "thread_root", "self_locking", "overload"};
  std::set<std::string> governing;
  for (const fs::path& study : gallery()) {
    INFO(study.filename());
    const Folder folder;
    const Ran ran = run({"size", study.string(), "--json", "--passes", "65536"}, folder);
    REQUIRE(ran.code == 0);
    const json answer = json::parse(ran.out), governs = answer.at("verdict").at("governs");
    if (answer.at("next_size_down").is_null()) continue;  // a free diameter has no next size
    REQUIRE(governs.is_string());
    CHECK(known.count(governs.get<std::string>()) == 1);
    governing.insert(governs.get<std::string>());
  }
  CHECK(governing.size() >= 6);
}

TEST_CASE("Every gallery study begins by saying what it teaches and that it is invented", "[program]") {
  for (const fs::path& study : gallery()) {
    INFO(study.filename());
    const std::string comment = opening_comment(bytes_of(study));
    CHECK(contains(comment, "Teaches: "));
    CHECK(contains(comment, "invented"));
  }
}

TEST_CASE("Reading a gallery study back finds no error and stays within a terminal", "[program]") {
  for (const fs::path& study : gallery()) {
    INFO(study.filename());
    const Folder folder;
    folder.bring(study);
    const Ran ran = run({"vet", study.filename().string()}, folder);
    CHECK(ran.code == 0);
    CHECK(ran.err.empty());
    check_terminal(ran.out);
    CHECK(folder.files().size() == 1);
    const Ran scripted = run({"vet", study.filename().string(), "--json"}, folder);
    CHECK(scripted.code == 0);
    CHECK(json::parse(scripted.out).is_object());
  }
}
