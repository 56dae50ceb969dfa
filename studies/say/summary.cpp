#include "studies/say/summary.hpp"

#include "studies/say/limits.hpp"
#include "studies/say/units_of_his.hpp"
#include "studies/say/words.hpp"
#include "studies/say/wrap.hpp"

namespace studies {
namespace {

using namespace say;

constexpr std::size_t longest_study = 20, longest_pick = 16, longest_tightest = 24;

std::string in_few_words(const Answer& answer) {
  if (!answer.pick) return "nothing passes";
  std::size_t missed = 0;
  for (const LimitVerdict& limit : answer.limits) missed += limit.holds ? 0 : 1;
  if (missed > 0) return std::to_string(missed) + " missed";
  if (!answer.settled()) return "not settled";
  return answer.limits.empty() ? "answered" : "holds";
}

std::string tightest_words(const Answer& answer) {
  if (!answer.tightest) return "";
  for (const LimitVerdict& limit : answer.limits)
    if (limit.limit.must == *answer.tightest) return limit_words(*answer.tightest) + " " + spare_words(limit.spare);
  return limit_words(*answer.tightest);
}

std::vector<std::string> cells(const RunLine& line) {
  return {shortened(cleaned(study_name(line.study)), longest_study), line.answer, shortened(line.pick, longest_pick),
          line.mass, shortened(line.tightest, longest_tightest)};
}

}  // namespace

RunLine run_line(const Answer& answer) {
  RunLine line{answer.study->path, in_few_words(answer), "", "", tightest_words(answer), answer.results_path};
  if (answer.pick) {
    line.pick = answer.pick->designation;
    line.mass = HisUnits(*answer.study)(answer.pick->mass, engine::Dimension::mass);
  }
  return line;
}

RunLine run_line(const std::string& study, const engine::Refusal& refusal) {
  return {study, counted(refusal.problems().size(), "error"), "", "", "", ""};
}

std::string summary_table(const std::vector<RunLine>& lines) {
  const std::vector<std::string> header = {"study", "answer", "pick", "mass", "tightest, to spare"};
  std::vector<std::vector<std::string>> narrow = {header}, wide = {header};
  wide.front().push_back("results");
  for (const RunLine& line : lines) {
    narrow.push_back(cells(line));
    wide.push_back(cells(line));
    wide.back().push_back(cleaned(line.results));
  }
  const std::vector<std::string> beside = aligned(wide, 0);
  if (fits(beside)) return joined(beside, "\n") + "\n";
  const std::vector<std::string> table = aligned(narrow, 0);
  std::string text = table.front() + "\n";
  for (std::size_t i = 0; i < lines.size(); ++i) {
    text += table[i + 1] + "\n";
    if (!lines[i].results.empty()) text += "  " + cleaned(lines[i].results) + "\n";
  }
  return text;
}

}  // namespace studies
