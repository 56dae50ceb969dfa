#include "engine/rare/agree.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/rare/proposal.hpp"

namespace engine::rare {
namespace {

constexpr double countable = 1e-4;  ///< odds from which failures are counted outright as well
constexpr double least_effective = 200, most_largest = 0.05, most_half = 0.3;
constexpr double errors_apart = 3, run_bias = 0.03;
constexpr double wanted_counted = 400;
constexpr double enough_counted = 100;
constexpr std::uint64_t least_direct = 1u << 15, fresh_round = 9;

/// Why an importance estimate is unsound; empty when it is sound.
std::string unsound(const Importance& i) {
  if (!(i.p > 0)) return "importance sampling met no failure";
  if (i.effective < least_effective)
    return fmt::format("importance sampling has only {:.0f} effective failures", i.effective);
  if (i.largest > most_largest)
    return fmt::format("one draw makes {:.0f} % of the importance estimate", 100 * i.largest);
  if (i.interval.high - i.p > most_half * i.p) return "the replicates of importance sampling disagree";
  return "";
}

/// Why an importance estimate contradicts the others; empty when all agree.
std::string apart(const RareOdds& odds) {
  const Importance& i = odds.importance;
  if (!(odds.subset.p > 0)) return "subset simulation did not reach failure where importance sampling did";
  const double allowed = run_bias + errors_apart * std::hypot(i.spread / i.p, odds.subset.spread / odds.subset.p);
  if (std::abs(std::log(i.p / odds.subset.p)) > allowed)
    return fmt::format("importance sampling and subset simulation disagree, {:.3g} against {:.3g}", i.p, odds.subset.p);
  if (odds.direct.calls == 0) return "";
  const double n = static_cast<double>(odds.direct.calls), middle = (odds.direct.p + i.p) / 2;
  const double counted = std::sqrt(std::max(0.0, middle * (1 - middle)) / n);
  if (std::abs(i.p - odds.direct.p) > errors_apart * std::hypot(i.spread, counted))
    return fmt::format("importance sampling and plain counting disagree, {:.3g} against {:.3g}", i.p, odds.direct.p);
  return "";
}

void answer_with(RareOdds& odds, double p, const Interval& bounds, bool trusted, std::string reason) {
  odds.p = p;
  odds.low = bounds.low;
  odds.high = bounds.high;
  odds.trusted = trusted;
  odds.reason = std::move(reason);
}

/// True when the methods agree: then the one with the narrower bounds gives the answer.
bool settled(RareOdds& odds) {
  if (!unsound(odds.importance).empty() || !apart(odds).empty()) return false;
  const Interval &drawn = odds.importance.interval, &counted = odds.direct.interval;
  if (odds.direct.calls > 0 && counted.high - counted.low < drawn.high - drawn.low)
    answer_with(odds, odds.direct.p, counted, true,
                "plain counting, with which importance sampling and subset simulation agree");
  else
    answer_with(odds, odds.importance.p, drawn, true,
                odds.direct.calls > 0 ? "importance sampling, with which subset simulation and plain counting agree"
                                      : "importance sampling, with which subset simulation agrees");
  return true;
}

Interval stretched(const RareOdds& odds, bool sound) {
  const double p = odds.subset.p, stretch = std::pow(odds.subset.interval.high / p, 2);
  Interval bounds{p / stretch, std::min(1.0, p * stretch)};
  if (sound)
    bounds = {std::min(bounds.low, odds.importance.interval.low), std::max(bounds.high, odds.importance.interval.high)};
  return bounds;
}

/// Counts anew, with all passes allowed: a count that was part of a disagreement is no longer a fair one.
void count_afresh(RareOdds& odds, const LimitState& state, const RareOptions& options, std::uint64_t key,
                  const Running& running) {
  odds.direct = direct(state, options.direct, key, fresh_round, running);
  odds.calls += odds.direct.calls;
}

/// The answer when no run of subset simulation came to failure.
void none_reached(RareOdds& odds, const LimitState& state, const RareOptions& options, std::uint64_t key,
                  const Running& running) {
  if (odds.subset.stuck == 0) {
    std::string reason = fmt::format("no run came to failure down to {:.0e}", options.subset.least);
    if (unsound(odds.importance).empty())
      reason += fmt::format("; importance sampling alone says {:.3g}", odds.importance.p);
    return answer_with(odds, 0, {0, options.subset.least}, false, std::move(reason));
  }
  count_afresh(odds, state, options, key, running);
  answer_with(odds, odds.direct.p, odds.direct.interval, false,
              "the margin cannot be lowered to failure from anywhere seen, so that only a count bounds its odds");
}

/// The answer when importance sampling does not give it.
void fall_back(RareOdds& odds, const LimitState& state, const RareOptions& options, std::uint64_t key,
               const Running& running) {
  if (!(odds.subset.p > 0)) return none_reached(odds, state, options, key, running);
  const std::string unfit = unsound(odds.importance), why = unfit.empty() ? apart(odds) : unfit;
  if (odds.subset.p * static_cast<double>(options.direct) >= enough_counted) {
    count_afresh(odds, state, options, key, running);
    return answer_with(odds, odds.direct.p, odds.direct.interval, true, "plain counting, since " + why);
  }
  answer_with(odds, odds.subset.p, stretched(odds, unfit.empty()), false, "subset simulation alone, since " + why);
}

/// Every method once; `round` 0, then 1 with twice the chains.
void attempt(RareOdds& odds, const LimitState& state, const RareOptions& options, std::uint64_t key,
             std::uint64_t round, const Running& running) {
  SubsetOptions more = options.subset;
  more.chains = std::min(block_size, more.chains << round);
  odds.subset = subset(state, more, key, round, running);
  odds.first_order = design_points(state, options.design, odds.subset.failures, key, running);
  const Mixture mixture = proposal(odds.first_order, odds.subset.failures, state.dimension());
  odds.importance = importance(state, mixture, options.importance, key, round, running);
  odds.calls += odds.subset.calls + odds.first_order.calls + odds.importance.calls;
  const double seen = std::max(odds.subset.p, odds.importance.p);
  if (seen < countable || odds.direct.calls > 0) return;
  const auto wanted = static_cast<std::uint64_t>(wanted_counted / std::min(1.0, seen));
  odds.direct =
      direct(state, std::clamp(wanted, std::min(least_direct, options.direct), options.direct), key, round, running);
  odds.calls += odds.direct.calls;
}

}  // namespace

RareOdds rare_odds(const LimitState& state, const RareOptions& options, std::uint64_t key, const Running& running) {
  RareOdds odds;
  for (std::uint64_t round = 0; round < 2; ++round) {
    attempt(odds, state, options, key, round, running);
    if (settled(odds)) return odds;
    if (odds.subset.p == 0 && odds.importance.failures == 0) break;
  }
  fall_back(odds, state, options, key, running);
  return odds;
}

std::pair<RareOdds, RareOdds> under_two_laws(const Law& law, const Law& other, const BlockModel& model,
                                             std::size_t output, double least, const RareOptions& options,
                                             std::uint64_t key, const Running& running) {
  return {rare_odds(ModelState(law, model, output, least), options, key, running),
          rare_odds(ModelState(other, model, output, least), options, key, running)};
}

}  // namespace engine::rare
