#include "studies/ask/matter.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/matter/halved.hpp"
#include "engine/matter/swings.hpp"
#include "studies/ask/fresh.hpp"
#include "studies/ask/margin.hpp"

namespace studies {
namespace {

using engine::Group;
using models::Must;

/// Parts under one name each, in order of first appearance: inputs, or classes.
struct Named {
  std::vector<std::string> names;
  std::vector<Group> groups;
};

Named grouped(const std::vector<ScatterUsed>& used, std::string ScatterUsed::*by) {
  Named named;
  for (std::size_t part = 0; part < used.size(); ++part) {
    const auto known = std::find(named.names.begin(), named.names.end(), used[part].*by);
    const auto at = static_cast<std::size_t>(known - named.names.begin());
    if (known == named.names.end()) named.names.push_back(used[part].*by), named.groups.emplace_back();
    named.groups[at].push_back(part);
  }
  return named;
}

/// The names and parts of each set of groups that ties hold together.
std::vector<std::pair<std::vector<std::string>, Group>> together(const engine::Law& law, const Named& named) {
  std::vector<std::pair<std::vector<std::string>, Group>> all;
  for (const auto& set : engine::tied_together(law, named.groups)) {
    all.emplace_back();
    for (const std::size_t g : set) {
      all.back().first.push_back(named.names[g]);
      all.back().second.insert(all.back().second.end(), named.groups[g].begin(), named.groups[g].end());
    }
    std::sort(all.back().second.begin(), all.back().second.end());
  }
  return all;
}

bool is_task(const LimitVerdict& it, models::Action action) {
  const Must must = it.limit.must;
  return action == models::Action::clamp ? must == Must::force : must == Must::torque || must == Must::hand_force;
}

/// The force of a clamp or the torque of a lift over its nominal, as the margin of a limit that asks for the nominal;
/// none where that is no number above 0.
std::optional<Margin> without_limits(const Study& study, const InputLaw& inputs, const models::ScrewModel& screw,
                                     const Answer& answer, Matter& matter) {
  models::Limit limit;
  limit.must = study.duty.action == models::Action::clamp ? Must::force : Must::torque;
  limit.kind = models::Limit::Kind::at_least;
  const models::Output output = *models::judged(limit.must);
  limit.asked = answer.outputs[static_cast<std::size_t>(output)].nominal;
  if (!(std::isfinite(limit.asked) && limit.asked > 0)) return std::nullopt;
  matter.judged = models::row(output).name;
  const models::Allowances allowances =
      models::allowances(study.tables, study.duty, screw.design(), inputs.face_from_table);
  return Margin(models::ScrewModel(study.duty, screw.design(), allowances, {limit}), 0);
}

std::optional<Margin> judged(const Study& study, const InputLaw& inputs, const models::ScrewModel& screw,
                             const Answer& answer, Matter& matter) {
  const LimitVerdict* verdict = turning_point(answer);
  if (!verdict) return without_limits(study, inputs, screw, answer, matter);
  matter.must = verdict->limit.must;
  matter.judged = "margin." + verdict->name;
  const auto at = static_cast<std::size_t>(verdict - answer.limits.data());
  return Margin(screw, at);
}

Bounded bounded(const engine::Estimate& it) { return {it.low, it.estimate, it.high}; }

std::string reason_of(const engine::Law& law, engine::Shares::Why why) {
  if (why == engine::Shares::Why::constant) return "nothing that scatters moves it";
  if (why == engine::Shares::Why::unbounded) return "it has no finite value on some passes";
  const bool finite = std::all_of(law.parts().begin(), law.parts().end(),
                                  [](const engine::Part& part) { return std::isfinite(part.marginal.spread()); });
  return finite ? "" : "an input has no finite variance";
}

/// Shares of inputs and classes from one set of passes; a group that is both is computed once.
void add_shares(const Study& study, const engine::Law& law, const Margin& margin, const std::vector<Group>& inputs,
                const std::vector<Group>& classes, const engine::Running& running, Matter& matter) {
  std::vector<Group> groups = inputs;
  for (const Group& group : classes)
    if (std::find(groups.begin(), groups.end(), group) == groups.end()) groups.push_back(group);
  engine::Shares shares = engine::shares(law, margin, 0, groups, engine::share_passes, study.passes.key, running);
  matter.reason = reason_of(law, shares.why);
  const auto put = [&](const Group& group, Bounded& first, Bounded& total) {
    const auto at = static_cast<std::size_t>(std::find(groups.begin(), groups.end(), group) - groups.begin());
    constexpr double none = std::numeric_limits<double>::quiet_NaN();
    const bool known = matter.reason.empty();
    first = known ? bounded(shares.groups[at].first) : Bounded{none, none, none};
    total = known ? bounded(shares.groups[at].total) : Bounded{none, none, none};
  };
  for (std::size_t i = 0; i < inputs.size(); ++i) put(inputs[i], matter.inputs[i].share, matter.inputs[i].total);
  for (std::size_t i = 0; i < classes.size(); ++i) put(classes[i], matter.classes[i].share, matter.classes[i].total);
}

void add_halved(const engine::Plan& plan, const engine::Law& law, const Margin& margin,
                const std::vector<Group>& inputs, const engine::Running& running, Matter& matter) {
  const engine::Halvings halvings = engine::halved(plan, law, margin, {0, margin.least()}, inputs, running);
  matter.before = bounded(halvings.before);
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    matter.inputs[i].after = bounded(halvings.groups[i].after);
    matter.inputs[i].change = bounded(halvings.groups[i].change);
  }
}

void add_swings(const Study& study, const InputLaw& inputs, const Margin& margin, Matter& matter) {
  const std::vector<double> nominal(inputs.nominal.begin(), inputs.nominal.end());
  for (const engine::Swing& it : engine::swings(inputs.law, margin, 0, nominal, study.passes.key)) {
    const auto part = std::find_if(inputs.law.parts().begin(), inputs.law.parts().end(),
                                   [&](const engine::Part& each) { return each.input == it.input; });
    const ScatterUsed& used = inputs.used[static_cast<std::size_t>(part - inputs.law.parts().begin())];
    matter.swings.push_back(
        {static_cast<models::Input>(it.input), used.name, used.dimension, it.from, it.to, it.at_from, it.at_to});
  }
}

bool before(const MatterInput& a, const MatterInput& b) {
  if (a.after && b.after && a.after->estimate != b.after->estimate) return a.after->estimate < b.after->estimate;
  return a.total.estimate > b.total.estimate;
}

}  // namespace

