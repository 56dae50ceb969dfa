#pragma once
/// The first sweep: moments, histograms and hits.
#include <cstdint>
#include <vector>

#include "engine/pass/survey.hpp"
#include "engine/pass/sweep.hpp"

namespace engine {

/// What the first sweep counts, net by net where bounds need it.
struct Counts {
  std::vector<Moments> moments;                  ///< [output]
  std::vector<Histogram> all;                    ///< [output]
  std::vector<std::vector<Histogram>> nets;      ///< [net][output]
  std::vector<std::vector<std::uint64_t>> hits;  ///< [threshold][net]
  std::vector<std::uint64_t> clipped;            ///< [input]
};

/// @param kept  where every pass goes when asked to be kept (its kept_inputs and kept_outputs)
Counts count(const Passed& passed, const Ask& ask, std::uint64_t key, const Running& running, Survey& kept);

}  // namespace engine
