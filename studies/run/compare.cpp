#include "studies/run/compare.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>

#include "studies/ask/compare.hpp"
#include "studies/keep/load.hpp"
#include "studies/run/asking.hpp"
#include "studies/say/compare.hpp"
#include "studies/say/json.hpp"

namespace studies {
namespace {

using engine::ExitCode;
using engine::Refusal;

/// A results file with a screw in it.
std::unique_ptr<const Loaded> load(const std::string& path) {
  std::unique_ptr<const Loaded> result = load_results(path);
  if (result->answer.pick) return result;
  throw Refusal(ExitCode::usage, engine::Problem{path, 0, 0, "there is no screw in it to compare: nothing passed",
                                                 "What is compared is the screw of each result",
                                                 "run it again with what its answer says relaxed, or leave it out"});
}

/// @throws Refusal  that names the second file
Comparison comparison_of(const Options& options, const std::atomic<bool>& interrupted, const Loaded& a,
                         const Loaded& b) {
  Progress progress(isatty(STDERR_FILENO) && !options.quiet, "compare");
  try {
    return compare(a.study, a.answer.pick->design, b.study, b.answer.pick->design,
                   asking(options, interrupted, progress).running);
  } catch (const Refusal& refusal) {
    std::vector<engine::Problem> problems = refusal.problems();
    for (engine::Problem& it : problems) it.file = it.file == a.study.path && it.file != b.study.path ? a.path : b.path;
    throw Refusal(refusal.code(), std::move(problems));
  }
}

/// The first result and the one beside it.
void one(const Options& options, const std::atomic<bool>& interrupted, const Loaded& a, const std::string& path,
         bool first) {
  const std::unique_ptr<const Loaded> b = load(path);
  const Comparison comparison = comparison_of(options, interrupted, a, *b);
  const Compared it{a.answer, b->answer, a.path, b->path, comparison};
  if (options.json)
    fmt::print("{}\n", compare_json(it));
  else if (options.quiet)
    fmt::print("{}\n", compare_sentence(it));
  else
    fmt::print("{}{}", first ? "" : "\n", compare_text(it, colour()));
  std::fflush(stdout);
}

int refuse(const Options& options, const std::string& path, const Refusal& refusal) {
  if (options.json) fmt::print("{}\n", errors_json(path, refusal));
  fmt::print(stderr, "{}\n", refusal.what());
  return static_cast<int>(refusal.code());
}

}  // namespace

int compare(const Options& options, const std::atomic<bool>& interrupted) {
  std::unique_ptr<const Loaded> a;
  try {
    a = load(options.studies.front());
  } catch (const Refusal& refusal) {
    return refuse(options, options.studies.front(), refusal);
  }
  int code = 0;
  for (std::size_t i = 1; i < options.studies.size(); ++i) {
    try {
      one(options, interrupted, *a, options.studies[i], i == 1);
    } catch (const Refusal& refusal) {
      code = std::max(code, refuse(options, options.studies[i], refusal));
    }
  }
  return code;
}

}  // namespace studies
