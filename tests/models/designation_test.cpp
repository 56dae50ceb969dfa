#include "models/thread/designation.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <set>
#include <string>

#include "engine/base/error.hpp"
#include "models/thread/series.hpp"

using namespace models;

namespace {

constexpr double inch = 0.0254;

std::string refusal(const std::string& text) {
  try {
    read_designation(text);
  } catch (const engine::Refusal& refused) {
    CHECK(refused.code() == engine::ExitCode::study);
    CHECK(refused.problems().size() == 1);
    CHECK_FALSE(refused.problems()[0].reason.empty());
    CHECK_FALSE(refused.problems()[0].fix.empty());
    return refused.what();
  }
  return "";
}

bool has(const std::string& text, const std::string& part) {
  INFO(text);
  CHECK(text.find(part) != std::string::npos);
  return text.find(part) != std::string::npos;
}

void reads_as(const std::string& text, Form form, double diameter, double pitch, int starts = 1) {
  INFO(text);
  const Designation read = read_designation(text);
  CHECK(read.form == form);
  CHECK(read.diameter == Approx(diameter).epsilon(1e-12));
  CHECK(read.pitch == Approx(pitch).epsilon(1e-12));
  CHECK(read.starts == starts);
}

std::string called(Form form, double diameter, double pitch, int starts = 1) {
  return designation(make_thread(form, diameter, pitch, starts));
}

}  // namespace

TEST_CASE("Threads on a series are called as the trade calls them") {
  CHECK(called(Form::trapezoidal, 0.040, 0.007) == "Tr 40x7");
  CHECK(called(Form::trapezoidal, 0.040, 0.007, 2) == "Tr 40x14 P7");
  CHECK(called(Form::trapezoidal, 0.008, 0.0015) == "Tr 8x1.5");
  CHECK(called(Form::acme, 1.5 * inch, inch / 4) == "1-1/2-4 Acme");
  CHECK(called(Form::acme, 1.5 * inch, inch / 4, 2) == "1-1/2-4 Acme, 2 starts");
  CHECK(called(Form::stub_acme, 0.25 * inch, inch / 16) == "1/4-16 Stub Acme");
  CHECK(called(Form::iso_metric, 0.024, 0.003) == "M24x3");
  CHECK(called(Form::unified, inch, inch / 8) == "1-8 UNC");
  CHECK(called(Form::unified, 0.75 * inch, inch / 16) == "3/4-16 UNF");
  CHECK(called(Form::unified, 2.25 * inch, inch / 4.5) == "2-1/4-4.5 UNC");
}

TEST_CASE("Threads off a series are called by form, diameter and pitch in millimetres") {
  CHECK(called(Form::square, 0.025, 0.005) == "square 25x5");
  CHECK(called(Form::square, 0.025, 0.005, 2) == "square 25x10 P5");
  CHECK(called(Form::buttress_7_45, 0.040, 0.006) == "buttress-7-45 40x6");
  CHECK(called(Form::trapezoidal, 0.041, 0.007) == "trapezoidal 41x7");
  CHECK(called(Form::acme, 1.3 * inch, 0.00488) == "acme 33.02x4.88");
  CHECK(called(Form::acme, 1.3 * inch, inch / 6) == "acme 33.02x4.2333");
}

TEST_CASE("Every size of every series reads back from its designation, with one to four starts") {
  std::set<std::string> names;
  std::size_t threads = 0;
  for (const Form form : all_forms())
    for (const Size& size : series(form))
      for (int starts = 1; starts <= 4; ++starts) {
        const std::string text = called(form, size.diameter, size.pitch, starts);
        INFO(text);
        const Designation read = read_designation(text);
        CHECK(read.form == form);
        CHECK(read.diameter == size.diameter);
        CHECK(read.pitch == size.pitch);
        CHECK(read.starts == starts);
        CHECK(read.starts_said == (starts > 1));
        names.insert(text);
        ++threads;
      }
  CHECK(threads > 1000);
  CHECK(names.size() == threads);
}

TEST_CASE("A free thread reads back from its designation to the printed decimals") {
  std::size_t threads = 0;
  for (const Form form : all_forms())
    for (int i = 0; i < 60; ++i)
      for (int starts = 1; starts <= 4; ++starts) {
        const double diameter = (17.123456 + 1.7 * i) / 1000, pitch = (1.618034 + 0.09 * i) / 1000;
        const std::string text = called(form, diameter, pitch, starts);
        INFO(text);
        const Designation read = read_designation(text);
        CHECK(read.form == form);
        CHECK(std::abs(read.diameter - diameter) <= 0.51e-7);
        CHECK(std::abs(read.pitch - pitch) <= 0.51e-7);
        CHECK(read.starts == starts);
        CHECK(called(form, read.diameter, read.pitch, starts) == text);
        ++threads;
      }
  CHECK(threads == 8 * 60 * 4);
}

TEST_CASE("A free form that names a size of a series is exactly that size") {
  const Designation read = read_designation("acme 38.1x6.35");
  CHECK(read.diameter == 1.5 * inch);
  CHECK(read.pitch == inch / 4);
}

