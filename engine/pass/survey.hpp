#pragma once
/// A survey of a model: all passes of a plan through law and model, and what they come to, output by output.
#include <cstdint>
#include <vector>

#include "engine/draw/law.hpp"
#include "engine/draw/plan.hpp"
#include "engine/pass/block.hpp"
#include "engine/pass/loop.hpp"
#include "engine/summary/histogram.hpp"
#include "engine/summary/interval.hpp"
#include "engine/summary/moments.hpp"

namespace engine {

/// Hits are the passes on which an output is at least this.
struct Threshold {
  std::size_t output = 0;
  double least = 0;
};

/// A value of an output asked for by rank, with 95 % bounds; infinite where the passes are too few for one.
struct Ranked {
  double low = 0, estimate = 0, high = 0;
};

/// What a survey is asked.
struct Ask {
  std::vector<double>
      quantiles;  ///< of every output, each in (0, 1): the least value with at least that share at or below
  std::vector<Threshold> thresholds;
  /// Further ranks: (output, share): the largest value that at least `share` of the passes reach.
  struct Reach {
    std::size_t output = 0;
    double share = 0;
  };
  std::vector<Reach> reaches;
  bool keep = false;  ///< hold on to every pass
};

/// What a survey comes to.
struct Survey {
  std::uint64_t passes = 0;
  std::vector<Moments> moments;                ///< [output]
  std::vector<Histogram> histograms;           ///< [output]
  std::vector<std::vector<Ranked>> quantiles;  ///< [output][quantile]; NaN where an output has missing values
  std::vector<Ranked> reaches;                 ///< [reach]
  std::vector<std::uint64_t> hits;             ///< [threshold]
  std::vector<Interval> odds;                  ///< [threshold], 95 %
  std::vector<std::uint64_t> clipped;          ///< [input] impossible draws
  std::vector<std::vector<double>> kept_inputs, kept_outputs;  ///< [row][pass], when kept
};

/// Runs every pass twice: once for moments, counts and histograms, once to fetch the exact values of the ranks asked
/// for from the bins that hold them. Memory does not grow with the passes (apart from `keep` and the fetched bins).
/// Same plan, law and model: same bits, whatever `running` says.
Survey survey(const Plan& plan, const Law& law, const BlockModel& model, const Ask& ask, std::uint64_t key,
              const Running& running);

/// Largest number of misses that odds allow on `passes` passes: floor((1 − odds)·passes), safe against rounding.
std::uint64_t misses_allowed(double odds, std::uint64_t passes);

}  // namespace engine
