#pragma once
/// How far an output goes when one input alone goes from its low to its high end.
#include <cstdint>
#include <vector>

#include "engine/draw/law.hpp"
#include "engine/pass/block.hpp"

namespace engine {

/// One input's swing: from its 5 % to its 95 % quantile, every other input at nominal.
struct Swing {
  std::size_t input = 0;
  double from = 0, to = 0;        ///< values of the input
  double at_from = 0, at_to = 0;  ///< the output there; NaN or infinite where the model says so
};

/// Swings of the output for every input that has a part in the law, in the order of the inputs. The quantiles are ranks
/// of swing_passes drawn passes, since an input of several parts has no closed form.
/// @param nominal  [input]
std::vector<Swing> swings(const Law& law, const BlockModel& model, std::size_t output,
                          const std::vector<double>& nominal, std::uint64_t key);

inline constexpr std::uint64_t swing_passes = 16384;

}  // namespace engine
