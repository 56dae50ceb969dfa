/// The page as a whole: what it says, that it is one file, and that nothing in a study gets out of its place.
#include <fmt/format.h>
#include <catch2/catch.hpp>

#include "studies/ask/question.hpp"
#include "studies/keep/archive.hpp"
#include "studies/keep/digest.hpp"
#include "studies/say/json.hpp"
#include "studies/say/sentences.hpp"
#include "studies/sheet/figures.hpp"
#include "studies/sheet/page.hpp"
#include "studies/sheet/summary_page.hpp"
#include "tests/ask/read_text.hpp"
#include "tests/read/study_texts.hpp"

namespace {

using namespace studies;

/// A script and a look that stand for the real ones.
constexpr sheet::Bundle stand_in{"let a = '</script>'; // <!--", "body{margin:0}", ""};

/// The page of a study's text.
std::string page_of(const std::string& text, Verb verb,
                    const sheet::TitleBlock& block = {"", "", "", "", "2026-01-31"}) {
  Loaded loaded;
  loaded.path = "results/study.h5";
  loaded.study = tests::study_of(text, verb);
  loaded.answer = verb == Verb::rate ? rate(loaded.study, {}) : size(loaded.study, {});
  loaded.answer.study = &loaded.study;
  loaded.verb = verb == Verb::rate ? "rate" : "size";
  loaded.sentence = verdict_sentence(loaded.answer);
  Answer kept = unarchived(archive(loaded.answer)).answer;  // as a results file has it
  kept.study = &loaded.study;
  loaded.answer = kept;
  const Answer nearest = loaded.answer.pick ? Answer{} : sheet::judge_nearest(loaded.answer, {});
  const Answer& shown = loaded.answer.pick ? loaded.answer : nearest;
  std::optional<sheet::Scene> scene;
  std::vector<sheet::Figure> figures;
  if (shown.pick) {
    scene.emplace(sheet::scene(shown, {}));
    figures = sheet::all_figures(*scene, {});
  }
  return sheet::page({loaded, shown, scene ? &*scene : nullptr, figures, block}, stand_in);
}

std::size_t count(const std::string& text, const std::string& part) {
  std::size_t n = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
  return n;
}

std::string between(const std::string& text, const std::string& from, const std::string& to) {
  const auto begin = text.find(from);
  REQUIRE(begin != std::string::npos);
  const auto end = text.find(to, begin + from.size());
  REQUIRE(end != std::string::npos);
  return text.substr(begin + from.size(), end - begin - from.size());
}

}  // namespace

TEST_CASE("A title of markup stays text everywhere on the page") {
  const std::string page =
      page_of(with(clamp_text, {{"title = \"A clamp\"", "title = '''<script>alert(1)</script>\"&]]>'''"},
                                {"[scatter]", "[scatter]\ntorque = { spread = \"4 %\" }"}}),
              Verb::rate, {"<b>owner</b>", "\"><img>", "</style>", "</script>", "2026-01-31"});
  CHECK(count(page, "<script") == 2);  // the data and the script
  CHECK(count(page, "</script") == 2);
  CHECK(count(page, "</style") == 1);
  CHECK(count(page, "<img") == 0);
  CHECK(count(page, "<b>owner") == 0);
  CHECK(page.find("&lt;script&gt;alert(1)&lt;/script&gt;&quot;&amp;]]&gt;") != std::string::npos);
}

TEST_CASE("The policy lets the page's own script run and nothing else, by its digest") {
  const std::string page = page_of(clamp_text, Verb::rate);
  const std::string policy = between(page, "Content-Security-Policy\" content=\"", "\"");
  const std::string script = between(page, "</script>\n<script>", "</script>\n</body>");
  CHECK(policy == "default-src 'none'; style-src 'unsafe-inline'; script-src 'sha256-" + sha256_base64(script) +
                      "'; base-uri 'none'; form-action 'none'");
  CHECK(page.find("http:") == std::string::npos);
  CHECK(page.find("https:") == std::string::npos);
  CHECK(page.find("src=") == std::string::npos);
}

TEST_CASE("The page says the verdict, every limit, its cautions, what was not checked, and where lines are to sign") {
  const std::string page = page_of(clamp_text, Verb::rate, {"Shop", "A-7", "B", "me", "2026-01-31"});
  for (const char* part : {"Every limit holds", "Tr 24x5", "Yield of the body", "NOTICE", "Not checked", "Signature",
                           "Shop", "A-7", "2026-01-31", "SHA-256", "Shigley", "ISO 2901", "Approved by"})
    CHECK(page.find(part) != std::string::npos);
  CHECK(count(page, "<figure") == count(page, "<details>"));
  CHECK(count(page, "<figure") >= 7);
}

TEST_CASE("Data inside the page is what the figures are drawn from, and parses") {
  const std::string page = page_of(clamp_text, Verb::rate);
  const auto data = nlohmann::json::parse(between(page, "id=\"sheet-data\">", "</script>"));
  for (std::size_t at = page.find("data-draw=\""); at != std::string::npos; at = page.find("data-draw=\"", at + 1))
    CHECK(data.at("figures").contains(between(page.substr(at), "data-draw=\"", "\"")));
}

TEST_CASE("A screw that misses a limit has the same page with a reversed stamp and the row marked") {
  const std::string page = page_of(with(clamp_text, {{"margin = 1.5", "margin = 150"}}), Verb::rate);
  CHECK(page.find("<p class=\"stamp no\">One limit missed: yield of the body</p>") != std::string::npos);
  CHECK(count(page, "<tr class=miss>") == 1);
  CHECK(count(page, "<figure") >= 7);
}

TEST_CASE("A search in which nothing passes shows the nearest screw, what it misses and what would have to give") {
  const std::string page = page_of(with(clamp_text, {{"thread = \"Tr 24x5\"", "thread = [\"Tr 20x4\", \"Tr 24x5\"]"},
                                                     {"force = \"10 kN\"", "force = \"90 kN\""}}),
                                   Verb::size);
  CHECK(page.find(">Nothing passes</p>") != std::string::npos);
  CHECK(page.find("the nearest of those tried") != std::string::npos);
  CHECK(page.find("What would have to give") != std::string::npos);
  CHECK(page.find("<tr class=miss><th scope=row>Force") != std::string::npos);
  CHECK(count(page, "<figure") >= 7);
}

TEST_CASE("A page of several results has a line for each, links to their sheets, and says how many hold") {
  const std::string page = sheet::summary_page(
      {{"Press <1>", "holds", "Tr 24x5", "1.2 kg [2.65 lb]", "yield 3 %", "Every margin holds.", "out/a b.html", true},
       {"Vise", "2 missed", "Tr 20x4", "", "force -3 %", "Two limits missed.", "out/c.html", false}},
      "out/all.html", stand_in, "2026-01-31");
  CHECK(page.find("1 of 2 do not hold.") != std::string::npos);
  CHECK(page.find("href=\"./a%20b.html\"") != std::string::npos);
  CHECK(page.find("Press &lt;1&gt;") != std::string::npos);
  CHECK(count(page, "<tr class=miss>") == 1);
  CHECK(count(page, "<script") == 0);
}
