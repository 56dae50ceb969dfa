#include "engine/base/format.hpp"

#include <catch2/catch.hpp>

#include <limits>

using namespace engine;

TEST_CASE("Three figures are enough for a person to read") {
  CHECK(three_figures(0) == "0");
  CHECK(three_figures(-0.0) == "0");
  CHECK(three_figures(12345) == "12 300");
  CHECK(three_figures(-12345) == "-12 300");
  CHECK(three_figures(1048576) == "1 050 000");
  CHECK(three_figures(1810000) == "1 810 000");
  CHECK(three_figures(1234) == "1230");
  CHECK(three_figures(9999) == "10 000");
  CHECK(three_figures(99.96) == "100");
  CHECK(three_figures(3.1185) == "3.12");
  CHECK(three_figures(0.00027437) == "0.000274");
  CHECK(three_figures(7.35) == "7.35");
  CHECK(three_figures(22.84) == "22.8");
  CHECK(three_figures(0.99999) == "1");
}

TEST_CASE("Three figures carry no idle zeros") {
  CHECK(three_figures(5.9) == "5.9");
  CHECK(three_figures(1.50) == "1.5");
  CHECK(three_figures(10.0) == "10");
  CHECK(three_figures(0.1000001) == "0.1");
}

TEST_CASE("Very large and very small values read as powers") {
  CHECK(three_figures(2.857e-7) == "2.86e-7");
  CHECK(three_figures(1e-6) == "0.000001");
  CHECK(three_figures(9.99e8) == "999 000 000");
  CHECK(three_figures(9.999e8) == "1e9");
  CHECK(three_figures(-2.5e12) == "-2.5e12");
  CHECK(three_figures(std::numeric_limits<double>::denorm_min()) == "4.94e-324");
}

TEST_CASE("What is no number is said in words") {
  CHECK(three_figures(std::numeric_limits<double>::quiet_NaN()) == "none");
  CHECK(three_figures(std::numeric_limits<double>::infinity()) == "infinity");
  CHECK(plain(-std::numeric_limits<double>::infinity()) == "-infinity");
}

TEST_CASE("A typed value comes back as it was typed, without the dust of conversion") {
  CHECK(plain(0.04 * 1000) == "40");
  CHECK(plain(0.1 + 0.2) == "0.3");
  CHECK(plain(3.175) == "3.175");
  CHECK(plain(1.50) == "1.5");
  CHECK(plain(1234567) == "1234567");
  CHECK(plain(9007199254740.0) == "9007199254740");
  CHECK(plain(0.0000125) == "0.0000125");
  CHECK(plain(1e-13) == "1e-13");
  CHECK(plain(-0.0) == "0");
}

TEST_CASE("Counts read in full, in groups of three") {
  CHECK(count_in_full(0) == "0");
  CHECK(count_in_full(1024) == "1024");
  CHECK(count_in_full(1048576) == "1 048 576");
  CHECK(count_in_full(std::numeric_limits<std::uint64_t>::max()) == "18 446 744 073 709 551 615");
}
