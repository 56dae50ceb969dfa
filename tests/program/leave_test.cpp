/// How the program leaves: exit codes, and errors as a script reads them.
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>
#include <set>

#include "tests/program/call.hpp"
#include "tests/program/texts.hpp"

namespace {

using namespace tests;
using nlohmann::json;

/// Checks an answer that is errors: one line, the same problems as on stderr.
void check_errors(const Ran& ran, const std::string& study, std::size_t count) {
  REQUIRE(lines_of(ran.out).size() == 1);
  const json object = json::parse(ran.out);
  CHECK(object.size() == 4);
  CHECK(object.at("program") == "screwtiny");
  CHECK(object.at("version") == SCREWTINY_VERSION);
  CHECK(object.at("study") == study);
  REQUIRE(object.at("errors").size() == count);
  for (const json& error : object.at("errors")) {
    for (const char* key : {"file", "line", "column", "problem", "reason", "fix"}) CHECK(error.contains(key));
    CHECK(contains(ran.err, error.at("problem").get<std::string>()));
    CHECK(contains(ran.err, error.at("fix").get<std::string>()));
  }
}

}  // namespace

TEST_CASE("0: every limit holds", "[program]") {
  const Folder folder;
  folder.write("screw.toml", one_screw);
  CHECK(run({"rate", "screw.toml", "--quiet"}, folder).code == 0);
  CHECK(run({"size", "screw.toml", "--quiet"}, folder).code == 0);
}

TEST_CASE("1: a screw that misses a limit is answered, and the limit is named", "[program]") {
  const Folder folder;
  folder.write("screw.toml", replaced(one_screw, "margin = 2.5", "margin = 25"));
  const Ran ran = run({"rate", "screw.toml", "--json"}, folder);
  CHECK(ran.code == 1);
  const json answer = json::parse(ran.out);
  CHECK(answer.at("verdict").at("holds") == false);
  CHECK(answer.at("verdict").at("tightest") == "buckling");
  CHECK(answer.at("verdict").at("governs").is_null());
  CHECK(answer.at("pick").at("designation") == "Tr 24x5");
  CHECK(folder.has("results/screw.h5"));
  CHECK(run({"rate", "screw.toml"}, folder).code == 1);  // finished before
}

TEST_CASE("1: where nothing passes the answer says what to relax, and still writes its results", "[program]") {
  const Folder folder;
  const std::string study = replaced(one_screw, "\"Tr 24x5\"", "[\"Tr 24x5\", \"Tr 26x5\"]");
  folder.write("screw.toml", replaced(study, "margin = 2.5", "margin = 5"));
  const Ran ran = run({"size", "screw.toml", "--json"}, folder);
  CHECK(ran.code == 1);
  const json answer = json::parse(ran.out);
  CHECK(answer.at("pick").is_null());
  CHECK(answer.at("outputs") == json::object());
  CHECK(answer.at("limits") == json::array());
  CHECK(answer.at("verdict").at("holds") == false);
  CHECK(!answer.at("verdict").at("sentence").get<std::string>().empty());
  CHECK(folder.has("results/screw.h5"));

  // Each change as it is told, typed into the study.
  const std::string hard = replaced(study, "margin = 2.5", "margin = 5");
  std::set<std::string> told;
  for (const json& relax : answer.at("relax")) {
    const std::string kind = relax.at("change"), to = relax.at("to").dump();
    INFO(relax.dump());
    told.insert(kind);
    if (kind == "limit") {
      CHECK(relax.at("limit") == "buckling");
      CHECK(relax.at("was") == 5);
      CHECK(relax.at("admits") == "Tr 26x5");
      folder.write("screw.toml", replaced(study, "margin = 2.5", "margin = " + to));
    } else {
      REQUIRE(kind == "free_length");
      CHECK(relax.at("was") == 0.2);
      folder.write("screw.toml", replaced(hard, "\"200 mm\"", "\"" + to + " m\""));
    }
    const Ran relaxed = run({"size", "screw.toml", "--json"}, folder);
    CHECK(relaxed.code == 0);
    CHECK(json::parse(relaxed.out).at("pick").at("designation") == relax.at("admits"));
  }
  CHECK(told == std::set<std::string>{"free_length", "limit"});
}