const LimitVerdict* turning_point(const Answer& answer) {
  const LimitVerdict *task = nullptr, *missed = nullptr, *tightest = nullptr;
  for (const LimitVerdict& it : answer.limits) {
    if (!task && is_task(it, answer.study->duty.action)) task = &it;
    if (it.limit.odds && it.misses > 0 && (!missed || it.spare < missed->spare)) missed = &it;
    if (!tightest || it.spare < tightest->spare) tightest = &it;
  }
  if (task && task->misses > 0) return task;
  return missed ? missed : task ? task : tightest;
}

std::optional<Matter> what_matters(const Study& study, const InputLaw& inputs, const models::ScrewModel& screw,
                                   const Answer& answer, const engine::Running& running) {
  if (inputs.law.parts().empty()) return std::nullopt;
  Matter matter;
  const std::optional<Margin> what = judged(study, inputs, screw, answer, matter);
  if (!what) return std::nullopt;
  std::vector<Group> by_input, by_class;
  for (auto& [names, group] : together(inputs.law, grouped(inputs.used, &ScatterUsed::name))) {
    matter.inputs.push_back({names, {}, {}, {}, {}});
    by_input.push_back(group);
  }
  for (auto& [names, group] : together(inputs.law, grouped(inputs.used, &ScatterUsed::varies))) {
    matter.classes.push_back({names, {}, {}});
    by_class.push_back(group);
  }
  engine::Running silent = running;
  silent.progress = nullptr;
  add_shares(study, inputs.law, *what, by_input, by_class, silent, matter);
  if (matter.must)
    add_halved(fresh_plan(study, inputs.law, answer.settling), inputs.law, *what, by_input, silent, matter);
  add_swings(study, inputs, *what, matter);
  std::stable_sort(matter.inputs.begin(), matter.inputs.end(), before);
  return matter;
}

}  // namespace studies
