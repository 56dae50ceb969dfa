#include "studies/say/page.hpp"

#include <fmt/format.h>

#include "studies/say/words.hpp"
#include "studies/say/wrap.hpp"

namespace studies::say {

void Page::paragraph(const std::string& words, const char* code, std::size_t hang, const std::string& first) {
  for (const std::string& one : wrapped(words, hang, first)) line(one, code);
}

void Page::line(const std::string& words, const char* code) {
  text_ += colour_ && *code != '\0' ? fmt::format("\033[{}m{}\033[0m\n", code, words) : words + "\n";
}

void Page::caution(const Caution& caution) {
  constexpr std::size_t level_columns = 9;
  const std::string why = caution.why.empty() ? "" : " (" + without_stop(caution.why) + ")";
  std::string level = name(caution.level);
  level.resize(level_columns, ' ');
  paragraph(caution.text + why, caution.level >= Level::warning ? bad : mind, level_columns, level);
}

void Page::gap() {
  if (!text_.empty() && !text_.ends_with("\n\n")) text_ += "\n";
}

std::string Page::text() const { return text_.ends_with("\n\n") ? text_.substr(0, text_.size() - 1) : text_; }

}  // namespace studies::say