TEST_CASE("2: what is not known or not built yet is refused by name, before anything is read", "[program]") {
  const Folder folder;
  folder.write("screw.toml", one_screw);
  for (const char* verb : {"learn", "plan", "nightshift", "join"}) {
    const Ran ran = run({verb, "screw.toml"}, folder);
    CHECK(ran.code == 2);
    CHECK(contains(ran.err, std::string("'") + verb + "' is not built yet"));
  }
  const Ran part = run({"size", "screw.toml", "--part", "1/2"}, folder);
  CHECK(part.code == 2);
  CHECK(contains(part.err, "'--part' is not built yet"));
  const Ran verb = run({"siez", "screw.toml"}, folder);
  CHECK(verb.code == 2);
  CHECK(contains(verb.err, "Did you mean 'size'?"));
  const Ran option = run({"size", "screw.toml", "--pases", "9"}, folder);
  CHECK(option.code == 2);
  CHECK(contains(option.err, "--pases"));
  for (const std::vector<std::string>& call :
       std::vector<std::vector<std::string>>{{},
                                             {"size"},
                                             {"size", "screw.toml", "--threads", "0"},
                                             {"size", "screw.toml", "--passes", "many"},
                                             {"size", "screw.toml", "--passes", "-5"},
                                             {"size", "screw.toml", "--key", "-1"},
                                             {"size", "screw.toml", "--key", "18446744073709551616"},
                                             {"rate", "screw.toml", "--scan"},
                                             {"vet", "screw.toml", "--keep"},
                                             {"blank"}}) {
    INFO(json(call));
    const Ran ran = run(call, folder);
    CHECK(ran.code == 2);
    CHECK(ran.out.empty());
    CHECK(contains(ran.err, "Fix: "));
  }
  CHECK(folder.files().size() == 1);
}

TEST_CASE("2: a mistake in the command is told to a script as errors too", "[program]") {
  const Folder folder;
  for (const std::vector<std::string>& call :
       std::vector<std::vector<std::string>>{{"size", "screw.toml", "--pases", "9", "--json"},
                                             {"reckon", "screw.toml", "--json"},
                                             {"learn", "screw.toml", "--json"}}) {
    INFO(json(call));
    const Ran ran = run(call, folder);
    CHECK(ran.code == 2);
    const json object = json::parse(ran.out, nullptr, false);
    REQUIRE(object.is_object());
    CHECK(object.at("program") == "screwtiny");
    CHECK(object.at("errors").size() == 1);
  }
}

TEST_CASE("3: every error of a study stands on stderr with its file, line and column", "[program]") {
  const Folder folder;
  folder.write("bad.toml", three_errors);
  for (const char* verb : {"vet", "rate", "size"}) {
    const Ran ran = run({verb, "bad.toml"}, folder);
    CHECK(ran.code == 3);
    CHECK(ran.out.empty());
    const std::vector<std::string> lines = lines_of(ran.err);
    REQUIRE(lines.size() == 3);
    CHECK(lines[0].starts_with("bad.toml:5:1: "));
    CHECK(lines[1].starts_with("bad.toml:9:15: "));
    CHECK(lines[2].starts_with("bad.toml:11:15: "));
    for (const std::string& line : lines) CHECK(contains(line, " Fix: "));
    check_errors(run({verb, "bad.toml", "--json"}, folder), "bad.toml", 3);
  }
  CHECK(folder.files().size() == 1);
}

TEST_CASE("3: an empty file and a text that is not TOML are errors of the study", "[program]") {
  const Folder folder;
  folder.write("empty.toml", "");
  folder.write("open.toml", "title = \"x\n");
  const Ran empty = run({"size", "empty.toml"}, folder), open = run({"size", "open.toml"}, folder);
  CHECK(empty.code == 3);
  CHECK(empty.err.starts_with("empty.toml:"));
  CHECK(open.code == 3);
  CHECK(open.err.starts_with("open.toml:1:"));
}

TEST_CASE("5: a file that cannot be read, a folder without studies, results that cannot be written", "[program]") {
  const Folder folder;
  folder.write("screw.toml", one_screw);
  folder.write("taken", "a file");
  fs::create_directory(folder.path() / "hollow");
  const Ran missing = run({"size", "none.toml", "--json"}, folder);
  CHECK(missing.code == 5);
  check_errors(missing, "none.toml", 1);
  const Ran taken = run({"size", "screw.toml", "--out", "taken", "--json"}, folder);
  CHECK(taken.code == 5);
  check_errors(taken, "screw.toml", 1);
  CHECK(folder.read("taken") == "a file");
  const Ran hollow = run({"size", "hollow", "--json"}, folder);
  CHECK(hollow.code == 5);
  check_errors(hollow, "hollow", 1);
  CHECK(folder.files() == std::vector<std::string>{"screw.toml", "taken"});
}

TEST_CASE("5: an answer that finds no room on standard output is a matter of files, not of the program", "[program]") {
  const Folder folder;
  folder.write("screw.toml", one_screw);
  for (const std::string call : {"blank press", "rate screw.toml --json", "vet screw.toml"}) {
    INFO(call);
    const std::string command = std::string("\"") + SCREWTINY_PROGRAM + "\" " + call + " > /dev/full";
    CHECK(run({"-c", command}, folder.path(), "/bin/sh").code == 5);
  }
}

TEST_CASE("Help and version are answers", "[program]") {
  const Folder folder;
  CHECK(run({"--version"}, folder).out == std::string("screwtiny ") + SCREWTINY_VERSION + "\n");
  const Ran help = run({"--help"}, folder);
  CHECK(help.code == 0);
  for (const std::string verb : {"vet", "size", "rate", "reckon", "blank"}) {
    CHECK(contains(help.out, verb));
    const Ran of_verb = run({verb, "--help"}, folder);
    CHECK(of_verb.code == 0);
    CHECK(contains(of_verb.out, "screwtiny " + verb));
    CHECK(of_verb.err.empty());
  }
}
