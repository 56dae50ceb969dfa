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
  double coverage = 0;  ///< share that an interval of every output is to cover; 0: none
  /// A share of all there will ever be and how surely: of every output, bounds that so much lies at or above, at or
  /// below.
  struct Tolerance {
    double content = 0, confidence = 0;  ///< 0: none
  } tolerance;
  bool keep = false;  ///< hold on to every pass
};

/// Intervals that cover a share of the passes.
struct Covering {
  Interval symmetric;  ///< as many passes below as above
  Interval shortest;   ///< never longer than the symmetric one; the very shortest to two bins of the histogram
};

/// What a survey comes to.
struct Survey {
  std::uint64_t passes = 0;
  std::vector<Moments> moments;                ///< [output]
  std::vector<Histogram> histograms;           ///< [output]
  std::vector<std::vector<Ranked>> quantiles;  ///< [output][quantile]; NaN where an output has missing values
  std::vector<Ranked> reaches;                 ///< [reach]
  std::vector<Covering> coverage;              ///< [output], where asked
  /// [output], where asked: `content` of all there will ever be lies at or above low, `confidence` sure; and likewise
  /// at or below high. Two statements, each as sure by itself; infinite where the passes are too few for one.
  std::vector<Interval> tolerance;
  std::vector<std::uint64_t> hits;                             ///< [threshold]
  std::vector<Interval> odds;                                  ///< [threshold], 95 %
  std::vector<std::uint64_t> clipped;                          ///< [input] impossible draws
  std::vector<std::vector<double>> kept_inputs, kept_outputs;  ///< [row][pass], when kept
};

/// Runs every pass twice: once for moments, counts and histograms, once to fetch the exact values of the ranks asked
/// for from the bins that hold them; more often where these hold more than fits (`fetch`). Memory does not grow with
/// the passes, apart from `keep`. Same plan, law and model: same bits, whatever `running` says.
Survey survey(const Plan& plan, const Law& law, const BlockModel& model, const Ask& ask, std::uint64_t key,
              const Running& running);

/// Largest number of misses that odds allow on `passes` passes: floor((1 − odds)·passes), safe against rounding.
std::uint64_t misses_allowed(double odds, std::uint64_t passes);

}  // namespace engine
