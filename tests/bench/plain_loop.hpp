#pragma once
/// The loop that a programmer writes first: standard library generator and distributions, one pass after the other.
#include <algorithm>
#include <array>
#include <cstdint>
#include <limits>
#include <random>

#include "tests/bench/standard.hpp"

namespace bench {

struct PlainSums {
  std::uint64_t n = 0, below = 0;
  double mean = 0, squares = 0, least = std::numeric_limits<double>::infinity(), most = -least;
  std::array<std::uint64_t, 1000> bins{};
};

inline std::array<PlainSums, output_count> plain_loop(std::uint64_t passes, const std::array<double, 24>& ranges) {
  std::mt19937_64 dice(1);
  std::normal_distribution<double> torque(40, 2), yield(400e6, 20e6), modulus(207e9, 4e9);
  std::lognormal_distribution<double> friction(-2.0, 0.15), face_friction(-2.3, 0.15), model(0, 0.05);
  std::uniform_real_distribution<double> diameter(-1e-4, 1e-4), drag(0.5, 1.5);
  std::array<PlainSums, output_count> sums;
  for (std::uint64_t i = 0; i < passes; ++i) {
    const Out out = evaluate({torque(dice), friction(dice), face_friction(dice), yield(dice), modulus(dice),
                              model(dice), diameter(dice), drag(dice)});
    const std::array<double, output_count> y = {out.force,    out.thread_torque, out.efficiency,  out.axial,
                                                out.torsion,  out.combined,      out.bearing,     out.buckling,
                                                out.by_force, out.by_yield,      out.by_buckling, out.by_bearing};
    for (std::size_t k = 0; k < output_count; ++k) {
      PlainSums& s = sums[k];
      const double delta = y[k] - s.mean;
      s.mean += delta / static_cast<double>(++s.n);
      s.squares += delta * (y[k] - s.mean);
      s.least = std::min(s.least, y[k]);
      s.most = std::max(s.most, y[k]);
      if (k >= first_limit) s.below += y[k] < 1;
      const double at = (y[k] - ranges[2 * k]) / (ranges[2 * k + 1] - ranges[2 * k]) * 1000;
      ++s.bins[static_cast<std::size_t>(std::clamp(at, 0.0, 999.0))];
    }
  }
  return sums;
}

}  // namespace bench
