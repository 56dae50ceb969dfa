#include "engine/base/csv.hpp"

#include <catch2/catch.hpp>

using engine::CsvLine;
using engine::CsvLines;

TEST_CASE("A CSV text is walked line by line, with the places of its cells") {
  CsvLines lines(
      "\xEF\xBB\xBF# draws of 3 May\r\n\r\n mu , \"torque, cold [N.m]\"\r\n0.13,  61\n   # a break\n0.15,\n\"a\",b,c");
  CsvLine line;
  REQUIRE(lines.next(line));
  CHECK(line.number == 3);
  REQUIRE(line.cells.size() == 2);
  CHECK(line.cells[0].text == "mu");
  CHECK(line.cells[0].column == 2);
  CHECK(line.cells[1].text == "torque, cold [N.m]");
  CHECK(line.cells[1].column == 7);
  REQUIRE(lines.next(line));
  CHECK(line.number == 4);
  CHECK((line.cells[0].text == "0.13" && line.cells[1].text == "61" && line.cells[1].column == 8));
  REQUIRE(lines.next(line));
  CHECK(line.number == 6);
  CHECK((line.cells.size() == 2 && line.cells[1].text.empty() && line.cells[1].column == 6));
  REQUIRE(lines.next(line));
  CHECK((line.cells.size() == 3 && line.cells[0].text == "a" && line.cells[2].text == "c"));
  CHECK_FALSE(lines.next(line));
}

TEST_CASE("A CSV text without anything in it has no line") {
  for (const char* text : {"", "\n\n", "# only a comment", "  \r\n\t\n"}) {
    CsvLine line;
    CHECK_FALSE(CsvLines(text).next(line));
  }
}
