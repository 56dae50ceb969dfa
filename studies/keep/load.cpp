#include "studies/keep/load.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "engine/store/reader.hpp"
#include "studies/keep/archive.hpp"
#include "studies/keep/digest.hpp"
#include "studies/keep/schema.hpp"
#include "studies/read/reader.hpp"

namespace studies {
namespace {

using engine::ExitCode;
using engine::Problem;
using engine::Refusal;
using engine::StoreReader;

[[noreturn]] void refuse(const std::string& path, std::string problem, std::string reason) {
  throw Refusal(ExitCode::files, Problem{path, 0, 0, std::move(problem), std::move(reason),
                                         "compute the study again with --again, and use the new file"});
}

/// What the archive holds of it.
const std::string& text_of(const std::vector<models::File>& files, const std::string& path, const std::string& result) {
  const auto found = std::find_if(files.begin(), files.end(), [&](const models::File& f) { return f.path == path; });
  if (found == files.end()) refuse(result, fmt::format("{} is not in it", path), "The study names that file");
  return found->text;
}

/// Reads the study as it was, from the texts kept beside the answer: whatever has become of the files since.
Study study_of(const StoreReader& file, const Archived& archived, const std::string& result, Verb verb) {
  const auto text = [&](const char* name) { return file.text_attribute("/", name).value_or(""); };
  Study study = read_study_text(
      file.text("/study/text"), text("study_path"),
      [&](const std::vector<std::string>&) { return models::tables_of(archived.tables); }, verb,
      [&](const std::string& path) { return text_of(archived.draws, path, result); });
  study.digest = text("study_digest");
  study.tables_digest = text("tables_digest");
  study.passes.key = file.count_attribute("/", "key").value_or(study.passes.key);
  const std::uint64_t asked = file.count_attribute("/", "passes_asked").value_or(study.passes.count);
  if (file.whole_attribute("/", "settle_digits").value_or(0) == 0)
    study.passes.count = asked, study.passes.settle.reset();
  study.passes.keep = file.whole_attribute("/", "kept").value_or(0) != 0;
  return study;
}

Archived archived_in(const StoreReader& file, const std::string& path) {
  if (!file.has("/study/answer_exact")) refuse(path, "it holds no exact answer", "An older program wrote it");
  const std::vector<std::int64_t> bytes = file.whole_numbers("/study/answer_exact");
  try {
    return unarchived({bytes.begin(), bytes.end()});
  } catch (const std::exception&) {
    refuse(path, "its answer cannot be read", "Another version of the program wrote it");
  }
}

}  // namespace

std::unique_ptr<const Loaded> load_results(const std::string& path) {
  const StoreReader file(path);
  file.require_format(results_format, results_version);
  file.check();
  Archived archived = archived_in(file, path);
  auto loaded = std::make_unique<Loaded>();
  loaded->path = path;
  loaded->verb = file.text_attribute("/", "verb").value_or("");
  loaded->sentence = file.text_attribute("/", "verdict").value_or("");
  loaded->json = file.text("/study/answer_json");
  try {
    loaded->study = study_of(file, archived, path, loaded->verb == "size" ? Verb::size : Verb::rate);
  } catch (const Refusal& refusal) {
    if (refusal.code() != ExitCode::study) throw;
    refuse(path, "the study in it cannot be read by this version", refusal.problems().front().problem);
  }
  loaded->answer = std::move(archived.answer);
  loaded->answer.study = &loaded->study;
  return loaded;
}

}  // namespace studies
