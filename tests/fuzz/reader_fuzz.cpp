// Any bytes are a study that can be vetted, or a Refusal that says where, what and the fix.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "engine/base/error.hpp"
#include "studies/read/reader.hpp"
#include "studies/read/vet.hpp"

namespace {

const models::Tables& own_tables() {
  static const models::Tables tables = models::read_tables(SCREWTINY_SOURCE "/models/tables", {});
  return tables;
}

void check(bool holds) {
  if (!holds) std::abort();
}

void check(const studies::Study& study) {
  check(study.scatter.size() == models::input_count);
  check(!study.choices.screw.empty() && !study.choices.nut.empty() && !study.choices.face.empty() &&
        !study.choices.starts.empty());
  check(!study.choices.thread.sizes.empty() || !study.choices.thread.free.empty());
  for (const models::Limit& limit : study.limits) check(limit.asked > 0 && std::isfinite(limit.asked));
  for (const studies::Echo& echo : study.echoes) check(!echo.path.empty() && !echo.source.empty());
  check(vet_json(study).find('\n') == std::string::npos);
  check(!vet_text(study).empty());
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto verb = static_cast<studies::Verb>(size % 3);
  try {
    check(studies::read_study_text(
        std::string(reinterpret_cast<const char*>(data), size), "study.toml",
        [](const std::vector<std::string>&) { return own_tables(); }, verb,
        [](const std::string&) { return "torque [N.m], mu\n# two rows\n60, 0.12\n62, 0.14\n"; }));
  } catch (const engine::Refusal& refusal) {
    check(refusal.code() == engine::ExitCode::study && !refusal.problems().empty());
    for (const engine::Problem& problem : refusal.problems())
      check(!problem.problem.empty() && !problem.fix.empty() && problem.line >= 0);
  }
  return 0;
}
