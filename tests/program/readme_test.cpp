/// What the README shows can be typed as it stands.
#include <catch2/catch.hpp>

#include <algorithm>
#include <sstream>

#include "tests/program/call.hpp"

namespace {

using namespace tests;

/// A fenced block of code.
struct Block {
  std::string language;
  std::vector<std::string> lines;
};

std::vector<std::string> readme() { return lines_of(bytes_of(fs::path(SCREWTINY_SOURCE) / "README.md")); }

std::vector<Block> blocks() {
  std::vector<Block> all;
  bool inside = false;
  for (const std::string& line : readme()) {
    if (line.starts_with("```")) {
      if (!inside) all.push_back({line.substr(3), {}});
      inside = !inside;
    } else if (inside) {
      all.back().lines.push_back(line);
    }
  }
  REQUIRE_FALSE(inside);
  return all;
}

std::vector<std::string> words_of(const std::string& line) {
  std::istringstream stream(line);
  std::vector<std::string> words;
  for (std::string word; stream >> word;) words.push_back(word);
  return words;
}

/// Whether a line of code is something to be typed into a shell.
bool is_command(const std::string& line) {
  const std::vector<std::string> words = words_of(line);
  if (words.empty()) return false;
  const std::vector<std::string> programs = {"bash",
                                             "sh",
                                             "cmake",
                                             "ctest",
                                             "screwtiny",
                                             "build/screwtiny",
                                             "./build/screwtiny",
                                             "python",
                                             "python3",
                                             "git",
                                             "cd",
                                             "sudo",
                                             "apt",
                                             "apt-get",
                                             "make",
                                             "ninja"};
  return std::find(programs.begin(), programs.end(), words.front()) != programs.end();
}

/// The commands of all blocks, in order; a prompt and what follows a comment sign are left out.
std::vector<std::string> commands() {
  std::vector<std::string> all;
  for (const Block& block : blocks())
    for (std::string line : block.lines) {
      if (line.starts_with("$ ")) line = line.substr(2);
      if (is_command(line)) all.push_back(line.substr(0, line.find(" #")));
    }
  return all;
}

/// What stands between single backquotes in the running text.
std::vector<std::string> spans() {
  std::vector<std::string> all;
  bool fenced = false;
  for (const std::string& line : readme()) {
    if (line.starts_with("```")) fenced = !fenced;
    std::istringstream stream(fenced ? "" : line);
    std::string part;
    for (bool code = false; std::getline(stream, part, '`'); code = !code)
      if (code) all.push_back(part);
  }
  return all;
}

/// The arguments of a call of the program, up to a pipe or a redirection; empty where the command is another's.
std::vector<std::string> arguments(const std::string& command) {
  std::vector<std::string> words = words_of(command);
  if (!words.front().ends_with("screwtiny")) return {};
  const auto end = std::find_if(words.begin(), words.end(), [](const std::string& word) {
    return word == "|" || word == "&&" || word == ";" || word.find('>') != std::string::npos;
  });
  return {words.begin() + 1, end};
}

}  // namespace

TEST_CASE("The README's first two commands are a first answer and the tests, each alone on its line", "[program]") {
  const std::vector<std::string> lines = readme(), all = commands();
  for (const char* command : {"bash studies/first-run.sh", "bash tests/run.sh"})
    CHECK(std::count(lines.begin(), lines.end(), command) >= 1);
  REQUIRE(all.size() >= 2);
  CHECK(std::min(all[0], all[1]) == "bash studies/first-run.sh");
  CHECK(std::max(all[0], all[1]) == "bash tests/run.sh");
}

TEST_CASE("Every script that the README names is there", "[program]") {
  for (const std::string& command : commands()) {
    const std::vector<std::string> words = words_of(command);
    if (words.front() != "bash" || words.size() < 2) continue;
    INFO(command);
    CHECK(fs::exists(fs::path(SCREWTINY_SOURCE) / words[1]));
  }
}

TEST_CASE("Every call of the program that the README shows has a verb and options that it knows", "[program]") {
  const Folder folder;
  std::size_t calls = 0;
  std::vector<std::string> all = commands();
  for (const std::string& span : spans())
    if (contains(span, "screwtiny ") && is_command(span)) all.push_back(span);
  for (const std::string& command : all) {
    const std::vector<std::string> words = arguments(command);
    if (words.empty()) continue;
    INFO(command);
    ++calls;
    if (words.front().starts_with("-")) {
      CHECK(run(words, folder).code == 0);
      continue;
    }
    const Ran help = run({words.front(), "--help"}, folder);
    CHECK(help.code == 0);
    for (const std::string& word : words)
      if (word.starts_with("--")) CHECK(contains(help.out, word.substr(0, word.find('=')) + " "));
  }
  CHECK(calls > 0);
}

TEST_CASE("Every study that the README shows reads without error, and is answered as shown", "[program]") {
  std::size_t studies = 0, answers = 0;
  const Folder folder;
  std::string study;
  for (const Block& block : blocks()) {
    if (block.lines.empty()) continue;
    const std::string& first = block.lines.front();
    if (first.starts_with("title")) {
      study.clear();
      for (const std::string& line : block.lines) study += line + "\n";
      INFO(study);
      folder.write("shown.toml", study);
      CHECK(run({"vet", "shown.toml"}, folder).code == 0);
      ++studies;
    } else if (block.language == "text" && !study.empty()) {
      const std::string name = first.substr(0, first.find(':')) + ".toml";
      folder.write(name, study);
      const std::vector<std::string> said = lines_of(run({"size", name}, folder).out);
      for (const std::string& line : block.lines) {
        INFO(line);
        if (!line.ends_with("...")) CHECK(std::count(said.begin(), said.end(), line) >= 1);
      }
      ++answers;
    }
  }
  CHECK(studies > 0);
  CHECK(answers > 0);
}
