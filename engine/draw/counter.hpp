#pragma once
/// Random numbers by address: a pure function of (key, counter), no state, so any number can be had alone, anywhere.
#include <array>
#include <cstdint>

namespace engine {

using Words = std::array<std::uint64_t, 2>;

/// Threefry-2x64 with 20 rounds.
/// @source Salmon, Moraes, Dror, Shaw: Parallel random numbers: as easy as 1, 2, 3 (SC11); bit-equal to the authors'
/// code
inline Words threefry(Words counter, Words key) {
  constexpr int turns[8] = {16, 42, 12, 31, 16, 32, 24, 21};
  const std::uint64_t keys[3] = {key[0], key[1], 0x1BD11BDAA9FC1A22u ^ key[0] ^ key[1]};
  std::uint64_t a = counter[0] + keys[0], b = counter[1] + keys[1];
  for (unsigned round = 0; round < 20; ++round) {
    const int turn = turns[round % 8];
    a += b;
    b = (b << turn) | (b >> (64 - turn));
    b ^= a;
    if (round % 4 == 3) {
      const unsigned group = round / 4 + 1;
      a += keys[group % 3];
      b += keys[(group + 1) % 3] + group;
    }
  }
  return {a, b};
}

/// A word to a number strictly between 0 and 1, symmetric about 1/2: the middle of one of 2^52 cells.
inline double unit(std::uint64_t word) { return (static_cast<double>(word >> 12) + 0.5) * 0x1p-52; }

/// What a run of random numbers is for: distinct streams of one key never meet.
enum class Stream : std::uint64_t {
  verdict = 1,
  search = 2,
  pilot = 3,
  starts = 4,
  shares = 5,
  swings = 6,
  rare = 8,
  test = 15
};

}  // namespace engine
