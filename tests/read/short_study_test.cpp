#include "studies/read/short_study.hpp"

#include <catch2/catch.hpp>

#include "engine/base/document.hpp"

using namespace studies;

namespace {

const engine::Node& at(const engine::Node& root, const std::string& path) {
  const engine::Node* node = &root;
  std::size_t begin = 0;
  for (std::size_t dot = 0; dot != std::string::npos; begin = dot + 1) {
    dot = path.find('.', begin);
    node = node->find(path.substr(begin, dot == std::string::npos ? dot : dot - begin));
    REQUIRE(node != nullptr);
    if (dot == std::string::npos) break;
  }
  return *node;
}

engine::Node document(const Typed& typed) { return engine::parse_document(short_study(typed).text(), "reckon"); }

}  // namespace

TEST_CASE("Any text typed for a short study is read back as the same bytes") {
  for (const std::string text : {"Tr 40x7", "a \"quoted\" \\ word", "two\nlines\ttab", "\x01\x1f\x7f", "ünïcode × …",
                                 "# no comment", "'''", "\"\"\"", "\\u0041", ""}) {
    const engine::Node root = document({{"--thread", text}, {"--torque", "12 N.m"}});
    CHECK(at(root, "choose.thread").text == text);
    CHECK(at(root, "title").text == text + ", reckoned");
    CHECK(at(root, "duty.torque").text == "12 N.m");
  }
}

TEST_CASE("Bytes that are not UTF-8 are refused by option") {
  for (const std::string text : {"\xff", "Tr 40x7\xc3", "\xed\xa0\x80"})
    CHECK_THROWS_WITH(short_study({{"--thread", text}}),
                      Catch::Matchers::StartsWith("--thread: ") && Catch::Matchers::Contains("is not UTF-8"));
}

TEST_CASE("Numbers without dimension are numbers, all else is a text for the reader to judge") {
  const auto kind = [](const std::string& hands) {
    return at(document({{"--handle", "1 m"}, {"--hands", hands}}), "duty.hands").kind;
  };
  for (const char* number : {"2", "0", "1.5", "123456789012345"}) CHECK(kind(number) == engine::Node::Kind::number);
  for (const char* text : {"", "02", "1.", ".5", "1.2.3", "-1", "1e3", "nan", "1234567890123456", "two"})
    CHECK(kind(text) == engine::Node::Kind::text);
  CHECK(at(document({{"--torque", "12"}}), "duty.torque").kind == engine::Node::Kind::text);
}

TEST_CASE("Every line that was not typed says that it is assumed, and by which option to change it") {
  const Typed typed = {{"--thread", "Tr 40x7"}, {"--hand-force", "30 N"}, {"--handle", "1 m"}};
  std::size_t assumed = 0;
  for (const ShortStudy::Line& line : short_study(typed).lines) {
    INFO(line.text);
    CHECK(line.assumed == (line.text.find("# assumed: ") != std::string::npos));
    if (!line.assumed) continue;
    ++assumed;
    CHECK(line.text.find("(" + line.option + ")") != std::string::npos);
    CHECK(typed.count(line.option) == 0);
  }
  // hands, no travel, compression, nut length, lubrication, two materials, four of the face, two frictions, two of the
  // passes
  CHECK(assumed == 15);
}

TEST_CASE("The collar assumed lies around the screw, in the units of its thread") {
  const auto ring = [](const std::string& thread) {
    const engine::Node root = document({{"--thread", thread}});
    return at(root, "choose.face.inner").text + " to " + at(root, "choose.face.outer").text;
  };
  CHECK(ring("Tr 40x7") == "40 mm to 60 mm");
  CHECK(ring("M10") == "10 mm to 15 mm");
  CHECK(ring("1-1/2-4 Acme") == "1.5 in to 2.25 in");
  CHECK(ring("3/4-10 UNC") == "0.75 in to 1.125 in");
  CHECK(ring("square 25x5") == "25 mm to 37.5 mm");
}

TEST_CASE("A load makes a lift, anything else a clamp") {
  CHECK(at(document({{"--load", "12 kN"}}), "duty.action").text == "lift");
  CHECK(at(document({{"--torque", "12 N.m"}, {"--force", "12 kN"}}), "duty.action").text == "clamp");
}
