#include <catch2/catch.hpp>

#include <cstdio>
#include <string>
#include <thread>
#include <vector>

#include "studies/say/progress.hpp"
#include "studies/say/units_of_his.hpp"
#include "studies/say/words.hpp"

namespace {

/// What was written to a temporary stream while it was used.
template <class Use>
std::string written(Use use) {
  std::FILE* stream = std::tmpfile();
  REQUIRE(stream != nullptr);
  use(stream);
  std::rewind(stream);
  std::string text;
  for (int letter = std::fgetc(stream); letter != EOF; letter = std::fgetc(stream)) text += static_cast<char>(letter);
  std::fclose(stream);
  return text;
}

}  // namespace

TEST_CASE("Time left is guessed after two seconds only") {
  CHECK(studies::progress_words("press", 0.434, 1.9) == "press: 43 of 100 done");
  CHECK(studies::progress_words("press", 0.25, 4) == "press: 25 of 100 done, about 12 s left");
  CHECK(studies::progress_words("press", 0.02, 60) == "press: 2 of 100 done, about 49 min left");
  CHECK(studies::progress_words("press", 1, 60) == "press: 100 of 100 done");
  CHECK(studies::say::columns(studies::progress_words(std::string(200, 'x'), 0.5, 10)) <= 79);
}

TEST_CASE("A progress line wipes itself and is written at most five times a second") {
  const std::string text = written([](std::FILE* stream) {
    studies::Progress progress(true, "press", stream);
    std::vector<std::thread> threads;
    for (int t = 0; t < 4; ++t)
      threads.emplace_back([&] {
        for (int i = 0; i < 1000; ++i) progress.report(0.5);
      });
    for (std::thread& thread : threads) thread.join();
  });
  const std::string line = "press: 50 of 100 done";
  CHECK(text.starts_with("\r" + line));
  CHECK(text.ends_with("\r" + std::string(line.size(), ' ') + "\r"));
}

TEST_CASE("A progress line that is not enabled writes nothing") {
  CHECK(written([](std::FILE* stream) {
          studies::Progress progress(false, "press", stream);
          progress.report(0.5);
        }).empty());
}

TEST_CASE("Lists and counts read as words") {
  using namespace studies::say;
  CHECK(list_of({"a"}) == "a");
  CHECK(list_of({"a", "b"}) == "a and b");
  CHECK(list_of({"a", "b", "c"}) == "a, b and c");
  CHECK(number_in_words(2) == "two");
  CHECK(number_in_words(1048576) == "1 048 576");
  CHECK(counted(1, "screw") == "1 screw");
  CHECK(study_name("a/b.c/press.toml") == "press");
  CHECK(shortened("0123456789", 5) == "0123…");
}

TEST_CASE("A value is said in the unit typed, else in the system of the study") {
  studies::Study study;
  study.units = {{engine::Dimension::force, "kN"}};
  const studies::say::HisUnits his(study);
  CHECK(his(22768, engine::Dimension::force) == "22.8 kN");
  CHECK(his.both(22e3, engine::Dimension::force) == "22 kN (4950 lbf)");
  CHECK(his(12e6, engine::Dimension::stress) == "12 MPa");
  CHECK(his.given(21575, engine::Dimension::force) == "21.575 kN");
  CHECK(his.beside(21.97e3, 22e3, false, engine::Dimension::force) == "21.9 kN");
  CHECK(his.beside(12.01e6, 12e6, true, engine::Dimension::stress) == "12.1 MPa");
}
