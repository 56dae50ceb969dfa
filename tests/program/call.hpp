#pragma once
/// Runs the built program as a user would: arguments, a folder to stand in, what it printed and how it left.
#include <sys/types.h>

#include <chrono>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

namespace tests {

namespace fs = std::filesystem;

/// A new empty folder that goes with the object.
class Folder {
public:
  Folder();
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  const fs::path& path() const { return path_; }
  /// Writes a text into it; folders on the way are made.
  void write(const std::string& name, const std::string& text) const;
  /// Copies a file into it under its own name.
  void bring(const fs::path& file) const;
  /// All bytes of a file in it; a missing one fails the test.
  std::string read(const std::string& name) const;
  bool has(const std::string& name) const { return fs::exists(path_ / name); }
  /// Every file below it, as relative paths in order.
  std::vector<std::string> files() const;

private:
  fs::path path_;
};

/// What a call came to.
struct Ran {
  std::string out, err;
  int code = -1;       ///< exit code; -1 where a signal ended it
  double seconds = 0;  ///< from start to end
};

/// A program that runs.
class Running {
public:
  /// @param arguments  without the program's name
  Running(const std::vector<std::string>& arguments, const fs::path& cwd, const fs::path& program);
  ~Running();
  Running(const Running&) = delete;
  Running& operator=(const Running&) = delete;

  bool ended();
  void interrupt() const;
  /// Waits for its end.
  Ran wait();

private:
  using File = std::unique_ptr<std::FILE, int (*)(std::FILE*)>;
  File out_, err_;
  pid_t process_ = -1;
  int status_ = 0;
  bool ended_ = false;
  std::chrono::steady_clock::time_point start_;
};

Ran run(const std::vector<std::string>& arguments, const fs::path& cwd, const fs::path& program = SCREWTINY_PROGRAM);
inline Ran run(const std::vector<std::string>& arguments, const Folder& cwd) { return run(arguments, cwd.path()); }

/// All bytes of a file.
std::string bytes_of(const fs::path& file);
/// The text without its last line break, line by line.
std::vector<std::string> lines_of(const std::string& text);
/// Width on a terminal of a UTF-8 text without wide characters.
std::size_t columns(const std::string& line);
bool contains(const std::string& text, const std::string& part);
/// The text with one place replaced, which must be there.
std::string replaced(std::string text, const std::string& from, const std::string& to);

/// The gallery's studies by name.
std::vector<fs::path> gallery();

}  // namespace tests
