#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "studies/read/short_study.hpp"

namespace studies {
namespace {

bool in_a_name(char letter) { return std::isalnum(static_cast<unsigned char>(letter)) != 0 || letter == '_'; }

/// Every place where these words stand by themselves, and not within a longer name or path, replaced.
std::string replaced(std::string text, const std::string& words, const std::string& by) {
  for (std::size_t at = text.find(words); at != std::string::npos; at = text.find(words, at)) {
    const std::size_t end = at + words.size();
    const bool begins = at == 0 || !(in_a_name(text[at - 1]) || text[at - 1] == '.');
    const bool ends = end == text.size() || !in_a_name(words.back()) || !in_a_name(text[end]);
    const bool alone = begins && ends;
    if (alone) text.replace(at, words.size(), by);
    at += alone ? by.size() : words.size();
  }
  return text;
}

/// Words about the keys of a study as words about the options that said them.
std::string in_options(std::string text, const ShortStudy& study) {
  for (const ShortOption& option : short_options()) {
    const std::string name(option.name), path(option.path), key = path.substr(path.rfind('.') + 1);
    const std::string section = path.substr(0, path.find('.'));
    // One key has two options: whichever was typed.
    const bool other_typed = std::any_of(study.lines.begin(), study.lines.end(), [&](const ShortStudy::Line& line) {
      return name == "--force" && line.option == "--load";
    });
    if (other_typed) continue;
    text = replaced(text, path, name);
    text = replaced(text, key + " = ", name + " ");
    text = replaced(text, key + " in [" + section + "]", name);
  }
  for (const char* into : {" into [duty]", " into [choose]", " in [choose]"})
    if (const std::size_t at = text.find(into); at != std::string::npos) text.erase(at, std::string(into).size());
  return replaced(text, "in [scatter]", "in a study file, in [scatter]");
}

/// A size that is on no series is typed by the name of its form; a study has a table for it.
std::string own_size_in_words(std::string fix) {
  const std::string own = "a size of your own: ";
  if (const std::size_t at = fix.find(own); at != std::string::npos)
    fix = fix.substr(0, at) + "name a size of your own by its form: \"square 25x5\", \"trapezoidal 41x7\"";
  return fix;
}

engine::Problem said_of_option(const engine::Problem& problem, const ShortStudy& study) {
  const std::size_t line = static_cast<std::size_t>(problem.line);
  const bool known = line >= 1 && line <= study.lines.size() && !study.lines[line - 1].option.empty();
  const ShortStudy::Line at = known ? study.lines[line - 1] : ShortStudy::Line{"--thread", false, ""};
  std::string words = in_options(problem.problem, study);
  if (!words.starts_with(at.option + ":")) words = fmt::format("{}: {}", at.option, words);
  if (at.assumed) words += " (it was assumed)";
  return {"", 0, 0, words, in_options(problem.reason, study), own_size_in_words(in_options(problem.fix, study))};
}

}  // namespace

engine::Refusal said_of_options(const engine::Refusal& refusal, const ShortStudy& study) {
  std::vector<engine::Problem> problems;
  for (const engine::Problem& it : refusal.problems()) problems.push_back(said_of_option(it, study));
  return engine::Refusal(refusal.code(), std::move(problems));
}

Study read_short_study(const ShortStudy& study, const TableSource& tables) {
  try {
    return read_study_text(study.text(), "reckon", tables, Verb::rate);
  } catch (const engine::Refusal& refusal) {
    if (refusal.code() != engine::ExitCode::study) throw;
    throw said_of_options(refusal, study);
  }
}

}  // namespace studies
