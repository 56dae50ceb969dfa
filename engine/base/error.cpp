#include "engine/base/error.hpp"

namespace engine {
namespace {

std::string sentence(const std::string& words) {
  if (words.empty()) return words;
  const char last = words.back();
  return last == '.' || last == '?' || last == '!' ? words : words + ".";
}

std::string all(const std::vector<Problem>& problems) {
  std::string lines;
  for (const Problem& problem : problems) lines += (lines.empty() ? "" : "\n") + text(problem);
  return lines;
}

}  // namespace

std::string text(const Problem& problem) {
  std::string words = problem.file;
  if (problem.line > 0) words += ":" + std::to_string(problem.line);
  if (problem.line > 0 && problem.column > 0) words += ":" + std::to_string(problem.column);
  if (!words.empty()) words += ": ";
  words += sentence(problem.problem);
  if (!problem.reason.empty()) words += " " + sentence(problem.reason);
  if (!problem.fix.empty()) words += " Fix: " + sentence(problem.fix);
  return words;
}

Refusal::Refusal(ExitCode code, std::vector<Problem> problems)
    : std::runtime_error(all(problems)), code_(code), problems_(std::move(problems)) {}

Refusal::Refusal(ExitCode code, Problem problem) : Refusal(code, std::vector<Problem>{std::move(problem)}) {}

}  // namespace engine
