#pragma once
/// How far a long computation is, on one line that cleans itself up.
#include <chrono>
#include <cstddef>
#include <cstdio>
#include <mutex>
#include <string>

namespace studies {

/// The line for a share done after some time: "press: 43 of 100 done, about 12 s left"; no time left in the first two
/// seconds.
std::string progress_words(const std::string& label, double done_share, double seconds);

/// Writes at most five lines a second to a terminal, each over the last; safe to call from several threads. The line is
/// wiped when this ends.
class Progress {
public:
  /// @param enabled  false: nothing is ever written (a caller asks whether the stream is a terminal)
  Progress(bool enabled, std::string label, std::FILE* stream = stderr);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  /// @param done_share  0 to 1
  void report(double done_share);
  /// Wipes the line now; the next report writes it again.
  void wipe();

private:
  using Clock = std::chrono::steady_clock;

  void write_over(const std::string& line);

  const bool enabled_;
  const std::string label_;
  std::FILE* const stream_;
  const Clock::time_point began_ = Clock::now();
  std::mutex mutex_;
  Clock::time_point written_;
  std::size_t shown_columns_ = 0;
};

}  // namespace studies
