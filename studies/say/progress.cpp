#include "studies/say/progress.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "studies/say/words.hpp"

namespace studies {
namespace {

constexpr auto between_lines = std::chrono::milliseconds(200);
constexpr double seconds_before_guess = 2;
constexpr std::size_t line_width = 79;  // a full line would wrap on some terminals

std::string about(double seconds) {
  if (seconds < 60) return fmt::format("{} s", std::max(1.0, std::round(seconds)));
  if (seconds < 3600) return fmt::format("{} min", std::round(seconds / 60));
  return fmt::format("{} h", std::round(seconds / 360) / 10);
}

}  // namespace

std::string progress_words(const std::string& label, double done_share, double seconds) {
  const double done = std::isfinite(done_share) ? std::clamp(done_share, 0.0, 1.0) : 0.0;
  std::string words = fmt::format("{}: {} of 100 done", say::cleaned(label), std::floor(100 * done));
  if (seconds >= seconds_before_guess && done > 0 && done < 1)
    words += fmt::format(", about {} left", about(seconds * (1 - done) / done));
  return say::shortened(words, line_width);
}

Progress::Progress(bool enabled, std::string label, std::FILE* stream)
    : enabled_(enabled), label_(std::move(label)), stream_(stream), written_(began_ - between_lines) {}

Progress::~Progress() { wipe(); }

void Progress::report(double done_share) {
  if (!enabled_) return;
  const std::lock_guard lock(mutex_);
  const Clock::time_point now = Clock::now();
  if (now - written_ < between_lines) return;
  written_ = now;
  write_over(progress_words(label_, done_share, std::chrono::duration<double>(now - began_).count()));
}

void Progress::wipe() {
  if (!enabled_) return;
  const std::lock_guard lock(mutex_);
  if (shown_columns_ == 0) return;
  write_over("");
  std::fputc('\r', stream_);
  std::fflush(stream_);
}

void Progress::write_over(const std::string& line) {
  const std::size_t width = say::columns(line);
  const std::string blanks(shown_columns_ > width ? shown_columns_ - width : 0, ' ');
  std::fputs(("\r" + line + blanks).c_str(), stream_);
  std::fflush(stream_);
  shown_columns_ = width;
}

}  // namespace studies
