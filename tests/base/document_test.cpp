#include "engine/base/document.hpp"

#include <unistd.h>
#include <catch2/catch.hpp>

#include <cstdio>
#include <filesystem>
#include <fstream>

#include "engine/base/error.hpp"

using namespace engine;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

Node parse(const std::string& text) { return parse_document(text, "study.toml"); }

std::string refusal(const std::string& text) {
  try {
    parse(text);
  } catch (const Refusal& error) {
    CHECK(error.code() == ExitCode::study);
    for (const Problem& problem : error.problems()) CHECK_FALSE(problem.fix.empty());
    return error.what();
  }
  FAIL("accepted: " << text.substr(0, 100));
  return "";
}

std::string many(std::size_t count, const std::string& text) {
  std::string all;
  for (std::size_t i = 0; i < count; ++i) all += text;
  return all;
}

}  // namespace

TEST_CASE("Entries stand in the order typed, each with its place") {
  const Node root = parse("zeta = 1\nalpha = \"22 kN\"\n[middle]\nb = true\na = [1, 2.5]\n");
  REQUIRE(root.entries.size() == 3);
  CHECK(root.entries[0].first.name == "zeta");
  CHECK(root.entries[1].first.name == "alpha");
  CHECK(root.entries[1].first.place.line == 2);
  CHECK(root.entries[1].second.place.column == 9);
  const Node* middle = root.find("middle");
  REQUIRE(middle != nullptr);
  CHECK(middle->entries[0].first.name == "b");
  CHECK(middle->find("a")->items[1].number == 2.5);
  CHECK(middle->find("a")->items[1].place.column == 9);
  CHECK(root.find("nothing") == nullptr);
}

TEST_CASE("Every kind of value has its words") {
  const Node root = parse("a = \"x\"\nb = 3\nc = 3.5\nd = true\ne = []\nf = {}\ng = 1979-05-27\nh = 07:32:00\n");
  CHECK(root.find("a")->kind_in_words() == "a text");
  CHECK(root.find("b")->kind_in_words() == "a number");
  CHECK(root.find("b")->whole);
  CHECK_FALSE(root.find("c")->whole);
  CHECK(root.find("d")->kind_in_words() == "true or false");
  CHECK(root.find("d")->truth);
  CHECK(root.find("e")->kind_in_words() == "a list");
  CHECK(root.find("f")->kind_in_words() == "a table");
  CHECK(root.find("g")->kind_in_words() == "a date");
  CHECK(root.find("h")->kind_in_words() == "a time");
  CHECK(root.find("g")->kind == Node::Kind::other);
}

TEST_CASE("Dotted keys, inline tables and lists of tables nest alike") {
  const Node root = parse("a.b.c = 1\nd = { e = 2, f.g = 3 }\n[[row]]\nx = 1\n[[row]]\nx = 2\n");
  CHECK(root.find("a")->find("b")->find("c")->number == 1);
  CHECK(root.find("d")->find("f")->find("g")->number == 3);
  CHECK(root.find("row")->items[1].find("x")->number == 2);
}

TEST_CASE("Whole numbers are kept to the last figure or refused") {
  CHECK(parse("seed = 9007199254740992\n").find("seed")->number == 9007199254740992.0);
  CHECK_THAT(refusal("seed = 9007199254740993\n"), StartsWith("study.toml:1:8: The whole number 9007199254740993"));
  CHECK_THAT(refusal("seed = 99999999999999999999\n"), Contains("fewer figures"));
}

TEST_CASE("Line ends of any system and a byte order mark are no matter") {
  CHECK(parse("a = 1\r\nb = 2\r\n").find("b")->place.line == 2);
  CHECK(parse("\xEF\xBB\xBF"
              "a = 1\n")
            .entries[0]
            .first.place.column == 1);
  CHECK(parse("a = \"é\" # ü\n").find("a")->text == "é");
}

