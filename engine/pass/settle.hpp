#pragma once
/// How many passes it takes until what is estimated stands to so many digits.
#include <cstdint>
#include <vector>

#include "engine/draw/law.hpp"
#include "engine/draw/plan.hpp"
#include "engine/pass/block.hpp"
#include "engine/pass/loop.hpp"
#include "engine/pass/survey.hpp"
#include "engine/summary/tolerance.hpp"

namespace engine {

/// The rule by which passes are added.
struct SettleRule {
  int digits = 2;         ///< of the spread that are to stand, 1 or 2 usually
  double share = 0.95;    ///< that the interval covers whose ends have to settle
  bool shortest = false;  ///< the shortest such interval instead of the symmetric one
  double part = 1;        ///< of the tolerance allowed; when to change: 1/5 to check a first-order result (8.2)
  std::uint64_t least_batches = 10;     ///< the rule alone can stop at two that agree by chance
  std::uint64_t at_most = 100'000'000;  ///< passes

  /// Passes of a batch, before rounding up to whole nets: the larger of 10⁴ and 100/(1 − share).
  /// @source JCGM 101:2008, 7.9.4 b)
  std::uint64_t batch() const;
};

/// What has to settle.
struct SettleAsk {
  std::vector<std::size_t>
      outputs;  ///< mean, spread and the ends of the interval of each; one that never varies has settled
  struct Odds {
    Threshold threshold;
    double allowed = 0;  ///< share of misses allowed: the odds settle to the digits of this
  };
  std::vector<Odds> odds;
};

/// One quantity and how it settled.
struct Settled {
  enum class What { mean, spread, low, high, odds } what = What::mean;
  std::size_t index = 0;  ///< into the outputs or odds asked for
  double tolerance = 0;   ///< twice the standard deviation of the batches' mean; infinite: unknown
  double allowed = 0;     ///< the tolerance that the digits allow
  bool settled = false;
};

struct Settling {
  bool settled = false;  ///< everything; else the passes reached their most
  std::uint64_t batches = 0, batch_passes = 0;
  std::vector<Settled> estimates;  ///< output by output, then the odds
};

/// Adds batch after batch (whole plans, `Batches{h, 1}`) until everything asked for has settled by the rule, or one
/// more would exceed the most; at least one is made. `Plan(kind, …, rule.batch(), key, stream, {0, batches})` then has
/// all their passes. An output with a missing or unbounded value has no spread to take digits from: it is left out, and
/// counts as settled. Memory does not grow with the batches. Same bits whatever `running` says.
/// @source JCGM 101:2008, 7.9.4, with a floor on the batches and the odds added
Settling settle(Plan::Kind kind, std::uint64_t key, Stream stream, const Law& law, const BlockModel& model,
                const SettleRule& rule, const SettleAsk& ask, const Running& running);

}  // namespace engine
