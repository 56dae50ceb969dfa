#pragma once
/// Scrambled Sobol' nets: 2^m points a net, every net an independent scramble, any point computable alone.
#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "engine/draw/counter.hpp"

namespace engine {

/// Bits of a coordinate, and with it the largest 2^m of a net.
inline constexpr std::size_t sobol_bits = 52;
using Directions = std::array<std::uint64_t, sobol_bits>;

/// Direction numbers of the first `dimensions` Sobol' coordinates, most significant bit first in 64-bit words.
/// @param dimensions  1 … 3667
/// @source Joe & Kuo, SIAM J. Sci. Comput. 30 (2008), as Boost.Random carries them
/// @throws std::invalid_argument beyond 3667
std::vector<Directions> sobol_directions(std::size_t dimensions);

/// One scrambled net: a random lower-triangular matrix and a digital shift on each coordinate.
/// @source Matoušek, J. Complexity 14 (1998) (linear matrix scramble); Owen (2003) for its variance
class SobolNet {
public:
  /// @param key, stream  name the family of nets; `net` the independent scramble within it
  /// @param bits         the net has 2^bits points; no point beyond them may be asked for
  SobolNet(const std::vector<Directions>& directions, std::uint64_t key, Stream stream, std::uint64_t net,
           std::size_t bits = sobol_bits);

  /// Points first … first + n − 1 of one coordinate, in plain binary order, each strictly between 0 and 1.
  void fill(std::size_t dimension, std::uint64_t first, std::size_t n, double* u) const;

private:
  std::vector<Directions> scrambled_;
  std::vector<std::uint64_t> shift_;
};

}  // namespace engine
