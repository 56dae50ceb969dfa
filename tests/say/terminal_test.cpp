#include <catch2/catch.hpp>

#include <algorithm>
#include <limits>
#include <sstream>

#include "studies/say/details.hpp"
#include "studies/say/summary.hpp"
#include "studies/say/terminal.hpp"
#include "studies/say/words.hpp"
#include "studies/say/wrap.hpp"
#include "tests/say/answers.hpp"

using studies::terminal_text;

namespace {

std::vector<tests::Told> all() {
  return {tests::press(),   tests::failing_rate(), tests::nothing_passes(),
          tests::no_must(), tests::lift(),         tests::inch_press()};
}

std::vector<std::string> lines_of(const std::string& text) {
  std::istringstream stream(text);
  std::vector<std::string> lines;
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

bool is_digit(char letter) { return letter >= '0' && letter <= '9'; }

/// Digits from the first to the last that is not zero; a decimal's last zeros count.
std::size_t figures(const std::string& number) {
  std::string digits;
  for (const char letter : number)
    if (is_digit(letter) && (letter != '0' || !digits.empty())) digits += letter;
  if (!has(number, ".")) digits.erase(digits.find_last_not_of('0') + 1);
  return digits.size();
}

/// Numbers with more than three figures, but for counts in groups and the random key.
std::vector<std::string> too_fine(const std::string& text) {
  std::vector<std::string> found;
  std::istringstream stream(text);
  std::string before;
  for (std::string word; stream >> word; before = word) {
    const bool group = word.size() >= 3 && is_digit(word[0]) && is_digit(word[1]) && is_digit(word[2]) &&
                       !before.empty() && is_digit(before.back());
    if (before == "key" || group) continue;
    for (std::size_t at = 0; at < word.size();) {
      std::size_t end = at;
      while (end < word.size() && (is_digit(word[end]) || (word[end] == '.' && end > at))) ++end;
      if (figures(word.substr(at, end - at)) > 3) found.push_back(word.substr(at, end - at));
      at = end + 1;
    }
  }
  return found;
}

/// Text without ANSI codes.
std::string uncoloured(const std::string& text) {
  std::string plain;
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (text[at] == '\033')
      at = text.find('m', at);
    else
      plain += text[at];
  }
  return plain;
}

}  // namespace

TEST_CASE("Every line of every answer fits 80 columns and has no trailing blank") {
  for (const tests::Told& told : all())
    for (const std::string& line : lines_of(terminal_text(told.answer, false))) {
      INFO(line);
      CHECK(studies::say::columns(line) <= 80);
      CHECK((line.empty() || line.back() != ' '));
    }
}

TEST_CASE("No number is said with more than three figures") {
  CHECK(too_fine("1048 N, (3.125) and 1 048 576, key 12345, 0.00141, 5000") ==
        std::vector<std::string>{"1048", "3.125"});
  for (const tests::Told& told : all())
    CHECK(too_fine(terminal_text(told.answer, false)) == std::vector<std::string>{});
}

TEST_CASE("A typed value keeps its figures") {
  tests::Told told = tests::press();
  told.answer.limits.front().asked_value = told.answer.limits.front().limit.asked = 21575;
  CHECK(has(terminal_text(told.answer, false), "Reaches 21.575 kN"));
}

TEST_CASE("The verdict follows the headline") {
  const auto lines = lines_of(terminal_text(tests::press().answer, false));
  CHECK(lines[0] == "orchard_press: Tr 40x7, one start, 60 mm bronze nut, oiled, pad: 5.89 kg");
  CHECK(lines[1] == "Reaches 22 kN in 97 of 100 pulls (3.12 fall short, 3.08 to 3.15; 5 allowed).");
  CHECK(lines[4] == "  what must hold    in         asked   has       to spare");
  CHECK(lines[5] == "  overload pull     99 of 100  1       1.03      2.92 %");
}

TEST_CASE("Missed limits stand first and are marked by a word") {
  const auto lines = lines_of(terminal_text(tests::failing_rate().answer, false));
  CHECK(lines[5] == "  buckling        nominal    3      2.47     -17.6 %   missed");
  CHECK(lines[6] == "  force           95 of 100  22 kN  21.9 kN  -0.136 %  missed");
}

