#include "studies/sheet/figure_files.hpp"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "engine/base/error.hpp"
#include "studies/sheet/page.hpp"

extern char** environ;

namespace studies::sheet {
namespace {

using engine::ExitCode;
using engine::Problem;
using engine::Refusal;

[[noreturn]] void refuse(ExitCode code, std::string problem, std::string reason, std::string fix) {
  throw Refusal(code, Problem{"--figures", 0, 0, std::move(problem), std::move(reason), std::move(fix)});
}

/// A folder that is gone with its owner.
class Scratch {
public:
  Scratch() {
    std::string name = (std::filesystem::temp_directory_path() / "screwtiny-XXXXXX").string();
    if (!mkdtemp(name.data()))
      refuse(ExitCode::files, "no folder can be made for the drawing",
             "the folder for temporary files does not take one", "set TMPDIR to a folder that can be written");
    folder_ = name;
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch() {
    std::error_code none;
    std::filesystem::remove_all(folder_, none);
  }
  std::string operator/(const char* name) const { return folder_ + "/" + name; }

private:
  std::string folder_;
};

void put(const std::string& path, std::string_view text) {
  std::ofstream file(path, std::ios::binary);
  file << text << std::flush;
  if (!file) refuse(ExitCode::files, path + " cannot be written", "", "make room, or set TMPDIR to another folder");
}

std::string contents(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream all;
  all << file.rdbuf();
  return all.str();
}

/// Runs `node script` from one file into another.
/// @return its exit code; 127 where there is no such program
int run_node(const std::string& script, const std::string& in, const std::string& out, const std::string& log) {
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, 0, in.c_str(), O_RDONLY, 0);
  posix_spawn_file_actions_addopen(&actions, 1, out.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
  posix_spawn_file_actions_addopen(&actions, 2, log.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
  std::string program = "node", argument = script;
  char* arguments[] = {program.data(), argument.data(), nullptr};
  pid_t child = 0;
  const int failed = posix_spawnp(&child, "node", &actions, nullptr, arguments, environ);
  posix_spawn_file_actions_destroy(&actions);
  if (failed != 0) return 127;
  int status = 0;
  while (waitpid(child, &status, 0) < 0 && errno == EINTR) {
  }
  return WIFEXITED(status) ? WEXITSTATUS(status) : 128;
}

Json drawn(const Json& data, const Bundle& bundle) {
  const Scratch scratch;
  put(scratch / "figures.cjs", bundle.figures);
  put(scratch / "data.json", data.dump(-1, ' ', false, Json::error_handler_t::replace));
  const int code = run_node(scratch / "figures.cjs", scratch / "data.json", scratch / "svg.json", scratch / "log");
  if (code == 127)
    refuse(ExitCode::usage, "there is no 'node' here", "figures as files are drawn by Node.js",
           "install Debian's package nodejs, or leave --figures out: the sheet needs none");
  const Json svg = Json::parse(contents(scratch / "svg.json"), nullptr, false);
  if (code != 0 || !svg.is_object())
    refuse(ExitCode::files, "the figures could not be drawn", contents(scratch / "log").substr(0, 400),
           "leave --figures out, and send this");
  return svg;
}

std::string cell(const std::string& text) {
  if (text.find_first_of(",\"\n\r") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text) quoted += c == '"' ? "\"\"" : std::string(1, c);
  return quoted + "\"";
}

std::string csv_line(const std::vector<std::string>& cells) {
  std::string text;
  for (const std::string& it : cells) text += (text.empty() ? "" : ",") + cell(it);
  return text + "\n";
}

}  // namespace

std::string csv(const Table& table) {
  std::string text = csv_line(table.head);
  for (const auto& row : table.rows) text += csv_line(row);
  return text;
}

std::vector<FigureFile> figure_files(const std::vector<Figure>& figures, const Bundle& bundle) {
  Json data = figure_data(figures);
  for (const Figure& figure : figures) data["alt"][figure.id] = figure.alt;
  const Json svg = figures.empty() ? Json::object() : drawn(data, bundle);
  std::vector<FigureFile> files;
  for (const Figure& figure : figures) {
    if (svg.contains(figure.id)) files.push_back({figure.id + ".svg", svg.at(figure.id).get<std::string>()});
    files.push_back({figure.id + ".csv", csv(figure.numbers)});
  }
  return files;
}

}  // namespace studies::sheet
