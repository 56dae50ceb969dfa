#include "engine/pass/survey.hpp"

#include <cmath>
#include <limits>
#include <numeric>

#include "engine/pass/count.hpp"
#include "engine/pass/fetch.hpp"

namespace engine {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

/// All values there are, and one and the same: nothing to rank.
bool constant(const Moments& m) { return m.missing == 0 && m.unbounded == 0 && m.least == m.most; }

std::uint64_t quantile_rank(double q, std::uint64_t passes) {
  return std::max<std::uint64_t>(1, static_cast<std::uint64_t>(std::ceil(q * static_cast<double>(passes) - 1e-9)));
}

std::uint64_t reach_rank(double share, std::uint64_t passes) {
  return std::min(misses_allowed(share, passes) + 1, passes);
}

/// All values that are asked for, in the order asked: quantiles output by output, then reaches.
std::vector<Ranked> rank(const Counts& counts, const Passed& passed, const Ask& ask, const Running& running) {
  const std::uint64_t passes = passed.plan.passes();
  std::vector<std::pair<std::size_t, std::uint64_t>> asked;
  for (std::size_t k = 0; k < counts.all.size(); ++k)
    for (const double q : ask.quantiles) asked.emplace_back(k, quantile_rank(q, passes));
  for (const Ask::Reach& reach : ask.reaches) asked.emplace_back(reach.output, reach_rank(reach.share, passes));

  const auto rankable = [&](std::size_t k) { return counts.moments[k].missing == 0 && !constant(counts.moments[k]); };
  std::vector<Wanted> all;
  for (const auto& [output, r] : asked)
    if (rankable(output)) all.push_back(wanted(counts, output, r, passes));
  fetch(all, counts, passed, running);

  std::vector<Ranked> found;
  auto next = all.begin();
  for (const auto& [output, r] : asked) {
    const double same = constant(counts.moments[output]) ? counts.moments[output].least : none;
    if (!rankable(output))
      found.push_back({same, same, same});
    else
      found.push_back({next->values[0], next->values[1], next->values[2]}), ++next;
  }
  return found;
}

Running half(const Running& running, double from) {
  Running part = running;
  if (running.progress) part.progress = [&running, from](double share) { running.progress(from + share / 2); };
  return part;
}

}  // namespace

std::uint64_t misses_allowed(double odds, std::uint64_t passes) {
  const double allowed = (1 - odds) * static_cast<double>(passes);
  return static_cast<std::uint64_t>(std::floor(allowed + 1e-9 + static_cast<double>(passes) * 0x1p-52));
}

Survey survey(const Plan& plan, const Law& law, const BlockModel& model, const Ask& ask, std::uint64_t key,
              const Running& running) {
  const Passed passed{plan, law, model};
  Survey result;
  result.passes = plan.passes();
  if (ask.keep) {
    result.kept_inputs.assign(law.inputs(), std::vector<double>(plan.passes()));
    result.kept_outputs.assign(model.outputs(), std::vector<double>(plan.passes()));
  }
  Counts counts = count(passed, ask, key, half(running, 0), result);
  const std::vector<Ranked> found = rank(counts, passed, ask, half(running, 0.5));
  const std::size_t each = ask.quantiles.size();
  for (std::size_t k = 0; k < model.outputs(); ++k)
    result.quantiles.emplace_back(found.begin() + static_cast<std::ptrdiff_t>(k * each),
                                  found.begin() + static_cast<std::ptrdiff_t>((k + 1) * each));
  result.reaches.assign(found.begin() + static_cast<std::ptrdiff_t>(model.outputs() * each), found.end());
  for (const auto& hits : counts.hits) {
    result.hits.push_back(std::accumulate(hits.begin(), hits.end(), std::uint64_t{0}));
    result.odds.push_back(share_interval(hits, plan.net_size()));
  }
  result.moments = std::move(counts.moments);
  result.histograms = std::move(counts.all);
  result.clipped = std::move(counts.clipped);
  return result;
}

}  // namespace engine
