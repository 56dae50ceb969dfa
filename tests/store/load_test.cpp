/// A results file read back whole: the very answer, and the study as it was, whatever has become of its files.
#include <catch2/catch.hpp>

#include "studies/ask/question.hpp"
#include "studies/keep/archive.hpp"
#include "studies/keep/load.hpp"
#include "studies/read/reader.hpp"
#include "studies/say/json.hpp"
#include "tests/read/study_texts.hpp"
#include "tests/store/sample_answer.hpp"

using namespace studies;

namespace {

/// Answers a study in a folder and keeps it.
void keep(const std::string& study_path, const std::string& results, Verb verb) {
  const Study study = read_study(study_path, sample::source_root() + "/models/tables", verb);
  const Answer answer = verb == Verb::rate ? rate(study, {}) : size(study, {});
  write_results(results, answer, run_id(study, verb == Verb::rate ? "rate" : "size", false, SCREWTINY_VERSION),
                {answer_json(answer), "sentence", "text", "holds", "", ""});
}

}  // namespace

TEST_CASE("What is loaded is the answer that was kept, bit for bit, not-a-numbers and infinities included") {
  const sample::Folder folder;
  const auto made = sample::full();
  const auto bytes = archive(made.answer);
  Archived back = unarchived(bytes);
  back.answer.study = made.study.get();
  CHECK(archive(back.answer) == bytes);
}

TEST_CASE("A loaded answer says what the answer said, with the study's files gone") {
  const sample::Folder folder;
  std::string draws = "friction\n";
  for (int i = 0; i < 200; ++i) draws += std::to_string(0.1 + 0.0002 * i) + "\n";
  sample::put_bytes(folder / "mine.csv", draws);
  sample::put_bytes(folder / "rows.toml",
                    "[[material]]\nname = \"shop steel\"\nyield = \"300 MPa\"\nultimate = \"500 MPa\"\nmodulus = \"205 "
                    "GPa\"\ndensity = \"7850 kg/m3\"\nfamily = \"steel\"\nkind = \"typical\"\nsource = \"invented\"\n");
  sample::put_bytes(folder / "study.toml",
                    with(clamp_text, {{"title = \"A clamp\"", "title = \"A clamp\"\ntables = [\"rows.toml\"]"},
                                      {"screw = \"steel 1045 hot rolled\"", "screw = \"shop steel\""},
                                      {"[scatter]",
                                       "[scatter]\nthread_friction = { draws = \"mine.csv\", column = "
                                       "\"friction\" }"}}));
  keep(folder / "study.toml", folder / "study.h5", Verb::rate);
  for (const char* file : {"mine.csv", "rows.toml", "study.toml"}) std::remove((folder / file).c_str());
  const auto loaded = load_results(folder / "study.h5");
  CHECK(answer_json(loaded->answer) == loaded->json);
  CHECK(loaded->verb == "rate");
  CHECK(loaded->answer.pick->design.screw.name == "shop steel");
}

TEST_CASE("Of a search that found nothing the nearest screw is kept, judged as the search left it") {
  const sample::Folder folder;
  sample::put_bytes(folder / "study.toml",
                    with(clamp_text, {{"thread = \"Tr 24x5\"", "thread = [\"Tr 20x4\", \"Tr 24x5\", \"Tr 28x5\"]"},
                                      {"force = \"10 kN\"", "force = \"90 kN\""}}));
  keep(folder / "study.toml", folder / "study.h5", Verb::size);
  const auto loaded = load_results(folder / "study.h5");
  CHECK_FALSE(loaded->answer.pick);
  REQUIRE(loaded->answer.candidates.size() == 1);
  REQUIRE_FALSE(loaded->answer.relax.empty());
  CHECK(loaded->answer.candidates.front().designation == loaded->answer.relax.front().admits);
}

TEST_CASE("The key and the passes of the command line are those of the loaded study") {
  const sample::Folder folder;
  sample::put_bytes(folder / "study.toml", clamp_text);
  Study study = read_study(folder / "study.toml", sample::source_root() + "/models/tables", Verb::rate);
  study.passes.key = 77;
  study.passes.count = 4096;
  const Answer answer = rate(study, {});
  write_results(folder / "study.h5", answer, run_id(study, "rate", false, SCREWTINY_VERSION),
                {answer_json(answer), "sentence", "text", "holds", "", ""});
  const auto loaded = load_results(folder / "study.h5");
  CHECK(loaded->study.passes.key == 77);
  CHECK(loaded->study.passes.count == 4096);
}

TEST_CASE("A file that is no results file, or is damaged, is refused by name and not read") {
  const sample::Folder folder;
  sample::put_bytes(folder / "study.toml", clamp_text);
  keep(folder / "study.toml", folder / "study.h5", Verb::rate);
  std::string bytes = sample::bytes_of(folder / "study.h5");
  bytes[bytes.size() / 2] = static_cast<char>(bytes[bytes.size() / 2] ^ 0x10);
  sample::put_bytes(folder / "damaged.h5", bytes);
  CHECK_THROWS_AS(load_results(folder / "damaged.h5"), engine::Refusal);
  CHECK_THROWS_AS(load_results(folder / "none.h5"), engine::Refusal);
  CHECK_THROWS_AS(load_results(folder / "study.toml"), engine::Refusal);
}