TEST_CASE("A screw never buckles where its column is known, and is not reckoned where it is not") {
  tests::Told told = tests::press();
  CHECK(has(studies::say::pulled_too_hard(told.answer), "; buckling not reckoned, as no travel is typed."));
  for (const bool tension : {false, true}) {
    told.study.duty.screw_in_compression = !tension;
    told.study.duty.travel = tension ? std::optional<double>() : 0.52;
    CHECK(has(studies::say::pulled_too_hard(told.answer), "; buckling never."));
  }
}

TEST_CASE("What follows from the pick is said below the table") {
  std::string text = terminal_text(tests::press().answer, false);
  std::replace(text.begin(), text.end(), '\n', ' ');
  CHECK(has(text, "Of every 100 N.m on the handle, 29.2 lift, 63.4 rub in the thread, 7.35 in the face."));
  CHECK(
      has(text,
          "Winding back: the thread alone is self-locking, margin 1.83, with the face 2.03; lowering takes 48.3 N.m."));
  CHECK(has(text,
            "Pulled too hard, yield of the body goes first, at 231 N.m (2.07 times the drive); then thread root at "
            "299 N.m and stripping at 411 N.m; buckling not reckoned, as no travel is typed."));
  CHECK(has(text, "self-locking none (at most 0.00141; 2 allowed)"));
  CHECK(has(text, "Proven lightest of 408 screws. 1 048 576 fresh passes, key 20261125. results/orchard_press.h5"));
  CHECK(has(text, "Not checked: frame, welds, shock, corrosion, foundation."));
  CHECK(has(text, "Held fixed, not stated: drag, modulus of the screw."));
}

TEST_CASE("Every answer ends its cautions with what comes before it, gravest first") {
  for (const tests::Told& told : all()) {
    std::string text = terminal_text(told.answer, false);
    CHECK(text.find("WARNING  The clamped") < text.find("CAUTION  A pipe"));
    CHECK(has(
        text,
        "CAUTION  A calculation aid: local law, codes, the maker's instructions and\n         licensed practice come "
        "first.\n"));
  }
}

TEST_CASE("The pressure law of a face and a thread that winds back are said when they apply") {
  tests::Told told = tests::press();
  told.answer.face_torque_by_pressure = 114.6;
  for (auto& output : told.answer.outputs) {
    if (output.name == "lock_margin_thread") output.nominal = 0.9996;
    if (output.name == "lock_margin") output.nominal = 1.2;
  }
  std::string text = terminal_text(told.answer, false);
  std::replace(text.begin(), text.end(), '\n', ' ');
  CHECK(
      has(text, "With uniform pressure on the face the same force takes 115 N.m instead of 112 N.m by uniform wear."));
  CHECK(has(text,
            "the thread alone is not self-locking, margin 0.999; only the face holds the load, margin 1.2 with it"));
}

TEST_CASE("Inch studies are answered in inch units") {
  const std::string text = terminal_text(tests::inch_press().answer, false);
  CHECK(has(text, "Reaches 5000 lbf in 97 of 100 pulls"));
  CHECK(has(text, "Of every 100 lbf.ft on the handle"));
  CHECK(has(text, "2.36 in bronze nut"));
  CHECK_FALSE(has(text, " kg"));
  CHECK_FALSE(has(text, "MPa"));
}

TEST_CASE("Colour only adds to what the words say") {
  for (const tests::Told& told : all()) {
    const std::string plain = terminal_text(told.answer, false), coloured = terminal_text(told.answer, true);
    CHECK_FALSE(has(plain, "\033"));
    CHECK(has(coloured, "\033[1m"));
    CHECK(uncoloured(coloured) == plain);
  }
}

TEST_CASE("Values that do not exist and names that are not text do no harm") {
  tests::Told told = tests::press();
  told.study.path = "odd\033[31m\xff\u00e9.toml";
  auto& limit = told.answer.limits[1];
  limit.has = limit.spare = std::numeric_limits<double>::infinity();
  told.answer.limits[2].has = told.answer.limits[2].spare = std::numeric_limits<double>::quiet_NaN();
  const std::string text = terminal_text(told.answer, false);
  CHECK(has(text, "odd [31m?é: Tr 40x7"));
  CHECK(has(text, "unlimited"));
  for (const char* word : {"nan", "inf", "NaN", "Inf"}) CHECK_FALSE(has(text, word));
}

