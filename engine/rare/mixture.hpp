#pragma once
/// The density that importance sampling draws from: a mixture of normal bumps.
#include <cstdint>
#include <vector>

#include "engine/rare/normals.hpp"
#include "engine/rare/subset.hpp"

namespace engine::rare {

/// A normal density centred at `shift` times the unit vector `axis`, with one spread along the axis and one across it.
struct Bump {
  Point axis;        ///< unit vector
  double shift = 0;  ///< [-]
  double along = 1, across = 1;
  double weight = 1;  ///< share of the draws; a mixture's weights sum to 1
};

class Mixture {
public:
  /// @param bumps  at least one; the weights are scaled to sum to 1
  explicit Mixture(std::vector<Bump> bumps);

  /// A block of draws: each bump gets its share of the columns, to within one, from a random offset.
  void draw(const Normals& normals, std::uint64_t block, Block& u) const;
  /// φ(u)/q(u) of every column: the weight of a draw.
  void weigh(const Block& u, std::vector<double>& weight) const;
  const std::vector<Bump>& bumps() const { return bumps_; }

private:
  std::vector<Bump> bumps_;
};

}  // namespace engine::rare
