#include "studies/read/reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "studies/ask/candidates.hpp"
#include "studies/read/aim.hpp"
#include "studies/read/choose.hpp"
#include "studies/read/duty.hpp"
#include "studies/read/must.hpp"
#include "studies/read/one_screw.hpp"
#include "studies/read/pairs.hpp"
#include "studies/read/passes.hpp"
#include "studies/read/plausible.hpp"
#include "studies/read/scatter.hpp"

namespace studies {
namespace read {
namespace {

using engine::Problem;

void read_title(Page& page) {
  const View top = page.top();
  page.study.title = page.text(top, "title").value_or("");
  page.study.notes = page.text(top, "notes").value_or("");
  const bool blank = page.study.title.find_first_not_of(" \t\r\n") == std::string::npos;
  const engine::Node* node = top.find("title");
  if (blank && (node ? node->kind == engine::Node::Kind::text : !page.spoiled(top)))
    page.refuse(node ? node->place : engine::Place{1, 1}, node ? "the title is blank" : "'title' is missing",
                "It stands over every answer", "write title = \"…\" at the top");
}

/// The user's table files, found from the study's folder.
std::vector<std::string> table_files(Page& page) {
  std::vector<std::string> files;
  const engine::Node* node = page.top().find("tables");
  if (!node) return files;
  const std::filesystem::path folder = std::filesystem::path(page.study.path).parent_path();
  for (const engine::Node* item : one_or_list(*node)) {
    if (item->kind != engine::Node::Kind::text || item->text.empty() || item->text.find('\0') != std::string::npos) {
      page.refuse_kind(*item, "tables", "the name of a TOML file in quotes");
      continue;
    }
    page.echo("tables", *item, std::nullopt, engine::Dimension::none);
    files.push_back((folder / item->text).string());
  }
  return files;
}

[[noreturn]] void throw_all(std::vector<Problem> problems) {
  std::stable_sort(problems.begin(), problems.end(), [](const Problem& a, const Problem& b) {
    return a.line != b.line ? a.line < b.line : a.column < b.column;
  });
  const auto alike = [](const Problem& a, const Problem& b) {
    return a.line == b.line && a.column == b.column && a.problem == b.problem;
  };
  problems.erase(std::unique(problems.begin(), problems.end(), alike), problems.end());
  throw engine::Refusal(engine::ExitCode::study, std::move(problems));
}

/// Correlations depend on the shapes of all inputs, and these on the choice of materials and face.
/// @throws Refusal (study) where they cannot be had
void check_ties(const Study& study) {
  if (study.correlations.empty()) return;
  for (const Surface& surface : surfaces(study.choices)) input_law(study, surface);
}

/// @throws Refusal (study) with what is known so far: without materials nothing more can be checked
void read_tables_into(Page& page, const TableSource& source) {
  try {
    page.study.tables = source(table_files(page));
  } catch (const engine::Refusal& refusal) {
    if (refusal.code() != engine::ExitCode::study) throw;
    std::vector<Problem> all = page.problems();
    all.insert(all.end(), refusal.problems().begin(), refusal.problems().end());
    throw engine::Refusal(engine::ExitCode::study, std::move(all));
  }
}

}  // namespace
}  // namespace read

Study read_study_text(const std::string& text, const std::string& path, const TableSource& tables, Verb verb,
                      const read::FileSource& files) {
  const engine::Node root = engine::parse_document(text, path);
  Study study;
  study.path = path;
  study.text = text;
  read::Page page(path, root, study, files);
  page.check_keys();
  read::read_title(page);
  read::read_tables_into(page, tables);
  read::read_duty(page);
  read::read_choose(page);
  read::read_scatter(page);
  read::read_must(page);
  read::read_aim(page);
  read::read_passes(page);
  read::check_friction(page);
  read::check_pressure(page);
  read::check_one_screw(page);
  if (verb == Verb::rate) read::check_rate(page);
  if (verb == Verb::size) read::check_size(page);
  page.settle_units();
  if (!page.problems().empty()) read::throw_all(page.problems());
  read::check_ties(study);
  read::mind_implausible(page);
  return study;
}

Study read_study(const std::string& path, const std::string& tables_folder, Verb verb) {
  return read_study_text(
      engine::read_text(path), path,
      [&](const std::vector<std::string>& files) { return models::read_tables(tables_folder, files); }, verb);
}

}  // namespace studies
