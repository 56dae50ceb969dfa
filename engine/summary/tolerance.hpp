#pragma once
/// When an estimate has settled: its scatter from batch to batch against the digits that are to stand.
#include <cstdint>

#include "engine/summary/moments.hpp"

namespace engine {

/// Half a unit in the last of `digits` significant digits of a value: for 0.0358 and 2 digits (36·10⁻³) 0.0005.
/// @param value  not 0 and finite, else 0 comes back; rounded to those digits first, so 9.96 has them as 10 has
/// @source JCGM 101:2008, 7.9.2
double numerical_tolerance(double value, int digits);

/// One quantity as each batch in turn estimates it.
class Estimates {
public:
  void add(double estimate) { moments_.merge(Moments::of(&estimate, 1)); }
  /// Twice the standard deviation of the batches' mean; infinite for fewer than two batches or where one gave no
  /// number.
  /// @source JCGM 101:2008, 7.9.4 g) to k)
  double tolerance() const;
  /// Mean of the batches' estimates.
  double mean() const { return moments_.mean; }

private:
  Moments moments_;
};

}  // namespace engine
