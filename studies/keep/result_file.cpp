#include "studies/keep/result_file.hpp"

#include <filesystem>

#include "engine/base/error.hpp"
#include "engine/store/part_file.hpp"
#include "engine/store/reader.hpp"
#include "engine/store/writer.hpp"
#include "studies/keep/archive.hpp"
#include "studies/keep/digest.hpp"
#include "studies/keep/schema.hpp"
#include "studies/keep/sections.hpp"

namespace studies {
namespace {

using engine::StoreReader;
using engine::StoreWriter;

std::string name_of(const std::optional<models::Must>& must) {
  return must ? std::string(models::row(*must).name) : std::string();
}

void write_root(StoreWriter& file, const Answer& answer, const RunId& run, const Words& words) {
  const auto put = [&](const char* name, const auto& value) { file.attribute("/", name, value); };
  put("Conventions", std::string("CF-1.8"));
  put("format", std::string(results_format));
  put("format_version", results_version);
  put("program", std::string("screwtiny"));
  put("program_version", run.program_version);
  put("title", answer.study->title);
  put("study_path", answer.study->path);
  put("verb", run.verb);
  put("study_digest", run.study_digest);
  put("tables_digest", run.tables_digest);
  put("answer_digest", sha256_hex(words.json));
  put("plan", run.plan);
  put("key", run.key);
  put("passes_asked", run.passes);
  put("settle_digits", std::int64_t{run.settle_digits});
  put("passes", answer.passes);
  put("kept", std::int64_t{run.keep});
  put("scan", std::int64_t{run.scan});
  put("exit_code", std::int64_t{answer.exit_code()});
  put("verdict", words.sentence);
  put("pick", answer.pick ? answer.pick->designation : std::string());
  if (answer.pick) put("mass", answer.pick->mass);
  put("governs", name_of(answer.governs));
  put("tightest", name_of(answer.tightest));
  put("line_answer", words.few);
  put("line_mass", words.mass);
  put("line_tightest", words.tightest);
  if (!answer.settling) return;
  put("settled", std::int64_t{answer.settling->settled});
  put("batches", answer.settling->batches);
}

void write_study(StoreWriter& file, const Answer& answer, const Words& words) {
  const Study& study = *answer.study;
  file.put(results_row("/study/text"), std::vector<std::string>{study.text});
  file.put(results_row("/study/tables"), std::vector<std::string>{study.tables.text});
  file.put(results_row("/study/answer_json"), std::vector<std::string>{words.json});
  file.put(results_row("/study/answer_text"), std::vector<std::string>{words.text});
  const std::vector<std::uint8_t> exact = archive(answer);
  file.dimension("/study", "byte", exact.size());
  file.put(results_row("/study/answer_exact"), exact);
}

bool is_of(const StoreReader& file, const RunId& run) {
  const auto text = [&](const char* name) { return file.text_attribute("/", name); };
  const auto count = [&](const char* name) { return file.count_attribute("/", name); };
  return text("study_digest") == run.study_digest && text("tables_digest") == run.tables_digest &&
         text("verb") == run.verb && text("plan") == run.plan && count("key") == run.key &&
         count("passes_asked") == run.passes &&
         count("settle_digits").value_or(0) == static_cast<std::uint64_t>(run.settle_digits) &&
         count("kept") >= std::uint64_t{run.keep} && count("scan") == std::uint64_t{run.scan} &&
         text("program_version") == run.program_version;
}

FinishedRun outcome(const StoreReader& file) {
  const auto text = [&](const char* name) { return file.text_attribute("/", name).value_or(""); };
  FinishedRun run;
  run.exit_code = static_cast<int>(file.whole_attribute("/", "exit_code").value_or(1));
  run.title = text("title");
  run.sentence = text("verdict");
  run.answer_json = file.text("/study/answer_json");
  run.answer_text = file.text("/study/answer_text");
  run.pick = text("pick");
  run.mass = file.number_attribute("/", "mass");
  run.governs = text("governs");
  run.tightest = text("tightest");
  run.line_answer = text("line_answer");
  run.line_mass = text("line_mass");
  run.line_tightest = text("line_tightest");
  run.passes = file.count_attribute("/", "passes").value_or(0);
  return run;
}

}  // namespace

RunId run_id(const Study& study, const std::string& verb, bool scan, const std::string& program_version) {
  const auto& settle = study.passes.settle;
  return {study.digest,
          study.tables_digest,
          verb,
          name(study.passes.plan),
          study.passes.key,
          settle ? settle->at_most : study.passes.count,
          settle ? settle->digits : 0,
          study.passes.keep,
          scan,
          program_version};
}

std::string results_path(const std::string& out_dir, const std::string& study_path) {
  return (std::filesystem::path(out_dir) / (std::filesystem::path(study_path).stem().string() + ".h5")).string();
}

void check_results_path(const std::string& path) {
  engine::check_writable(path);
  std::optional<std::string> format;
  try {
    format = StoreReader(path).text_attribute("/", "format").value_or("");
  } catch (const engine::Refusal&) {
    return;  // nothing there, or nothing that could be lost
  }
  if (*format != results_format)
    throw engine::Refusal(engine::ExitCode::files, engine::Problem{path, 0, 0, "another HDF5 file has this name",
                                                                   "it is not a results file and would be lost",
                                                                   "move it away, or give another folder with --out"});
}

void write_results(const std::string& path, const Answer& answer, const RunId& run, const Words& words) {
  StoreWriter file(path);
  write_root(file, answer, run, words);
  write_study(file, answer, words);
  write_candidates(file, answer);
  write_trade_off(file, answer);
  write_passes(file, answer);
  write_summary(file, answer);
  write_rare(file, answer);
  write_window(file, answer);
  write_worth(file, answer);
  write_sensitivity(file, answer);
  file.commit();
}

std::optional<FinishedRun> finished(const std::string& path, const RunId& run) try {
  const StoreReader file(path);
  file.require_format(results_format, results_version);
  if (!is_of(file, run)) return std::nullopt;
  file.check();
  return outcome(file);
} catch (const engine::Refusal&) {
  return std::nullopt;
}

FinishedRun read_results(const std::string& path) {
  const StoreReader file(path);
  file.require_format(results_format, results_version);
  file.check();
  return outcome(file);
}

}  // namespace studies
