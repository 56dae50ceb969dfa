#include "tests/program/call.hpp"

#include <catch2/catch.hpp>

#include <fcntl.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <sstream>

namespace tests {
namespace {

std::string content(std::FILE* file) {
  std::rewind(file);
  std::string text;
  char piece[65536];
  while (const std::size_t n = std::fread(piece, 1, sizeof piece, file)) text.append(piece, n);
  return text;
}

}  // namespace

Folder::Folder() {
  std::string name = (fs::temp_directory_path() / "screwtiny_program_XXXXXX").string();
  if (!::mkdtemp(name.data())) throw std::runtime_error("no temporary folder");
  path_ = name;
}

Folder::~Folder() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

void Folder::write(const std::string& name, const std::string& text) const {
  fs::create_directories((path_ / name).parent_path());
  std::ofstream(path_ / name, std::ios::binary) << text;
}

void Folder::bring(const fs::path& file) const { fs::copy_file(file, path_ / file.filename()); }

std::string Folder::read(const std::string& name) const { return bytes_of(path_ / name); }

std::vector<std::string> Folder::files() const {
  std::vector<std::string> all;
  for (const fs::directory_entry& entry : fs::recursive_directory_iterator(path_))
    if (!entry.is_directory()) all.push_back(fs::relative(entry.path(), path_).string());
  std::sort(all.begin(), all.end());
  return all;
}

Running::Running(const std::vector<std::string>& arguments, const fs::path& cwd, const fs::path& program)
    : out_(std::tmpfile(), &std::fclose), err_(std::tmpfile(), &std::fclose), start_(std::chrono::steady_clock::now()) {
  std::vector<std::string> words = {program.string()};
  words.insert(words.end(), arguments.begin(), arguments.end());
  std::vector<char*> argv;
  for (std::string& word : words) argv.push_back(word.data());
  argv.push_back(nullptr);
  process_ = ::fork();
  if (process_ < 0) throw std::runtime_error("cannot fork");
  if (process_ > 0) return;
  const int nothing = ::open("/dev/null", O_RDONLY);
  if (::chdir(cwd.c_str()) == 0 && ::dup2(nothing, STDIN_FILENO) >= 0 &&
      ::dup2(::fileno(out_.get()), STDOUT_FILENO) >= 0 && ::dup2(::fileno(err_.get()), STDERR_FILENO) >= 0)
    ::execv(argv[0], argv.data());
  ::_exit(127);
}

Running::~Running() {
  if (ended()) return;
  ::kill(process_, SIGKILL);
  ::waitpid(process_, &status_, 0);
}

bool Running::ended() {
  if (!ended_) ended_ = ::waitpid(process_, &status_, WNOHANG) == process_;
  return ended_;
}

void Running::interrupt() const { ::kill(process_, SIGINT); }

Ran Running::wait() {
  if (!ended_) ended_ = ::waitpid(process_, &status_, 0) == process_;
  const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start_;
  return {content(out_.get()), content(err_.get()), WIFEXITED(status_) ? WEXITSTATUS(status_) : -1, taken.count()};
}

Ran run(const std::vector<std::string>& arguments, const fs::path& cwd, const fs::path& program) {
  return Running(arguments, cwd, program).wait();
}

std::string bytes_of(const fs::path& path) {
  INFO(path);
  std::ifstream file(path, std::ios::binary);
  REQUIRE(file);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

std::size_t columns(const std::string& line) {
  return static_cast<std::size_t>(std::count_if(line.begin(), line.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

bool contains(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  if (at == std::string::npos) throw std::runtime_error("not there to be replaced: " + from);
  return text.replace(at, from.size(), to);
}

std::vector<fs::path> gallery() {
  std::vector<fs::path> studies;
  for (const fs::directory_entry& entry : fs::directory_iterator(fs::path(SCREWTINY_SOURCE) / "studies" / "gallery"))
    if (entry.path().extension() == ".toml") studies.push_back(entry.path());
  std::sort(studies.begin(), studies.end());
  return studies;
}

}  // namespace tests