TEST_CASE("A syntax error says where, what and the fix") {
  CHECK_THAT(refusal("a = 1\nforce = 22 kN\n"), StartsWith("study.toml:2:") && Contains("in quotes: \"22 kN\""));
  CHECK_THAT(refusal("d = \"1 1/4\"\"\n"), StartsWith("study.toml:1:") && Contains("instead of the inch mark"));
  CHECK_THAT(refusal("a = 1\na = 2\n"), StartsWith("study.toml:2:") && Contains("redefine") && Contains("keep one"));
  CHECK_THAT(refusal("a = 1,5\n"), Contains("with a point"));
  CHECK_THAT(refusal("a =\n"), Contains("write a value behind the '='"));
  CHECK_THAT(refusal("force 22\n"), Contains("write key = value"));
  CHECK_THAT(refusal("a = \"x\nb = 1\n"), Contains("does not end on its line") && Contains("quote it began with"));
  CHECK_THAT(refusal("a = [1, 2\n"), StartsWith("study.toml:1:") && Contains("close every bracket"));
  CHECK_THAT(refusal("[a\n"), Contains("close every bracket"));
  CHECK_THAT(refusal("a = 007\n"), Contains("zeros in front"));
  CHECK_THAT(refusal("[\n"), StartsWith("study.toml:1:"));
}

TEST_CASE("Stray characters outside quotes are named by their own place") {
  CHECK_THAT(refusal("é = 1\n"), StartsWith("study.toml:1:1: A character here is not allowed outside quotes"));
  CHECK_THAT(refusal("a = 1\nb = “22 kN”\n"), StartsWith("study.toml:2:5:") && Contains("straight quotes"));
  CHECK_THAT(refusal("a = 1\nb 1\nc = “x”\n"), StartsWith("study.toml:2:"));
}

TEST_CASE("Nothing to read is an error") {
  CHECK_THAT(refusal(""), Contains("The file is empty"));
  CHECK_THAT(refusal(" \r\n\t"), Contains("The file is empty"));
  CHECK_THAT(refusal("\xEF\xBB\xBF"), Contains("The file is empty"));
  CHECK_THAT(refusal("# only this\n"), Contains("only comments"));
}

TEST_CASE("Values that are not finite are all refused, each at its place") {
  const std::string words = refusal("a = nan\nb = [inf, { c = -inf }]\n");
  CHECK_THAT(words, Contains("study.toml:1:5: Not-a-number") && Contains("study.toml:2:6: An infinity") &&
                        Contains("study.toml:2:"));
}

TEST_CASE("Bytes that are not UTF-8 are refused at their place") {
  CHECK_THAT(refusal("a = 1\nb = \"caf\xE9\"\n"), StartsWith("study.toml:2:9: A character here is not UTF-8"));
  CHECK_THAT(refusal(std::string("\xFF\xFE"
                                 "a\0",
                                 4)),
             Contains("UTF-16"));
  CHECK_FALSE(refusal(std::string("a = 1\0", 6)).empty());
}

TEST_CASE("Nesting bombs are refused, not followed") {
  CHECK_FALSE(refusal("a = " + many(100000, "[")).empty());
  CHECK_THAT(refusal("a = " + many(90, "[") + many(90, "]")), Contains("nested more than 64 deep"));
  CHECK_THAT(refusal(many(100000, "a.") + "b = 1\n"), Contains("more than 16 parts"));
  CHECK_FALSE(refusal("a = " + many(100000, "{a=")).empty());
}

TEST_CASE("A file that cannot be read is refused as a matter of files") {
  const auto code = [](const std::string& path) {
    try {
      read_document(path);
    } catch (const Refusal& error) {
      CHECK(error.problems()[0].file == path);
      return error.code();
    }
    return ExitCode::answered;
  };
  CHECK(code("no/such/file.toml") == ExitCode::files);
  CHECK(code(std::filesystem::temp_directory_path().string()) == ExitCode::files);
}

TEST_CASE("A file is read byte for byte") {
  const std::string path =
      (std::filesystem::temp_directory_path() / ("screwtiny_document_test_" + std::to_string(::getpid()) + ".toml"))
          .string();
  std::ofstream(path, std::ios::binary) << "a = 1\r\n";
  CHECK(read_text(path) == "a = 1\r\n");
  CHECK(read_document(path).find("a")->number == 1);
  std::ofstream(path, std::ios::binary | std::ios::trunc).flush();
  CHECK(read_text(path).empty());
  std::remove(path.c_str());
}
