#include "studies/run/run.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>
#include <optional>

#include "engine/base/format.hpp"
#include "studies/ask/question.hpp"
#include "studies/keep/digest.hpp"
#include "studies/keep/result_file.hpp"
#include "studies/read/reader.hpp"
#include "studies/read/vet.hpp"
#include "studies/run/asking.hpp"
#include "studies/run/blank.hpp"
#include "studies/run/compare.hpp"
#include "studies/run/csv.hpp"
#include "studies/run/data.hpp"
#include "studies/run/reckon.hpp"
#include "studies/run/sheet.hpp"
#include "studies/say/json.hpp"
#include "studies/say/progress.hpp"
#include "studies/say/sentences.hpp"
#include "studies/say/summary.hpp"
#include "studies/say/terminal.hpp"

namespace studies {
namespace {

namespace fs = std::filesystem;
using engine::ExitCode;
using engine::Refusal;

/// A run over several studies.
struct Session {
  const Options& options;
  const std::atomic<bool>& interrupted;
  bool several = false;
  std::vector<RunLine> lines;
  std::map<std::string, std::string> written;  ///< results file → the study that wrote it in this run
};

/// A study with what the command line overrules.
Study read(const Session& session, const std::string& path) {
  const Options& options = session.options;
  const Verb verb = options.verb == "vet" ? Verb::vet : options.verb == "size" ? Verb::size : Verb::rate;
  Study study = read_study(path, data_folder("tables"), verb);
  study.digest = sha256_hex(study.text);
  study.tables_digest = sha256_hex(study.tables.text);
  if (options.key) study.passes.key = *options.key;
  if (options.passes) study.passes.count = *options.passes, study.passes.settle.reset();
  study.passes.keep = study.passes.keep || options.keep;
  return study;
}

/// Two studies of one run must not write the same file.
void claim(Session& session, const std::string& results, const std::string& study) {
  const auto [place, first] = session.written.emplace(results, study);
  if (first) return;
  const bool twice = place->second == study;
  throw Refusal(ExitCode::files,
                engine::Problem{study, 0, 0,
                                twice ? "named twice"
                                      : fmt::format("its results file {} is that of {} too", results, place->second),
                                twice ? "" : "results are named after the study's file",
                                twice ? "name it once" : "rename one, or run them with different --out"});
}

/// A stored answer with the study's path as it is typed now.
std::string renamed(const std::string& answer, const std::string& path) {
  nlohmann::ordered_json object = nlohmann::ordered_json::parse(answer);
  object["study"] = path;
  return object.dump();
}

int say_finished(Session& session, const std::string& path, const std::string& results, const FinishedRun& run) {
  if (session.options.json)
    fmt::print("{}\n", renamed(run.answer_json, path));
  else if (session.options.quiet && !session.several)
    fmt::print("{}\n", run.sentence);
  else if (!session.options.quiet)
    fmt::print("{}\nFinished before: {} (--again computes it anew).\n\n", run.answer_text, results);
  session.lines.push_back({path, run.line_answer + ", before", run.pick, run.line_mass, run.line_tightest, results});
  return run.exit_code;
}

int say_answer(Session& session, const Answer& answer, const std::string& json, const std::string& text) {
  if (session.options.json)
    fmt::print("{}\n", json);
  else if (session.options.quiet && !session.several)
    fmt::print("{}\n", verdict_sentence(answer));
  else if (!session.options.quiet)
    fmt::print("{}\n", text);
  session.lines.push_back(run_line(answer));
  return answer.exit_code();
}

int compute(Session& session, const std::string& path) {
  const Study study = read(session, path);
  const std::string results = results_path(session.options.out, path);
  claim(session, results, path);
  const std::string csv = session.options.csv ? csv_path(results) : "";
  if (!csv.empty()) check_csv_path(csv);
  const RunId id = run_id(study, session.options.verb, session.options.scan, version());
  if (!session.options.again)
    if (const auto run = finished(results, id)) {
      if (!csv.empty()) write_csv(csv, study, renamed(run->answer_json, path));
      return say_finished(session, path, results, *run);
    }
  check_results_path(results);
  Answer answer;
  {
    Progress progress(isatty(STDERR_FILENO) && !session.options.quiet, fs::path(path).stem().string());
    answer = session.options.verb == "size" ? size(study, asking(session.options, session.interrupted, progress))
                                            : rate(study, asking(session.options, session.interrupted, progress));
  }
  answer.results_path = results;
  const std::string json = answer_json(answer), text = terminal_text(answer, false);
  const RunLine line = run_line(answer);
  write_results(results, answer, id, {json, verdict_sentence(answer), text, line.answer, line.mass, line.tightest});
  if (!csv.empty()) write_csv(csv, study, json);
  return say_answer(session, answer, json, colour() ? terminal_text(answer, true) : text);
}

/// A results file: every checksum and the version are checked, and what it says is said again.
int vet_results(const Session& session, const std::string& path) {
  const FinishedRun run = read_results(path);
  if (session.options.json)
    fmt::print("{}\n", run.answer_json);
  else
    fmt::print("{}: whole, every checksum right. {}: {}\n", path, run.title, run.sentence);
  return 0;
}

int vet(Session& session, const std::string& path) {
  if (fs::path(path).extension() == ".h5") return vet_results(session, path);
  const Study study = read(session, path);
  if (session.options.json)
    fmt::print("{}\n", vet_json(study));
  else if (session.options.quiet)
    fmt::print("{}: no errors\n", path);
  else
    fmt::print("{}\n", vet_text(study));
  return 0;
}

int refuse(Session& session, const std::string& path, const Refusal& refusal) {
  if (session.options.json) fmt::print("{}\n", errors_json(path, refusal));
  fmt::print(stderr, "{}\n", refusal.what());
  session.lines.push_back(run_line(path, refusal));
  return static_cast<int>(refusal.code());
}

int one(Session& session, const std::string& path) {
  try {
    return session.options.verb == "vet" ? vet(session, path) : compute(session, path);
  } catch (const Refusal& refusal) {
    return refuse(session, path, refusal);
  }
}

int blank(const std::string& name) {
  const std::optional<std::string> study = blank_study(name);
  if (study) return fmt::print("{}", *study), 0;
  fmt::print(stderr, "No blank study '{}'. Fix: choose vise, press, jack, puller, clamp or gate.\n", name);
  return static_cast<int>(ExitCode::usage);
}

}  // namespace

std::vector<std::string> study_files(const std::vector<std::string>& arguments) {
  std::vector<std::string> files;
  for (const std::string& argument : arguments) {
    if (!fs::is_directory(argument)) {
      files.push_back(argument);
      continue;
    }
    std::vector<std::string> inside;
    for (const fs::directory_entry& entry : fs::directory_iterator(argument))
      if (entry.path().extension() == ".toml") inside.push_back(entry.path().string());
    if (inside.empty())
      throw Refusal(ExitCode::files, engine::Problem{argument, 0, 0, "no study in this folder",
                                                     "no file there ends in .toml", "name a study or another folder"});
    std::sort(inside.begin(), inside.end());
    files.insert(files.end(), inside.begin(), inside.end());
  }
  return files;
}

int run(const Options& options, const std::atomic<bool>& interrupted) {
  if (options.verb == "blank") return blank(options.studies.front());
  if (options.verb == "reckon") return reckon(options, interrupted);
  if (options.verb == "compare") return compare(options, interrupted);
  if (options.verb == "sheet") return write_sheets(options, interrupted);
  Session session{options, interrupted, false, {}, {}};
  int code = 0;
  try {
    const std::vector<std::string> files = study_files(options.studies);
    session.several = files.size() > 1;
    for (const std::string& file : files) {
      code = std::max(code, one(session, file));
      std::fflush(stdout);
    }
  } catch (const Refusal& refusal) {
    code = std::max(code, refuse(session, options.studies.front(), refusal));
  }
  if (session.several && options.verb != "vet") {
    std::FILE* const where = options.json ? stderr : stdout;
    if (!options.json || !options.quiet) fmt::print(where, "{}", summary_table(session.lines));
  }
  return code;
}

}  // namespace studies
