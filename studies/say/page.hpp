#pragma once
/// A page of a terminal as it is written.
#include <cstddef>
#include <string>

#include "studies/ask/study.hpp"

namespace studies::say {

/// ANSI codes of what a line is.
inline constexpr const char* bold = "1";
inline constexpr const char* good = "32";
inline constexpr const char* bad = "31";
inline constexpr const char* mind = "33";
inline constexpr const char* ordinary = "";

/// Lines one after the other, coloured only where asked.
class Page {
public:
  explicit Page(bool colour) : colour_(colour) {}

  /// Words in lines that fit, as `wrapped` breaks them; none for no words.
  void paragraph(const std::string& words, const char* code = ordinary, std::size_t hang = 0,
                 const std::string& first = "");
  void line(const std::string& words, const char* code = ordinary);
  /// Its level in front, and in brackets what triggered it.
  void caution(const Caution& caution);
  /// One empty line between blocks, however many are asked for.
  void gap();

  std::string text() const;

private:
  bool colour_;
  std::string text_;
};

}  // namespace studies::say
