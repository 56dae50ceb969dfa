#pragma once
/// The fresh passes that a verdict is taken on: the number asked, or as many as it takes a design to settle.
#include <map>
#include <memory>
#include <mutex>
#include <optional>

#include "engine/draw/plan.hpp"
#include "engine/pass/survey.hpp"
#include "studies/ask/judge.hpp"

namespace studies {

/// Fresh passes of one design: `batches` batches of `count` passes each, before rounding up to whole nets.
struct FreshPasses {
  std::uint64_t count = 0;
  engine::Batches batches;
  std::optional<SettlingReport> settling;  ///< where settling was asked
};

/// Where settling is asked, passes go on until these stand to so many digits: mean, spread and the ends of the
/// symmetric 95 % interval of force, of torque and of the margin of every limit with odds, each to digits of its own
/// spread; and the odds themselves, to digits of the misses allowed. A limit at nominal is judged without passes, and
/// what nothing is asked of may settle later.
FreshPasses fresh_passes(const Study& study, const InputLaw& inputs, const models::ScrewModel& model,
                         const engine::Running& running);

/// The plan of the fresh passes of a design: the passes asked for, or as many batches as it took to settle.
engine::Plan fresh_plan(const Study& study, const engine::Law& law, const std::optional<SettlingReport>& settling);

/// A survey of a design's fresh passes, and how they settled where that was asked.
struct FreshSurvey {
  engine::Survey survey;
  std::optional<SettlingReport> settling;
};
/// @throws Refusal (files) where the passes are to be kept and do not fit into memory
FreshSurvey fresh_survey(const Study& study, const InputLaw& inputs, const models::ScrewModel& model,
                         const engine::Ask& ask, const engine::Running& running);

/// The fresh passes of a search: one set for all its designs, or one for each number of batches that a design takes to
/// settle, so that what is confirmed is what the verdict will be taken on.
class FreshSets {
public:
  FreshSets(const Study& study, const engine::Running& running);

  const SharedPasses& of(const Candidate& candidate, const models::Design& design);
  /// Model calls on all of them.
  std::uint64_t calls() const;

private:
  const Study& study_;
  engine::Running running_;
  std::map<std::uint64_t, std::unique_ptr<SharedPasses>> sets_;  ///< by batches
  std::uint64_t settling_calls_ = 0;
};

}  // namespace studies
