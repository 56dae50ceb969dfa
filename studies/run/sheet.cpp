#include "studies/run/sheet.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <set>
#include <thread>

#include "engine/store/part_file.hpp"
#include "studies/say/json.hpp"
#include "studies/say/json_value.hpp"
#include "studies/sheet/figure_files.hpp"
#include "studies/sheet/figures.hpp"
#include "studies/sheet/page.hpp"
#include "studies/sheet/summary_page.hpp"

namespace studies {
namespace {

namespace fs = std::filesystem;
using engine::ExitCode;
using engine::Problem;
using engine::Refusal;
using say::Json;

const sheet::Bundle& bundle() {
  const sheet::Bundle* const made = sheet::bundle();
  if (made) return *made;
  throw Refusal(ExitCode::usage,
                Problem{"", 0, 0, "this program was built without its sheets",
                        "they are drawn by a script that is made with Node.js when the program is built",
                        "install Debian's packages nodejs and npm, and build it again"});
}

std::string today() {
  const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  std::tm local{};
  localtime_r(&now, &local);
  char text[16];
  std::strftime(text, sizeof text, "%Y-%m-%d", &local);
  return text;
}

/// A file of this name that no sheet of ours was, is not written over.
void check_ours(const std::string& path) {
  std::ifstream old(path, std::ios::binary);
  if (!old) return;
  std::string head(2048, '\0');
  old.read(head.data(), static_cast<std::streamsize>(head.size()));
  head.resize(static_cast<std::size_t>(old.gcount()));
  if (head.empty() || head.find("name=\"generator\" content=\"screwtiny") != std::string::npos) return;
  throw Refusal(ExitCode::files, Problem{path, 0, 0, "another file has this name", "it is no sheet and would be lost",
                                         "move it away, or give another folder with --out"});
}

struct Session {
  const Options& options;
  engine::Running running;
  std::vector<sheet::SummaryRow> rows;
  std::set<fs::path> written;  ///< in this call
};

/// Writes a file that nothing else of this call is written to.
void write_once(Session& session, const std::string& path, const std::string& text) {
  if (!session.written.insert(fs::absolute(path).lexically_normal()).second)
    throw Refusal(ExitCode::files, Problem{path, 0, 0, "two files of this call would have this name",
                                           "sheets and figures are named after their results file",
                                           "rename one, or make their sheets one by one into folders of their own"});
  engine::write_whole(path, text);
}

std::string sheet_path(const Options& options, const std::string& result) {
  const fs::path from(result);
  const fs::path folder = options.sheet.out.empty() ? from.parent_path() : fs::path(options.sheet.out);
  return (folder / (from.stem().string() + ".html")).string();
}

/// Every figure as SVG and CSV, in a folder of the result's name.
std::vector<std::string> write_figures(Session& session, const std::string& result,
                                       const std::vector<sheet::Figure>& figures) {
  std::vector<std::string> written;
  const fs::path folder = fs::path(session.options.sheet.figures) / fs::path(result).stem();
  for (const sheet::FigureFile& file : sheet::figure_files(figures, bundle())) {
    const std::string path = (folder / file.name).string();
    write_once(session, path, file.text);
    written.push_back(path);
  }
  return written;
}

void say_written(const Session& session, const std::string& result, const std::string& path,
                 const std::vector<std::string>& figures) {
  if (session.options.json)
    fmt::print("{}\n", say::one_line(Json{{"program", "screwtiny"},
                                          {"version", version()},
                                          {"result", result},
                                          {"sheet", path},
                                          {"figures", figures}}));
  else if (!session.options.quiet)
    fmt::print("{}{}\n", path,
               figures.empty() ? ""
                               : fmt::format(", and {} figures in {}", figures.size() / 2,
                                             fs::path(figures.front()).parent_path().string()));
}

void one(Session& session, const std::string& result) {
  const std::string path = sheet_path(session.options, result);
  check_ours(path);
  const auto loaded = load_results(result);
  const Answer nearest = loaded->answer.pick ? Answer{} : sheet::judge_nearest(loaded->answer, session.running);
  const Answer& answer = loaded->answer.pick ? loaded->answer : nearest;
  std::optional<sheet::Scene> scene;
  std::vector<sheet::Figure> figures;
  if (answer.pick) {
    scene.emplace(sheet::scene(answer, session.running));
    figures = sheet::all_figures(*scene, session.running);
  }
  const SheetOptions& typed = session.options.sheet;
  const sheet::Shown shown{*loaded,
                           answer,
                           scene ? &*scene : nullptr,
                           figures,
                           {typed.owner, typed.number, typed.revision, typed.made_by, today()}};
  write_once(session, path, sheet::page(shown, bundle()));
  session.rows.push_back(sheet::summary_row(*loaded, path));
  const std::vector<std::string> files =
      typed.figures.empty() ? std::vector<std::string>() : write_figures(session, result, figures);
  say_written(session, result, path, files);
}

int refuse(const Session& session, const std::string& result, const Refusal& refusal) {
  if (session.options.json) fmt::print("{}\n", errors_json(result, refusal));
  fmt::print(stderr, "{}\n", refusal.what());
  return static_cast<int>(refusal.code());
}

}  // namespace

int write_sheets(const Options& options, const std::atomic<bool>& interrupted) {
  Session session{options, {std::max(1u, std::thread::hardware_concurrency()), {}, &interrupted}, {}, {}};
  int code = 0;
  for (const std::string& result : options.studies) {
    try {
      one(session, result);
    } catch (const Refusal& refusal) {
      code = std::max(code, refuse(session, result, refusal));
    }
  }
  if (options.sheet.summary.empty() || session.rows.empty()) return code;
  try {
    check_ours(options.sheet.summary);
    write_once(session, options.sheet.summary,
               sheet::summary_page(session.rows, options.sheet.summary, bundle(), today()));
    if (!options.quiet && !options.json) fmt::print("{}\n", options.sheet.summary);
  } catch (const Refusal& refusal) {
    code = std::max(code, refuse(session, options.sheet.summary, refusal));
  }
  return code;
}

}  // namespace studies
