/// The studies to start from, and the program installed somewhere else.
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "tests/program/call.hpp"
#include "tests/program/contract.hpp"
#include "tests/program/texts.hpp"

namespace {

using namespace tests;
using nlohmann::json;

const std::vector<std::string> blanks = {"vise", "press", "jack", "puller", "clamp", "gate"};

/// Copies the program and its data into bin/ and share/ of the folder.
fs::path installed_in(const Folder& folder) {
  const fs::path source = SCREWTINY_SOURCE, share = folder.path() / "share" / "screwtiny";
  fs::create_directories(folder.path() / "bin");
  fs::create_directories(share / "tables");
  fs::copy_file(SCREWTINY_PROGRAM, folder.path() / "bin" / "screwtiny");
  fs::copy(source / "studies" / "blanks", share / "blanks");
  for (const fs::directory_entry& entry : fs::directory_iterator(source / "models" / "tables"))
    if (entry.path().extension() == ".toml") fs::copy_file(entry.path(), share / "tables" / entry.path().filename());
  return folder.path() / "bin" / "screwtiny";
}

std::string tables_digest(const Ran& ran) {
  REQUIRE(ran.code == 0);
  return json::parse(ran.out).at("provenance").at("tables_digest");
}

}  // namespace

TEST_CASE("Every blank prints a study that reads without error and is answered", "[program]") {
  for (const std::string& name : blanks) {
    INFO(name);
    const Folder folder;
    const Ran blank = run({"blank", name}, folder);
    REQUIRE(blank.code == 0);
    CHECK(blank.err.empty());
    CHECK(blank.out.starts_with("#"));
    CHECK(folder.files().empty());
    folder.write(name + ".toml", blank.out);
    CHECK(run({"vet", name + ".toml"}, folder).code == 0);
    const Ran sized = run({"size", name + ".toml", "--json", "--passes", "65536"}, folder);
    INFO(sized.err);
    REQUIRE(sized.code == 0);
    check_contract(json::parse(sized.out), true);
  }
}

TEST_CASE("A blank that there is not is a mistake in the command, and the six are named", "[program]") {
  const Folder folder;
  const Ran ran = run({"blank", "catapult"}, folder);
  CHECK(ran.code == 2);
  CHECK(ran.out.empty());
  for (const std::string& name : blanks) CHECK(contains(ran.err, name));
}

TEST_CASE("The installed program runs from any folder with the data installed beside it", "[program]") {
  const Folder here, there;
  const fs::path program = installed_in(there);
  here.write("screw.toml", one_screw);
  const Ran built = run({"size", "screw.toml", "--json"}, here);
  const Ran installed = run({"size", "screw.toml", "--json", "--again"}, here.path(), program);
  CHECK(installed.err.empty());
  CHECK(tables_digest(installed) == tables_digest(built));
  CHECK(installed.out == built.out);
  CHECK(run({"blank", "press"}, here.path(), program).out == run({"blank", "press"}, here).out);
}

TEST_CASE("The installed program reads the installed tables and blanks, not those it was built from", "[program]") {
  const Folder here, there;
  const fs::path program = installed_in(there), share = there.path() / "share" / "screwtiny";
  here.write("screw.toml", one_screw);
  const std::string materials = bytes_of(share / "tables" / "materials.toml");
  there.write("share/screwtiny/tables/materials.toml", materials + "# a line more\n");
  there.write("share/screwtiny/blanks/press.toml", "# another blank\n");
  const Ran built = run({"size", "screw.toml", "--json"}, here);
  const Ran installed = run({"size", "screw.toml", "--json"}, here.path(), program);
  CHECK(tables_digest(installed) != tables_digest(built));
  CHECK(run({"blank", "press"}, here.path(), program).out == "# another blank\n");
}
