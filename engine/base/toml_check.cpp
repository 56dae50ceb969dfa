#include "engine/base/toml_check.hpp"

#include "engine/base/error.hpp"
#include "engine/base/utf8.hpp"

namespace engine {
namespace {

constexpr int most_key_parts = 16;

[[noreturn]] void refuse(const std::string& file, Place place, const std::string& problem, const std::string& reason,
                         const std::string& fix) {
  throw Refusal(ExitCode::study, {file, place.line, place.column, problem, reason, fix});
}

/// Walks over a text and knows at each character whether it stands in quotes or a comment.
class Walk {
public:
  Walk(const std::string& text, const std::string& file) : text_(text), file_(file) {}

  CheckedText run() {
    while (at_ < text_.size()) {
      const std::size_t length = character_length(text_, at_);
      if (length == 0)
        refuse(file_, place_, "A character here is not UTF-8", "A study is a text in UTF-8",
               "save the file as UTF-8 in the editor");
      if (length > 1 && !hidden()) {
        checked_.strays.push_back(place_);
        checked_.text += '?';
        step(length);
      } else {
        const std::size_t count = length == 1 ? follow() : length;
        checked_.text += text_.substr(at_, count);
        for (std::size_t i = 0; i < count; i += length) step(length);
      }
    }
    return checked_;
  }

private:
  bool hidden() const { return comment_ || !quote_.empty(); }
  bool ahead(const std::string& words) const { return text_.compare(at_, words.size(), words) == 0; }

  void step(std::size_t bytes) {
    const bool end_of_line = text_[at_] == '\n';
    place_ = end_of_line ? Place{place_.line + 1, 1} : Place{place_.line, place_.column + 1};
    at_ += bytes;
  }

  /// How many ASCII characters belong together here; opens and closes quotes and comments.
  std::size_t follow() {
    const char c = text_[at_];
    if (c == '\n') {
      comment_ = false;
      if (quote_.size() == 1) quote_.clear();
    }
    if (comment_) return 1;
    if (!quote_.empty()) return follow_quote(c);
    if (c == '#') comment_ = true;
    if (c == '"' || c == '\'') {
      const std::string three(3, c);
      quote_ = ahead(three) ? three : std::string(1, c);
      return quote_.size();
    }
    count_parts(c);
    return 1;
  }

  std::size_t follow_quote(char c) {
    if (c == '\\' && quote_[0] == '"') {
      const char next = at_ + 1 < text_.size() ? text_[at_ + 1] : '\0';
      return next == '\\' || next == '"' ? 2 : 1;
    }
    if (!ahead(quote_)) return 1;
    std::size_t length = quote_.size();
    // Up to two quotes more still belong to a text in three quotes.
    if (length == 3)
      while (length < 5 && at_ + length < text_.size() && text_[at_ + length] == c) ++length;
    quote_.clear();
    return length;
  }

  void count_parts(char c) {
    if (c == '=' || c == ',' || c == '[' || c == '{' || c == '\n') parts_ = 1;
    if (c == '.' && ++parts_ > most_key_parts)
      refuse(file_, place_, "The key here has more than " + std::to_string(most_key_parts) + " parts", "",
             "use the keys of the manual: none has more than three parts");
  }

  const std::string& text_;
  const std::string& file_;
  std::size_t at_ = 0;
  Place place_{1, 1};
  std::string quote_;
  bool comment_ = false;
  int parts_ = 1;
  CheckedText checked_;
};

}  // namespace

CheckedText check_toml(std::string text, const std::string& file) {
  if (text.compare(0, 3, "\xEF\xBB\xBF") == 0) text.erase(0, 3);
  if (text.find_first_not_of(" \t\r\n") == std::string::npos)
    refuse(file, {}, "The file is empty", "", "write a study into it, or start from one of the examples");
  if (text.compare(0, 2, "\xFF\xFE") == 0 || text.compare(0, 2, "\xFE\xFF") == 0)
    refuse(file, {1, 1}, "The file is UTF-16", "A study is a text in UTF-8", "save the file as UTF-8 in the editor");
  return Walk(text, file).run();
}

std::string line_of(const std::string& text, int line) {
  std::size_t start = 0;
  for (int i = 1; i < line; ++i) {
    start = text.find('\n', start);
    if (start == std::string::npos) return "";
    ++start;
  }
  std::string found = text.substr(start, text.find('\n', start) - start);
  if (!found.empty() && found.back() == '\r') found.pop_back();
  return found;
}

}  // namespace engine
