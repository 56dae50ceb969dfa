#include "engine/pass/settle.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "engine/pass/sweep.hpp"
#include "engine/summary/coverage.hpp"

namespace engine {
namespace {

/// What one batch says.
struct Batch {
  std::vector<Moments> moments;  ///< [output asked for]
  std::vector<Interval> ends;    ///< [output asked for]
  std::vector<double> odds;      ///< [odds asked for]
};

/// Ends of the interval that covers the rule's share of the values, which are sorted as far as that takes.
Interval ends_of(std::vector<double>& values, const SettleRule& rule) {
  RankPair ranks = symmetric_ranks(values.size(), rule.share);
  const auto at = [&](std::uint64_t rank) { return values.begin() + static_cast<std::ptrdiff_t>(rank - 1); };
  if (rule.shortest) {
    std::sort(values.begin(), values.end());
    ranks = shortest_ranks(values, rule.share);
  } else {
    std::nth_element(values.begin(), at(ranks.low), values.end());
    std::nth_element(at(ranks.low) + 1, at(ranks.high), values.end());  // ranks.low < ranks.high in a batch
  }
  return {*at(ranks.low), *at(ranks.high)};
}

Batch make(const Passed& passed, const SettleRule& rule, const SettleAsk& ask) {
  constexpr double none = std::numeric_limits<double>::quiet_NaN();
  std::vector<std::vector<double>> values(ask.outputs.size());
  for (auto& row : values) row.reserve(passed.plan.passes());
  Batch batch{std::vector<Moments>(ask.outputs.size()), {}, {}};
  std::vector<std::uint64_t> hits(ask.odds.size());
  Scratch scratch(passed);
  for (std::uint64_t b = 0; b < passed.plan.blocks(); ++b) {
    const std::size_t n = pass_block(passed, b, scratch);
    for (std::size_t k = 0; k < ask.outputs.size(); ++k) {
      const double* row = scratch.y.row(ask.outputs[k]);
      batch.moments[k].merge(Moments::of(row, n));
      values[k].insert(values[k].end(), row, row + n);
    }
    for (std::size_t t = 0; t < ask.odds.size(); ++t) {
      const double* row = scratch.y.row(ask.odds[t].threshold.output);
      for (std::size_t i = 0; i < n; ++i) hits[t] += row[i] >= ask.odds[t].threshold.least;
    }
  }
  for (std::size_t k = 0; k < values.size(); ++k)
    batch.ends.push_back(batch.moments[k].missing > 0 ? Interval{none, none} : ends_of(values[k], rule));
  for (const std::uint64_t h : hits)
    batch.odds.push_back(static_cast<double>(h) / static_cast<double>(passed.plan.passes()));
  return batch;
}

/// The batches so far.
class Record {
public:
  Record(const SettleRule& rule, const SettleAsk& ask)
      : rule_(rule), ask_(ask), all_(ask.outputs.size()), of_outputs_(ask.outputs.size()), odds_(ask.odds.size()) {}

  void add(const Batch& batch) {
    ++batches_;
    for (std::size_t k = 0; k < all_.size(); ++k) {
      all_[k].merge(batch.moments[k]);
      const double said[4] = {batch.moments[k].mean, batch.moments[k].spread(), batch.ends[k].low, batch.ends[k].high};
      for (std::size_t i = 0; i < 4; ++i) of_outputs_[k][i].add(said[i]);
    }
    for (std::size_t t = 0; t < odds_.size(); ++t) odds_[t].add(batch.odds[t]);
  }

  std::uint64_t batches() const { return batches_; }

  std::vector<Settled> estimates() const {
    std::vector<Settled> all;
    for (std::size_t k = 0; k < all_.size(); ++k) {
      const Moments& m = all_[k];
      if (m.missing > 0 || m.unbounded > 0) continue;
      for (std::size_t i = 0; i < 4; ++i)
        all.push_back(
            judged(static_cast<Settled::What>(i), k, of_outputs_[k][i], numerical_tolerance(m.spread(), rule_.digits)));
    }
    for (std::size_t t = 0; t < odds_.size(); ++t)
      all.push_back(judged(Settled::What::odds, t, odds_[t], numerical_tolerance(ask_.odds[t].allowed, rule_.digits)));
    return all;
  }

  bool settled() const {
    const std::vector<Settled> all = estimates();
    return batches_ >= std::max<std::uint64_t>(2, rule_.least_batches) &&
           std::all_of(all.begin(), all.end(), [](const Settled& s) { return s.settled; });
  }

private:
  Settled judged(Settled::What what, std::size_t index, const Estimates& estimates, double allowed) const {
    const double tolerance = estimates.tolerance();
    return {what, index, tolerance, rule_.part * allowed, tolerance <= rule_.part * allowed};
  }

  const SettleRule& rule_;
  const SettleAsk& ask_;
  std::uint64_t batches_ = 0;
  std::vector<Moments> all_;
  std::vector<std::array<Estimates, 4>> of_outputs_;
  std::vector<Estimates> odds_;
};

}  // namespace

std::uint64_t SettleRule::batch() const {
  return std::max<std::uint64_t>(10'000, static_cast<std::uint64_t>(std::ceil(100 / (1 - share) - 1e-9)));
}

Settling settle(Plan::Kind kind, std::uint64_t key, Stream stream, const Law& law, const BlockModel& model,
                const SettleRule& rule, const SettleAsk& ask, const Running& running) {
  Settling result;
  result.batch_passes = whole_nets(kind, rule.batch());
  Record record(rule, ask);
  run_chunks(
      std::max<std::uint64_t>(1, rule.at_most / result.batch_passes), running,
      [&](std::uint64_t h) {
        const Plan plan(kind, law.dimensions(), rule.batch(), key, stream, Batches{h, 1});
        return make({plan, law, model}, rule, ask);
      },
      [&](const Batch& batch) {
        record.add(batch);
        result.settled = record.settled();
        return !result.settled;
      });
  result.batches = record.batches();
  result.estimates = record.estimates();
  return result;
}

}  // namespace engine
