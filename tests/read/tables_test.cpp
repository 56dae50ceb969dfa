#include <unistd.h>
#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

#include "tests/read/study_texts.hpp"

using Catch::Matchers::Contains;
using studies::Verb;

namespace {

/// A folder of its own for one test, removed with it.
struct Folder {
  /// Of this process alone: tests run side by side.
  std::filesystem::path path =
      std::filesystem::temp_directory_path() / ("screwtiny_reader_test_" + std::to_string(::getpid()));
  Folder() { std::filesystem::create_directories(path); }
  ~Folder() { std::filesystem::remove_all(path); }
  std::string write(const std::string& name, const std::string& text) const {
    std::ofstream(path / name) << text;
    return (path / name).string();
  }
};

const std::string own_row = R"([[material]]
name     = "shop steel"
family   = "steel"
yield    = "400 MPa"
ultimate = "600 MPa"
modulus  = "207 GPa"
density  = "7800 kg/m3"
kind     = "typical"
source   = "our own test bars"
)";

engine::ExitCode code(const std::string& path, std::string& words) {
  try {
    studies::read_study(path, SCREWTINY_SOURCE "/models/tables", Verb::vet);
  } catch (const engine::Refusal& refusal) {
    words = refusal.what();
    return refusal.code();
  }
  return engine::ExitCode::answered;
}

}  // namespace

TEST_CASE("A study's own rows are found from its folder") {
  const Folder folder;
  folder.write("own.toml", own_row);
  const std::string path =
      folder.write("study.toml", with(clamp_text, {{"\"A clamp\"", "\"A clamp\"\ntables = [\"own.toml\"]"},
                                                   {"steel 1045 hot rolled", "shop steel"}}));
  const studies::Study study = studies::read_study(path, SCREWTINY_SOURCE "/models/tables", Verb::size);
  CHECK(study.choices.screw.at(0).yield == 400e6);
  CHECK(study.path == path);
  CHECK_THAT(study.text, Contains("shop steel"));
}

TEST_CASE("Tables that are missing or wrong have their codes") {
  const Folder folder;
  std::string words;
  const std::string text = with(clamp_text, {{"\"A clamp\"", "\"A clamp\"\ntables = \"own.toml\""}});
  const std::string path = folder.write("study.toml", text);
  CHECK(code(path, words) == engine::ExitCode::files);
  CHECK_THAT(words, Contains("own.toml"));
  folder.write("own.toml", with(own_row, {{"yield ", "yeild "}}));
  folder.write("study.toml", with(text, {{"travel =", "travle ="}}));
  CHECK(code(path, words) == engine::ExitCode::study);
  CHECK_THAT(words, Contains("own.toml:4:") && Contains("study.toml:7:1: unknown key 'travle'"));
}

TEST_CASE("A bearing margin against a table that ends below the sliding speed is refused") {
  const std::string text =
      with(clamp_text, {{"bearing bronze C93200", "grey iron class 30"}, {"[must]", "[must]\nbearing = {}"}});
  CHECK(problems(text).empty());
  CHECK(problems(with(text, {{"travel", "speed = \"60 rpm\"\ntravel"}})).empty());
  CHECK_THAT(refusal(with(text, {{"travel", "speed = \"600 rpm\"\ntravel"}})),
             Contains("no published bearing pressure") && Contains("at_most"));
}

TEST_CASE("A drive too large for numbers is refused") {
  CHECK_THAT(refusal(with(clamp_text, {{"torque = \"60 N.m\"",
                                        "motor = { torque = \"1e300 N.m\", ratio = 1e300, efficiency = 0.8 }"}})),
             Contains("too large"));
}
