#include "studies/run/reckon.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include "studies/keep/digest.hpp"
#include "studies/read/short_study.hpp"
#include "studies/run/asking.hpp"
#include "studies/run/data.hpp"
#include "studies/say/json.hpp"
#include "studies/say/reckon.hpp"
#include "studies/say/sentences.hpp"

namespace studies {
namespace {

Study read(const ShortStudy& typed) {
  Study study = read_short_study(
      typed, [](const std::vector<std::string>& files) { return models::read_tables(data_folder("tables"), files); });
  study.digest = sha256_hex(study.text);
  study.tables_digest = sha256_hex(study.tables.text);
  return study;
}

Answer answer(const Study& study, const Options& options, const std::atomic<bool>& interrupted) {
  Progress progress(isatty(STDERR_FILENO) && !options.quiet, "reckon");
  return rate(study, asking(options, interrupted, progress));
}

void say(const Answer& answer, const Options& options) {
  if (options.json)
    fmt::print("{}\n", reckon_json(answer));
  else if (options.quiet)
    fmt::print("{}\n", verdict_sentence(answer));
  else
    fmt::print("{}", reckon_text(answer, colour()));
}

/// Reads and answers; what the reader lets pass and no screw can be made of is said of its options too.
int answered(const ShortStudy& typed, const Options& options, const std::atomic<bool>& interrupted) {
  const Study study = read(typed);
  try {
    const Answer all = answer(study, options, interrupted);
    say(all, options);
    return all.exit_code();
  } catch (const engine::Refusal& refusal) {
    throw said_of_options(refusal, typed);
  }
}

}  // namespace

int reckon(const Options& options, const std::atomic<bool>& interrupted) {
  try {
    return answered(short_study(options.typed), options, interrupted);
  } catch (const engine::Refusal& refusal) {
    if (options.json) fmt::print("{}\n", errors_json("reckon", refusal));
    fmt::print(stderr, "{}\n", refusal.what());
    return static_cast<int>(refusal.code());
  }
}

}  // namespace studies
