#pragma once
/// What a steadier input would do: the shortfall of a limit with the scatter of some parts halved, on the same
/// uniforms.
#include <cstdint>
#include <vector>

#include "engine/draw/plan.hpp"
#include "engine/matter/group.hpp"
#include "engine/matter/shares.hpp"
#include "engine/pass/survey.hpp"

namespace engine {

/// What halving the scatter of one group does.
struct Halved {
  Estimate after;                     ///< shortfall with it halved
  Estimate change;                    ///< after − before, on the same passes
  std::uint64_t cured = 0, hurt = 0;  ///< passes that missed and no longer do, and the other way round
};

struct Halvings {
  Estimate before;             ///< shortfall as it is
  std::vector<Halved> groups;  ///< [group]
};

/// The share of the passes that miss a threshold (NaN misses), before and after the scatter of each group is halved
/// about its medians (Law::halve). Before and after see the same uniforms: a pass that neither cures nor hurts says
/// nothing of the change, so its bounds are much narrower than those of the two shortfalls.
///
/// Bounds of the change: Student's t over the nets of a Sobol' plan; where the nets hold fewer than five changed passes
/// each, or the plan is plain, the cured and the hurt are bounded apart, each by Clopper-Pearson at 97.5 %, and the
/// change lies between (Bonferroni): wider than 95 % needs, never narrower.
/// The model is called (1 + groups) times for every pass of the plan.
Halvings halved(const Plan& plan, const Law& law, const BlockModel& model, const Threshold& threshold,
                const std::vector<Group>& groups, const Running& running);

}  // namespace engine
