/// The commands that help and manual show.
#include <catch2/catch.hpp>

#include "studies/manual/command.hpp"
#include "tests/program/call.hpp"
#include "tests/program/texts.hpp"

namespace {

using namespace tests;
using studies::manual::Example;

Ran shell(const Folder& folder, const std::string& command) {
  const std::string program = std::string("\"") + SCREWTINY_PROGRAM + "\" ";
  return run({"-c", replaced(command, "screwtiny ", program)}, folder.path(), "/bin/sh");
}

void check(const Folder& folder, const std::vector<Example>& examples) {
  for (const Example& it : examples) {
    INFO(it.command);
    const Ran ran = shell(folder, it.command);
    INFO(ran.err);
    if (contains(ran.err, "built without its sheets"))
      WARN("left out, as the program was built without Node.js: " << it.command);
    else
      CHECK(ran.code == 0);
  }
}

}  // namespace

TEST_CASE("The examples of help and manual are answered, one after the other in one folder", "[program]") {
  const Folder folder;
  folder.write("screw.toml", one_screw);
  folder.write("studies/clamp.toml", one_screw);
  check(folder, studies::manual::program().examples);
  for (const studies::manual::Verb& verb : studies::manual::program().verbs) check(folder, verb.examples);
}