TEST_CASE("A number stays with its unit and a long path stays whole") {
  const std::string path(90, 'x');
  CHECK(studies::say::wrapped("short " + path) == std::vector<std::string>{"short", path});
  const std::string filler(76, 'x');
  CHECK(studies::say::wrapped(filler + " 22 kN") == std::vector<std::string>{filler, "22 kN"});
  CHECK(studies::say::wrapped(filler + " 1 048 576") == std::vector<std::string>{filler, "1 048 576"});
}

TEST_CASE("A table too wide for the page becomes sentences") {
  tests::Told told = tests::press();
  told.study.units = {{engine::Dimension::force, "newton"}, {engine::Dimension::stress, "MPa"}};
  for (auto& limit : told.answer.limits) {
    limit.limit.odds = 0.999999;
    limit.holds = false;
  }
  for (const std::string& line : lines_of(terminal_text(told.answer, false))) CHECK(studies::say::columns(line) <= 80);
}

TEST_CASE("A run of several studies ends in one table") {
  const engine::Refusal refusal(engine::ExitCode::study, {engine::Problem{}, engine::Problem{}});
  std::vector<studies::RunLine> lines = {
      studies::run_line(tests::press().answer), studies::run_line(tests::failing_rate().answer),
      studies::run_line(tests::nothing_passes().answer), studies::run_line("bad.toml", refusal)};
  CHECK(studies::summary_table(lines) ==
        "study          answer          pick     mass     tightest, to spare\n"
        "orchard_press  holds           Tr 40x7  5.89 kg  overload pull 2.92 %\n"
        "  results/orchard_press.h5\n"
        "orchard_press  2 missed        Tr 40x7  5.89 kg  buckling -17.6 %\n"
        "  results/orchard_press.h5\n"
        "orchard_press  nothing passes\n"
        "  results/orchard_press.h5\n"
        "bad            2 errors\n");
  lines = {studies::RunLine{"press.toml", "holds", "Tr 40x7", "5.89 kg", "force 3 %", "results/press.h5"}};
  CHECK(studies::summary_table(lines) ==
        "study  answer  pick     mass     tightest, to spare  results\n"
        "press  holds   Tr 40x7  5.89 kg  force 3 %           results/press.h5\n");
}

TEST_CASE("How often the part marked goes first is said before the torques at nominal") {
  const auto said = [](models::Must part, std::optional<double> odds, studies::Bounded share) {
    tests::Told told = tests::press();
    told.answer.limits = {
        tests::judged(models::Must::goes_first, models::Limit::Kind::margin, 1, 1.2, odds, share, true)};
    told.answer.limits[0].limit.part = part;
    told.study.limits = {told.answer.limits[0].limit};
    told.answer.reached[1] = {"thread_root", 98.7, 298.7};  // the nut's own first turn, and the screw's
    std::string text = terminal_text(told.answer, false);
    std::replace(text.begin(), text.end(), '\n', ' ');
    return text;
  };
  const std::string stripping = said(models::Must::stripping, 0.99, {0.9967, 0.9969, 0.9971});
  CHECK(has(stripping, "stripping goes first  99 of 100  1"));
  CHECK(
      has(stripping,
          "Pulled too hard, the threads strip first in all but 0.31 of 100 pulls (0.29 to 0.33; 1 allowed). At nominal "
          "yield of the body goes first, at 231 N.m (2.07 times the drive); then thread root at 299 N.m and stripping "
          "at 411 N.m; buckling not reckoned, as no travel is typed. The nut's own first turn bends at 98.7 N.m: how a "
          "nut begins to go, and so not counted against it."));
  CHECK_FALSE(has(stripping, "fall short: "));  // told once
  CHECK(has(
      said(models::Must::yield, 0.99, {1 - 1.407e-5, 1, 1}),
      "Pulled too hard, the body yields first (none of 1 048 576 fell short, at most 0.00141 in 100; 1 allowed). "));
  CHECK(has(said(models::Must::yield, {}, {0.61, 0.62, 0.63}),
            "Pulled too hard, the body yields first in 62 of 100 pulls (38 fall short, 37 to 39). The working pull is "
            "past what the thread root stands, 98.7 N.m"));
  CHECK_FALSE(has(said(models::Must::yield, {}, {1, 1, 1}), "the body yields first"));  // nothing scatters
}
