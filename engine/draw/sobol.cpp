#include "engine/draw/sobol.hpp"

#include <algorithm>
#include <bit>
#include <boost/random/sobol.hpp>
#include <stdexcept>

#include "engine/draw/block_math.hpp"

namespace engine {
namespace {

/// Random word `index` of coordinate `dimension` of a net.
std::uint64_t word(std::uint64_t key, Stream stream, std::uint64_t net, std::size_t dimension, std::uint64_t index) {
  const std::uint64_t place = (static_cast<std::uint64_t>(dimension) << 8) | (index >> 1);
  return threefry({net, place}, {key, static_cast<std::uint64_t>(stream) << 32})[index & 1];
}

/// Direction numbers under a random lower-triangular bit matrix: output bit r is the parity of the input bits at and
/// above r, chosen at random, with bit r itself always in.
Directions scramble(const Directions& plain, std::uint64_t key, Stream stream, std::uint64_t net, std::size_t dimension,
                    std::size_t bits) {
  Directions scrambled{};
  for (std::size_t r = 0; r < sobol_bits; ++r) {
    const std::uint64_t bit = std::uint64_t{1} << (63 - r), above = ~(bit - 1) & ~bit;
    const std::uint64_t rowmask = (word(key, stream, net, dimension, r) & above) | bit;
    for (std::size_t j = 0; j < bits; ++j)
      if (std::popcount(plain[j] & rowmask) & 1) scrambled[j] |= bit;
  }
  return scrambled;
}

}  // namespace

std::vector<Directions> sobol_directions(std::size_t dimensions) {
  if (dimensions < 1 || dimensions > 3667) throw std::invalid_argument("Sobol' nets have 1 to 3667 dimensions");
  std::vector<Directions> directions(dimensions);
  // Boost walks in Gray-code order from point 1: point 2^j there is v_(j+1) ^ v_j, so the numbers unfold one by one.
  for (std::size_t j = 0; j < sobol_bits; ++j) {
    boost::random::sobol walk(dimensions);
    walk.discard(((std::uint64_t{1} << j) - 1) * dimensions);
    for (std::size_t d = 0; d < dimensions; ++d) directions[d][j] = walk() ^ (j > 0 ? directions[d][j - 1] : 0);
  }
  return directions;
}

SobolNet::SobolNet(const std::vector<Directions>& directions, std::uint64_t key, Stream stream, std::uint64_t net,
                   std::size_t bits) {
  for (std::size_t d = 0; d < directions.size(); ++d) {
    scrambled_.push_back(scramble(directions[d], key, stream, net, d, std::min(bits + 1, sobol_bits)));
    shift_.push_back(word(key, stream, net, d, 64));
  }
}

void SobolNet::fill(std::size_t dimension, std::uint64_t first, std::size_t n, double* u) const {
  const Directions& v = scrambled_[dimension];
  // Runs of 2^m points that start at a multiple of 2^m: in such a run only the low m bits of the index differ.
  constexpr std::uint64_t longest = 1024;
  for (std::size_t done = 0, run = 0; done < n; done += run) {
    const std::uint64_t index = first + done, aligned = index == 0 ? longest : index & (~index + 1);
    run = std::min({aligned, longest, std::bit_floor(static_cast<std::uint64_t>(n - done))});
    std::uint64_t start = shift_[dimension];
    for (std::uint64_t bits = index; bits; bits &= bits - 1)
      start ^= v[static_cast<std::size_t>(std::countr_zero(bits))];
    block_math().net(start, v.data(), u + done, run);
  }
}

}  // namespace engine
