#include "studies/ask/worth.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "engine/pass/survey.hpp"
#include "models/thread/designation.hpp"
#include "studies/ask/judge.hpp"
#include "studies/ask/other_choices.hpp"

namespace studies {
namespace {

using models::Output;

constexpr std::uint64_t worth_passes = 65536;
constexpr double none = std::numeric_limits<double>::quiet_NaN();

/// One screw on the passes.
struct Passed {
  std::vector<double> value;          ///< [pass] the output compared
  std::vector<std::uint64_t> missed;  ///< [limit] passes that miss it
  std::vector<double> nominal;        ///< outputs, then margins
  std::vector<std::string> unjudged;  ///< [limit] why it has no value; empty where it has one
  double at(Output output) const { return nominal[static_cast<std::size_t>(output)]; }
};

/// Why a limit has no value for a screw; empty where it has one.
std::string unjudged(const models::ScrewModel& screw, models::Must must, double nominal_margin) {
  if (!std::isnan(nominal_margin)) return "";
  const std::optional<Output> output = models::judged(must);
  const std::string why = output ? screw.missing(*output) : "";
  return std::string(models::row(must).words) + " is not judged: " + (why.empty() ? "the tables have no value" : why);
}

Passed passed(const SharedPasses& shared, const models::Design& design) {
  const Study& study = shared.study();
  Candidate candidate;
  candidate.surface = {design.lubrication, design.screw, design.nut, design.face};
  const SharedInputs& inputs = shared.inputs(candidate);
  const models::ScrewModel screw = shared.model(candidate, design);
  Passed all{{}, std::vector<std::uint64_t>(study.limits.size()), screw.evaluate_one(inputs.inputs.nominal), {}};
  for (std::size_t k = 0; k < study.limits.size(); ++k)
    all.unjudged.push_back(unjudged(screw, study.limits[k].must, all.nominal[models::output_count + k]));
  all.value.reserve(shared.passes());
  engine::Block y(screw.outputs());
  for (std::uint64_t b = 0; b < inputs.plan.blocks(); ++b) {
    const std::size_t n = inputs.plan.size(b);
    screw.evaluate(inputs.held[b], y, n);
    const double* row = y.row(static_cast<std::size_t>(compared_output(study.duty)));
    all.value.insert(all.value.end(), row, row + n);
    for (std::size_t k = 0; k < all.missed.size(); ++k) {
      const double least = study.limits[k].least_margin();
      const double* margin = y.row(models::output_count + k);
      all.missed[k] +=
          static_cast<std::uint64_t>(std::count_if(margin, margin + n, [&](double m) { return !(m >= least); }));
    }
  }
  return all;
}

/// Whether a changed screw misses a limit, by the passes of both and the verdict on the pick.
bool misses(const LimitVerdict& pick, std::uint64_t pick_missed, std::uint64_t missed, double nominal_margin) {
  const models::Limit& limit = pick.limit;
  if (!limit.odds) return !(nominal_margin >= limit.least_margin());
  const std::uint64_t allowed = engine::misses_allowed(*limit.odds, worth_passes);
  if (pick.holds) return missed > std::max(allowed, pick_missed);
  return missed > allowed || missed >= pick_missed;
}

/// A change with its names and no value.
Worth named(const OtherChoice& change) {
  Worth worth;
  worth.change = change.change;
  worth.from = change.from;
  worth.to = change.to;
  worth.offered = change.offered;
  worth.why = change.why;
  if (change.design) worth.designation = models::designation(change.design->thread);
  worth.nominal = worth.mean = worth.share = worth.mass = none;
  worth.helps = {none, none, none};
  return worth;
}

/// Mean change, and how often it helps, net by net.
void compare_passes(const Study& study, const Passed& pick, const Passed& changed, Worth& worth) {
  const bool clamp = study.duty.action == models::Action::clamp;
  const std::size_t n = pick.value.size();
  std::vector<std::uint64_t> helped(engine::net_count);
  double change = 0, was = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const double a = pick.value[i], b = changed.value[i];
    helped[i * helped.size() / n] += clamp ? b > a : b < a;
    change += b - a;
    was += a;
  }
  worth.passes = n;
  worth.mean = change / static_cast<double>(n);
  worth.share = change / was;
  const engine::Interval odds = engine::share_interval(helped, n / helped.size());
  const std::uint64_t all = std::accumulate(helped.begin(), helped.end(), std::uint64_t{0});
  worth.helps = {odds.low, static_cast<double>(all) / static_cast<double>(n), odds.high};
}

void judge_limits(const std::vector<LimitVerdict>& verdicts, const Passed& pick, const Passed& changed, Worth& worth) {
  for (std::size_t k = 0; k < verdicts.size(); ++k) {
    const models::Must must = verdicts[k].limit.must;
    const double margin = changed.nominal[models::output_count + k];
    if (!changed.unjudged[k].empty())
      worth.why += (worth.why.empty() ? "" : "; ") + changed.unjudged[k];
    else if (misses(verdicts[k], pick.missed[k], changed.missed[k], margin))
      worth.misses.push_back(must);
  }
}

/// Most helpful first; what jams on some passes, then what cannot be built, last.
double help(const Study& study, const Worth& worth) {
  const double gain = study.duty.action == models::Action::clamp ? worth.mean : -worth.mean;
  if (std::isfinite(gain)) return gain;
  return worth.passes > 0 ? std::numeric_limits<double>::lowest() : -std::numeric_limits<double>::infinity();
}

/// What a change is worth beside the pick; `why` alone where it cannot be had.
Worth worth_of(const OtherChoice& change, const SharedPasses& shared, const Passed& pick,
               const std::vector<LimitVerdict>& verdicts) {
  Worth worth = named(change);
  if (!change.why.empty()) return worth;
  const Study& study = shared.study();
  const Output compared = compared_output(study.duty);
  const bool same_surface = change.change == "starts" || change.change == "pitch";
  try {
    // Another surface has laws of its own, and the very same passes: by the study's key and this stream.
    const SharedPasses own(study, engine::Plan::Kind::sobol, worth_passes, engine::Stream::worth, shared.interrupted());
    const Passed changed = passed(same_surface ? shared : own, *change.design);
    compare_passes(study, pick, changed, worth);
    worth.nominal = changed.at(compared) - pick.at(compared);
    worth.mass = changed.at(Output::mass) - pick.at(Output::mass);
    judge_limits(verdicts, pick, changed, worth);
  } catch (const engine::Refusal& refusal) {  // correlations that the friction of this surface cannot have
    worth.why = refusal.problems().front().problem;
  }
  return worth;
}

}  // namespace

models::Output compared_output(const models::Duty& duty) {
  return duty.action == models::Action::clamp ? Output::force : Output::torque;
}

std::vector<Worth> worth_of_choices(const Study& study, const models::Design& screw,
                                    const std::vector<LimitVerdict>& verdicts, const engine::Running& running) {
  const SharedPasses shared(study, engine::Plan::Kind::sobol, worth_passes, engine::Stream::worth, running.interrupted);
  const Passed pick = passed(shared, screw);
  const std::vector<OtherChoice> changes = other_choices(study, screw);
  std::vector<Worth> all;
  engine::run_chunks(
      changes.size(), {running.threads, {}, running.interrupted},
      [&](std::uint64_t i) { return worth_of(changes[i], shared, pick, verdicts); },
      [&](Worth& worth) {
        if (worth.passes > 0 || worth.offered) all.push_back(std::move(worth));
      });
  std::stable_sort(all.begin(), all.end(),
                   [&](const Worth& a, const Worth& b) { return help(study, a) > help(study, b); });
  return all;
}

}  // namespace studies
