/// What the tools that read pages and completions make of them.
#include <catch2/catch.hpp>

#include <algorithm>

#include "tests/program/manual.hpp"

namespace {

using namespace tests;
using Words = std::vector<std::string>;

Ran shell(const std::string& command, const Folder& folder) { return run({"-c", command}, folder.path(), "/bin/bash"); }

bool there(const std::string& tool, const Folder& folder) {
  return shell("command -v " + tool + " >/dev/null", folder).code == 0;
}

/// Every file of the manual, as it is installed, below share/ of the folder.
void install(const Folder& folder) {
  for (const auto& [name, text] : manual_texts()) folder.write("share/" + name, text);
}

/// What bash offers for the last of some words as it splits them.
Words offered(const Words& line, const Folder& folder) {
  std::string words;
  for (const std::string& word : line) words += " '" + word + "'";
  const Ran ran = shell("source share/bash-completion/completions/screwtiny; COMP_WORDS=(" + words + "); COMP_CWORD=" +
                            std::to_string(line.size() - 1) + "; _screwtiny; printf '%s\\n' \"${COMPREPLY[@]}\"",
                        folder);
  INFO(ran.err);
  CHECK(ran.err.empty());
  Words all = lines_of(ran.out);
  if (all == Words{""}) all.clear();
  std::sort(all.begin(), all.end());
  return all;
}

Folder& with_files(Folder& folder) {
  install(folder);
  for (const char* name : {"press.toml", "jack one.toml", "results.h5", "notes.txt", "sheet.html", "old/press.h5"})
    folder.write(name, "");
  return folder;
}

}  // namespace

TEST_CASE("The tools that read manual pages find nothing to warn of", "[program]") {
  Folder folder;
  install(folder);
  const bool lint = there("mandoc", folder), groff = there("groff", folder);
  if (!lint && !groff) WARN("left out: neither mandoc nor groff is installed");
  for (const std::string& name : folder.files()) {
    if (!contains(name, "/man1/")) continue;
    INFO(name);
    if (lint) {
      const Ran ran = shell("mandoc -T lint -W warning '" + name + "'", folder);
      INFO(ran.out << ran.err);
      CHECK(ran.code == 0);
    }
    if (groff) {
      const Ran ran = shell("groff -man -ww -z '" + name + "'", folder);
      CHECK(ran.err == "");
      CHECK(ran.code == 0);
    }
  }
}

TEST_CASE("A page rendered shows options that can be copied", "[program]") {
  Folder folder;
  install(folder);
  const std::string page = "share/man/man1/screwtiny-size.1";
  const std::string render = there("mandoc", folder)  ? "mandoc -T ascii " + page + " | col -b"
                             : there("groff", folder) ? "groff -man -Tascii -P-cbou " + page
                                                      : "";
  if (render.empty()) {
    WARN("left out: neither mandoc nor groff is installed");
    return;
  }
  const std::string text = shell(render, folder).out;
  CHECK(contains(text, "--threads N"));
  CHECK(contains(text, "screwtiny size press.toml --key 2"));
  CHECK(contains(text, "EXIT STATUS"));
}

TEST_CASE("bash completes verbs and options", "[program]") {
  Folder folder;
  install(folder);
  CHECK(offered({"screwtiny", "si"}, folder) == Words{"size"});
  CHECK(offered({"screwtiny", "re"}, folder) == Words{"reckon"});
  CHECK(offered({"screwtiny", "size", "--th"}, folder) == Words{"--threads"});
  const Parser parser;
  Words verbs = {"--help", "--version"};
  for (const studies::manual::Verb& verb : studies::manual::program().verbs) {
    INFO(verb.name);
    verbs.push_back(verb.name);
    const std::set<std::string> options = parser.options_of(verb.name);
    CHECK(offered({"screwtiny", verb.name, "--"}, folder) == Words(options.begin(), options.end()));
  }
  std::sort(verbs.begin(), verbs.end());
  CHECK(offered({"screwtiny", ""}, folder) == verbs);
}

TEST_CASE("bash completes files by their ending, and folders", "[program]") {
  Folder folder;
  with_files(folder);
  CHECK(offered({"screwtiny", "size", ""}, folder) == Words{"jack one.toml", "old", "press.toml", "share"});
  CHECK(offered({"screwtiny", "sheet", ""}, folder) == Words{"old", "results.h5", "share"});
  CHECK(offered({"screwtiny", "vet", "re"}, folder) == Words{"results.h5"});
  CHECK(offered({"screwtiny", "compare", "old/press.h5", "old/"}, folder) == Words{"old/press.h5"});
  CHECK(offered({"screwtiny", "rate", "jack\\ o"}, folder) == Words{"jack one.toml"});
  CHECK(offered({"screwtiny", "size", "press.toml", "--out", ""}, folder) == Words{"old", "share"});
  CHECK(offered({"screwtiny", "sheet", "results.h5", "--summary", "s"}, folder) == Words{"share", "sheet.html"});
  CHECK(offered({"screwtiny", "size", "--threads", ""}, folder).empty());
}

TEST_CASE("bash completes the words that are known, quoted as they must be typed", "[program]") {
  Folder folder;
  install(folder);
  CHECK(offered({"screwtiny", "blank", "p"}, folder) == Words{"press", "puller"});
  CHECK(offered({"screwtiny", "reckon", "--lubrication", ""}, folder) == Words{"dry", "grease", "oil"});
  CHECK(offered({"screwtiny", "reckon", "--lubrication", "="}, folder) == Words{"dry", "grease", "oil"});
  CHECK(offered({"screwtiny", "reckon", "--lubrication", "=", "o"}, folder) == Words{"oil"});
  CHECK(offered({"screwtiny", "reckon", "--face-on", "c"}, folder) == Words{"cast\\ iron"});
  CHECK(offered({"screwtiny", "reckon", "--nut", "\"bearing"}, folder) == Words{"bearing bronze C93200"});
  CHECK(offered({"screwtiny", "reckon", "--screw", "steel\\ 1018\\ c"}, folder) ==
        Words{"steel\\ 1018\\ cold\\ drawn"});
}

TEST_CASE("The scripts for the shells are read without error where those shells are installed", "[program]") {
  Folder folder;
  install(folder);
  CHECK(shell("bash -n share/bash-completion/completions/screwtiny", folder).code == 0);
  for (const auto& [tool, file] : {std::pair{"zsh", "zsh/site-functions/_screwtiny"},
                                   std::pair{"fish", "fish/vendor_completions.d/screwtiny.fish"}}) {
    if (!there(tool, folder)) {
      WARN("left out: " << tool << " is not installed");
      continue;
    }
    const Ran ran = shell(std::string(tool) + " -n share/" + file, folder);
    INFO(tool << " " << ran.err);
    CHECK(ran.code == 0);
  }
}
