#pragma once
/// The two questions a study can be asked.
#include "engine/pass/loop.hpp"
#include "studies/ask/answer.hpp"
#include "studies/ask/study.hpp"

namespace studies {

struct Asking {
  engine::Running running;
  bool scan = false;  ///< size: examine every candidate
};

/// The verdict on the one screw that a study fixes.
/// @throws Refusal (study) where it cannot be built
Answer rate(const Study& study, const Asking& asking);

/// The lightest screw among what may be chosen, its verdict on passes that the search did not see, its neighbours on
/// the shelf and why not the lighter ones. Without anything to choose: as rate.
Answer size(const Study& study, const Asking& asking);

}  // namespace studies
