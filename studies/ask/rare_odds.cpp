#include "studies/ask/rare_odds.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/format.hpp"

namespace studies {
namespace {

using engine::rare::RareOdds;
using engine::rare::RareOptions;

/// Odds below which nothing is told apart: no distribution of friction or strength is known that far out.
constexpr double least_said = 1e-9;
/// Below this the engine's own arithmetic ends.
constexpr double least_possible = 1e-18;
constexpr double near_enough = 0.02;  ///< standard deviations
constexpr int most_steps = 6;

double least_for(double asked) { return std::clamp((1 - asked) / 100, least_possible, least_said); }

/// A quarter of the engine's usual chains and a half-width of 10 %: screws have few inputs and smooth margins, and
/// odds this small are not known to 3 %.
RareOptions options(double least) {
  RareOptions options;
  options.subset.chains = 100;
  options.subset.least = least;
  options.subset.keep = 1600;
  options.importance.relative = 0.1;
  options.importance.calls = 1u << 18;
  options.direct = 1u << 18;
  return options;
}

/// For a step towards a margin, which only has to be as near as `near_enough`: half of that again.
RareOptions coarse(double least) {
  RareOptions coarser = options(least);
  coarser.subset.chains = 50;
  coarser.importance.calls = 1u << 16;
  coarser.direct = 1u << 15;
  return coarser;
}

/// All runs went past the least odds, and so does the nearest failure found.
bool only_bounded(const RareOdds& odds, double least) {
  return odds.subset.p == 0 && odds.subset.stuck == 0 && !odds.first_order.points.empty() && odds.first_order.p < least;
}

/// How far out a shortfall lies, on the scale of the normal quantile; that of the nearest failure where it is only
/// bounded.
double beta_of(const FoundOdds& found, double asked) {
  if (found.shortfall.estimate > 0) return -engine::normal_quantile(std::min(found.shortfall.estimate, 0.5));
  const double bound = -engine::normal_quantile(least_for(asked));
  return found.odds.first_order.points.empty() ? bound : std::max(bound, found.odds.first_order.beta);
}

/// A margin on its scale, and how far out the odds of falling below it lie.
struct End {
  double at, beta;
};

/// Where margins are above 0, their logarithms run straighter.
struct Scale {
  bool logarithm;
  double to(double margin) const { return logarithm ? std::log(margin) : margin; }
  double from(double at) const { return logarithm ? std::exp(at) : at; }
};

}  // namespace

RareMargin::RareMargin(const engine::Law& law, const Margin& margin, std::uint64_t key, const engine::Running& running)
    : law_(law), margin_(margin), key_(key), running_(running) {
  running_.progress = nullptr;
}

FoundOdds RareMargin::below(double value, double asked) const { return find(value, least_for(asked), false); }

FoundOdds RareMargin::find(double value, double least, bool coarsely) const {
  const engine::rare::ModelState state(law_, margin_, 0, value);
  FoundOdds found;
  found.odds = engine::rare::rare_odds(state, coarsely ? coarse(least) : options(least), key_, running_);
  calls_ += found.odds.calls;
  found.shortfall = {found.odds.low, found.odds.p, found.odds.high};
  found.trusted = found.odds.trusted;
  found.reason = found.odds.reason;
  if (only_bounded(found.odds, least)) {
    found.trusted = true;
    found.shortfall = {0, 0, least};
    found.reason = fmt::format(
        "no run of subset simulation came to failure down to {}, and the nearest failure found lies {} standard "
        "deviations out",
        engine::three_figures(least), engine::three_figures(found.odds.first_order.beta));
  }
  return found;
}

double RareMargin::reached(double asked, double least, const FoundOdds& there, double middle) const {
  if (!(middle > least) || !std::isfinite(middle)) middle = least + std::max(std::abs(least), 1.0) / 10;
  const Scale scale{least > 0};
  const double wanted = -engine::normal_quantile(1 - asked);
  End lower{scale.to(least), beta_of(there, asked)}, upper{scale.to(middle), 0};
  double at = lower.at;
  for (int step = 0; step < most_steps && lower.beta != upper.beta; ++step) {
    // The line through the two ends goes on past them where the odds asked are rarer than both.
    at = lower.at + (upper.at - lower.at) * (lower.beta - wanted) / (lower.beta - upper.beta);
    const double found = beta_of(find(scale.from(at), least_for(asked), true), asked);
    if (std::abs(found - wanted) < near_enough) break;
    const bool between = lower.beta > wanted;
    const bool replaces_lower = between ? found > wanted : lower.beta - wanted < upper.beta - wanted;
    (replaces_lower ? lower : upper) = {at, found};
  }
  return scale.from(at);
}

}  // namespace studies