TEST_CASE("Blanks, capitals and the ways of writing a fraction are forgiven") {
  for (const char* text :
       {"Tr 40x7", "TR40 X 7", "tr40x7", " Tr 40 × 7 ", "Tr\t40×7", "Tr 40.0x7.0", "trapezoidal 40x7"})
    reads_as(text, Form::trapezoidal, 0.040, 0.007);
  for (const char* text : {"Tr 40x14 P7", "TR 40x14P7", "tr 40 x 14 p 7", "Tr 40xPh14 P7"})
    reads_as(text, Form::trapezoidal, 0.040, 0.007, 2);
  for (const char* text : {"1-1/2-4 Acme", "1 1/2-4 acme", "1.5-4 Acme", "1-1/2 - 4 ACME", "1-1/2\"-4 Acme",
                           "1.500-4-ACME", "1-1/2–4 Acme"})
    reads_as(text, Form::acme, 1.5 * inch, inch / 4);
  for (const char* text : {"1-1/2-4 Stub Acme", "1 1/2-4 stub-acme", "1.5-4 Acme Stub"})
    reads_as(text, Form::stub_acme, 1.5 * inch, inch / 4);
  for (const char* text : {"1-5 Acme, 3 starts", "1-5 acme 3 start", "1-5 Acme, 3-start"})
    reads_as(text, Form::acme, inch, inch / 5, 3);
  for (const char* text : {"2-4.5 UNC", "2-4-1/2 UNC", "2-4 1/2 unc"})
    reads_as(text, Form::unified, 2 * inch, inch / 4.5);
  reads_as("2-1/4-4-1/2 UNC", Form::unified, 2.25 * inch, inch / 4.5);
  for (const char* text : {"M24", "m 24", "M24x3", "M 24 X 3"}) reads_as(text, Form::iso_metric, 0.024, 0.003);
  reads_as("M12x1.25", Form::iso_metric, 0.012, 0.00125);
  reads_as("Square25x5", Form::square, 0.025, 0.005);
  reads_as("buttress-3-30 40x7", Form::buttress_3_30, 0.040, 0.007);
}

TEST_CASE("One start counts as said only where it is said") {
  CHECK(read_designation("Tr 40x7 P7").starts_said);
  CHECK(read_designation("1-5 Acme, 1 start").starts_said);
  CHECK_FALSE(read_designation("Tr 40x7").starts_said);
  CHECK_FALSE(read_designation("1-5 Acme").starts_said);
}

TEST_CASE("A size off its series names the two nearest and the free form") {
  const std::string tr = refusal("Tr 41x7");
  has(tr, "'Tr 41x7' is not on the series of ISO 2904");
  has(tr, "Tr 40x7");
  has(tr, "Tr 42x7");
  has(tr, R"(thread = { form = "trapezoidal", diameter = "41 mm", pitch = "7 mm" })");
  const std::string acme = refusal("1-3/8-5 Acme");
  has(acme, "ASME B1.5");
  has(acme, "1-3/8-4 Acme");
  has(acme, R"(thread = { form = "acme", diameter = "1.375 in", pitch = "5 tpi" })");
  has(refusal("M25"), "M24x3 and M27x3");
  has(refusal("M24x2.5"), "M24x3");
  has(refusal("1-1/2-4 UNC"), "1-1/2-6 UNC");
}

TEST_CASE("A lead without its pitch is told apart from a pitch") {
  has(refusal("Tr 40x14"), "Tr 40x14 P7 for 2 starts");
  has(refusal("Tr 40x6"), "Tr 40x6 P3 for 2 starts");
  CHECK(refusal("Tr 40x13").find("starts") == std::string::npos);
}

TEST_CASE("A lead that is no whole number of pitches is refused") {
  has(refusal("Tr 40x15 P7"), "lead of 15 mm on a pitch of 7 mm");
  has(refusal("square 25x2 P5"), "use a lead of 5 mm for one start, 10 mm for two");
  has(refusal("square 25x5 P0.001"), "lead");
}

TEST_CASE("UNC on a fine size and UNF on a coarse one are put right") {
  has(refusal("3/4-16 UNC"), "write 3/4-16 UNF");
  has(refusal("1-8 UNF"), "write 1-8 UNC");
}

TEST_CASE("What is no designation is refused with what was probably meant") {
  has(refusal("1-1/2-4 Acne"), "did you mean 'acme'?");
  has(refusal("sqare 25x5"), "did you mean 'square'?");
  has(refusal("buttres-7-45 40x6"), "did you mean 'buttress-7-45'?");
  has(refusal("Tr 40x7 LH"), "It cannot be read from 'lh' on");
  has(refusal("1-5 Acme-2G"), "class = \"2G\"");
  has(refusal("1-1/2 Acme"), "threads per inch");
  for (const char* text : {"",
                           " ",
                           "x",
                           "Tr",
                           "Tr 40",
                           "Tr x7",
                           "Tr 40x",
                           "Tr 40x7 P",
                           "Tr -40x7",
                           "Tr 0x7",
                           "Tr nanx7",
                           "M",
                           "M0",
                           "40x7",
                           "1-5",
                           "Acme",
                           "-5 Acme",
                           "1/0-5 Acme",
                           "1-0 Acme",
                           "1-2-3-4-5 Acme",
                           "1-5 Acme, 2",
                           "1-5 Acme, 1.5 starts",
                           "1-5 Acme, 0 starts",
                           "square 25",
                           "square 25x5x2",
                           "square",
                           "Tr 1e999x7",
                           "\xff\xfe",
                           "Tr 40x7\xff"}) {
    INFO(text);
    CHECK_FALSE(refusal(text).empty());
  }
}

TEST_CASE("A long wrong text is cut in the message") {
  CHECK(refusal("Tr " + std::string(10000, '4') + "x7").size() < 600);
  CHECK(refusal(std::string(10000, 'q')).size() < 600);
}
