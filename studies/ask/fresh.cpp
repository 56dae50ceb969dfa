#include "studies/ask/fresh.hpp"

#include <algorithm>

#include "engine/pass/settle.hpp"
#include "studies/ask/room.hpp"

namespace studies {
namespace {

using engine::Settled;
using models::Output;

/// What is to settle, by name.
struct Asked {
  engine::SettleAsk ask;
  std::vector<OutputSummary> named;  ///< name and dimension of each output asked for
  std::vector<std::string> odds;

  explicit Asked(const Study& study) {
    for (const Output output : {Output::force, Output::torque})
      add(static_cast<std::size_t>(output), std::string(row(output).name), row(output).dimension);
    for (std::size_t k = 0; k < study.limits.size(); ++k) {
      const models::Limit& limit = study.limits[k];
      if (!limit.odds) continue;
      const std::string name = "margin." + std::string(row(limit.must).name);
      add(models::output_count + k, name, engine::Dimension::none);
      ask.odds.push_back({{models::output_count + k, limit.least_margin()}, 1 - *limit.odds});
      odds.push_back(name);
    }
  }

private:
  void add(std::size_t output, const std::string& name, engine::Dimension dimension) {
    ask.outputs.push_back(output);
    named.emplace_back();
    named.back().name = name;
    named.back().dimension = dimension;
  }
};

std::string word_of(Settled::What what) {
  switch (what) {
    case Settled::What::mean:
      return "mean";
    case Settled::What::spread:
      return "spread";
    case Settled::What::low:
      return "low";
    case Settled::What::high:
      return "high";
    case Settled::What::odds:
      break;
  }
  return "odds";
}

SettledEstimate estimate_of(const Settled& it, const Asked& asked) {
  SettledEstimate estimate{"", word_of(it.what), engine::Dimension::none, it.tolerance, it.allowed, it.settled};
  if (it.what == Settled::What::odds) {
    estimate.of = asked.odds[it.index];
  } else {
    estimate.of = asked.named[it.index].name;
    estimate.dimension = asked.named[it.index].dimension;
  }
  return estimate;
}

/// The same running, whose progress is a part of the whole.
engine::Running part_of(const engine::Running& running, double from, double to) {
  engine::Running part = running;
  if (running.progress)
    part.progress = [&running, from, to](double share) { running.progress(from + share * (to - from)); };
  return part;
}

}  // namespace

FreshPasses fresh_passes(const Study& study, const InputLaw& inputs, const models::ScrewModel& model,
                         const engine::Running& running) {
  if (!study.passes.settle) return {study.passes.count, {}, std::nullopt};
  engine::SettleRule rule;
  rule.digits = study.passes.settle->digits;
  rule.at_most = study.passes.settle->at_most;
  rule.share = coverage_share;
  const Asked asked(study);
  const engine::Settling found = engine::settle(plan_kind(study), study.passes.key, engine::Stream::verdict, inputs.law,
                                                model, rule, asked.ask, running);
  SettlingReport report{found.settled, rule.digits, found.batches, found.batch_passes, rule.at_most, {}};
  for (const Settled& it : found.estimates) report.estimates.push_back(estimate_of(it, asked));
  return {rule.batch(), engine::Batches{0, found.batches}, std::move(report)};
}

engine::Plan fresh_plan(const Study& study, const engine::Law& law, const std::optional<SettlingReport>& settling) {
  const std::uint64_t count = settling ? settling->batch_passes : study.passes.count;
  const engine::Batches batches{0, settling ? settling->batches : 1};
  return {plan_kind(study), law.dimensions(), count, study.passes.key, engine::Stream::verdict, batches};
}

FreshSurvey fresh_survey(const Study& study, const InputLaw& inputs, const models::ScrewModel& model,
                         const engine::Ask& ask, const engine::Running& running) {
  const bool settles = study.passes.settle.has_value();
  FreshPasses fresh = fresh_passes(study, inputs, model, settles ? part_of(running, 0, 1.0 / 3) : running);
  const engine::Plan plan = fresh_plan(study, inputs.law, fresh.settling);
  require_room(study, plan.passes());
  const engine::Running rest = settles ? part_of(running, 1.0 / 3, 1) : running;
  return {engine::survey(plan, inputs.law, model, ask, study.passes.key, rest), std::move(fresh.settling)};
}

FreshSets::FreshSets(const Study& study, const engine::Running& running) : study_(study), running_(running) {
  running_.progress = nullptr;
}

const SharedPasses& FreshSets::of(const Candidate& candidate, const models::Design& design) {
  FreshPasses fresh{study_.passes.count, {}, std::nullopt};
  if (study_.passes.settle) {
    const InputLaw inputs = input_law(study_, candidate.surface);
    const models::Allowances allowed = models::allowances(study_.tables, study_.duty, design, inputs.face_from_table);
    fresh = fresh_passes(study_, inputs, {study_.duty, design, allowed, study_.limits}, running_);
    settling_calls_ += fresh.settling->batches * fresh.settling->batch_passes;
  }
  std::unique_ptr<SharedPasses>& set = sets_[fresh.batches.count];
  if (!set)
    set = std::make_unique<SharedPasses>(study_, plan_kind(study_), fresh.count, engine::Stream::verdict,
                                         running_.interrupted, fresh.batches);
  return *set;
}

std::uint64_t FreshSets::calls() const {
  std::uint64_t sum = settling_calls_;
  for (const auto& [batches, set] : sets_) sum += set->calls();
  return sum;
}

}  // namespace studies
