#include "tests/read/study_texts.hpp"

namespace {

const models::Tables& own_tables() {
  static const models::Tables tables = models::read_tables(SCREWTINY_SOURCE "/models/tables", {});
  return tables;
}

}  // namespace

studies::Study study_of(const std::string& text, studies::Verb verb) {
  return studies::read_study_text(
      text, "study.toml", [](const std::vector<std::string>&) { return own_tables(); }, verb);
}

std::vector<engine::Problem> problems(const std::string& text, studies::Verb verb) {
  try {
    study_of(text, verb);
  } catch (const engine::Refusal& refusal) {
    return refusal.problems();
  }
  return {};
}

std::string refusal(const std::string& text, studies::Verb verb) {
  std::string all;
  for (const engine::Problem& problem : problems(text, verb)) all += engine::text(problem) + "\n";
  return all;
}
