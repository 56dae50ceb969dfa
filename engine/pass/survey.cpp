#include "engine/pass/survey.hpp"

#include <cmath>
#include <limits>
#include <numeric>

#include "engine/pass/bounds.hpp"
#include "engine/pass/count.hpp"
#include "engine/pass/fetch.hpp"

namespace engine {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN(), unbounded = std::numeric_limits<double>::infinity();

std::uint64_t quantile_rank(double q, std::uint64_t passes) {
  return std::max<std::uint64_t>(1, static_cast<std::uint64_t>(std::ceil(q * static_cast<double>(passes) - 1e-9)));
}

std::uint64_t reach_rank(double share, std::uint64_t passes) {
  return std::min(misses_allowed(share, passes) + 1, passes);
}

/// The ranks asked for, gathered first and fetched all at once.
class Ranks {
public:
  Ranks(const Counts& counts, std::uint64_t passes) : counts_(counts), passes_(passes) {}

  /// To be called again in the same order once they are fetched: then it gives the values.
  double value(std::size_t output, std::uint64_t rank) {
    const Moments& m = counts_.moments[output];
    if (m.missing > 0) return none;
    if (m.unbounded == 0 && m.least == m.most) return m.least;  // one and the same: nothing to rank
    if (rank < 1) return -unbounded;
    if (rank > passes_) return unbounded;
    if (fetched_) return values_[next_++];
    sought_.push_back({output, rank});
    return none;
  }
  Interval values(std::size_t output, RankPair ranks) {
    const double low = value(output, ranks.low);
    return {low, value(output, ranks.high)};
  }
  void fetch(const Passed& passed, const Running& running) {
    values_ = engine::fetch(sought_, counts_, passed, running);
    fetched_ = true;
  }

private:
  const Counts& counts_;
  std::uint64_t passes_;
  std::vector<Sought> sought_;
  std::vector<double> values_;
  std::size_t next_ = 0;
  bool fetched_ = false;
};

/// Everything that is a rank, into the result: once to gather, once more to fill in.
class Ranking {
public:
  Ranking(const Counts& counts, const Ask& ask, std::uint64_t passes)
      : counts_(counts), ask_(ask), passes_(passes), bounds_(counts, passes), ranks_(counts, passes) {}

  void fill(Survey& result) {
    result.quantiles.clear(), result.reaches.clear(), result.coverage.clear(), result.tolerance.clear();
    for (std::size_t k = 0; k < counts_.all.size(); ++k) {
      result.quantiles.emplace_back();
      for (const double q : ask_.quantiles) result.quantiles[k].push_back(ranked(k, q, quantile_rank(q, passes_)));
      if (ask_.coverage > 0) result.coverage.push_back(covering(k));
      if (ask_.tolerance.content > 0) result.tolerance.push_back(tolerance(k));
    }
    for (const Ask::Reach& reach : ask_.reaches)
      result.reaches.push_back(ranked(reach.output, 1 - reach.share, reach_rank(reach.share, passes_)));
  }
  void fetch(const Passed& passed, const Running& running) { ranks_.fetch(passed, running); }

private:
  Ranked ranked(std::size_t output, double share, std::uint64_t rank) {
    const Interval bounds = ranks_.values(output, bounds_(output, share, rank));
    return {bounds.low, ranks_.value(output, rank), bounds.high};
  }
  Covering covering(std::size_t output) {
    const Interval symmetric = ranks_.values(output, symmetric_ranks(passes_, ask_.coverage));
    const bool all = counts_.all[output].total() == passes_;
    const RankPair ranks = all ? shortest_ranks(counts_.all[output], ask_.coverage) : RankPair{};
    const Interval shortest = ranks_.values(output, ranks);
    return {symmetric, symmetric.high - symmetric.low < shortest.high - shortest.low ? symmetric : shortest};
  }
  /// Each end by itself is that sure.
  Interval tolerance(std::size_t output) {
    const auto [content, confidence] = ask_.tolerance;
    const double two_sided = 2 * confidence - 1;
    const RankPair low = bounds_(output, 1 - content, reach_rank(content, passes_), two_sided);
    const RankPair high = bounds_(output, content, quantile_rank(content, passes_), two_sided);
    return ranks_.values(output, {low.low, high.high});
  }

  const Counts& counts_;
  const Ask& ask_;
  std::uint64_t passes_;
  BoundRanks bounds_;
  Ranks ranks_;
};

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
  Ranking ranking(counts, ask, plan.passes());
  ranking.fill(result);
  ranking.fetch(passed, half(running, 0.5));
  ranking.fill(result);
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
