#pragma once
/// Random numbers by address: a pure function of (key, counter), no state, so any number can be had alone, anywhere.
#include <array>
#include <cstdint>

namespace engine {

using Words = std::array<std::uint64_t, 2>;

/// Four rounds and the key that follows them; written out so that a loop over counters vectorises.
template <int first, int second, int third, int fourth>
[[gnu::always_inline]] inline void threefry_group(std::uint64_t& a, std::uint64_t& b, std::uint64_t key,
                                                  std::uint64_t next_key, std::uint64_t group) {
  a += b, b = ((b << first) | (b >> (64 - first))) ^ a;
  a += b, b = ((b << second) | (b >> (64 - second))) ^ a;
  a += b, b = ((b << third) | (b >> (64 - third))) ^ a;
  a += b, b = ((b << fourth) | (b >> (64 - fourth))) ^ a;
  a += key, b += next_key + group;
}

/// Threefry-2x64 with 20 rounds: a counter (a, b) becomes two random words.
/// @source Salmon, Moraes, Dror, Shaw: Parallel random numbers: as easy as 1, 2, 3 (SC11); bit-equal to the authors'
/// code
[[gnu::always_inline]] inline void threefry_in_place(std::uint64_t& a, std::uint64_t& b, std::uint64_t key0,
                                                     std::uint64_t key1) {
  const std::uint64_t key2 = 0x1BD11BDAA9FC1A22u ^ key0 ^ key1;
  a += key0, b += key1;
  threefry_group<16, 42, 12, 31>(a, b, key1, key2, 1);
  threefry_group<16, 32, 24, 21>(a, b, key2, key0, 2);
  threefry_group<16, 42, 12, 31>(a, b, key0, key1, 3);
  threefry_group<16, 32, 24, 21>(a, b, key1, key2, 4);
  threefry_group<16, 42, 12, 31>(a, b, key2, key0, 5);
}

inline Words threefry(Words counter, Words key) {
  threefry_in_place(counter[0], counter[1], key[0], key[1]);
  return counter;
}

/// A word to a number strictly between 0 and 1, symmetric about 1/2: the middle of one of 2^52 cells. By its bits, as
/// the fraction of a number from 1 to 2, since narrow instruction sets convert whole numbers slowly; every step is
/// exact.
[[gnu::always_inline]] inline double unit(std::uint64_t word) {
  return (__builtin_bit_cast(double, (word >> 12) | 0x3ff0000000000000u) - 1) + 0x1p-53;
}

/// What a run of random numbers is for: distinct streams of one key never meet.
enum class Stream : std::uint64_t {
  verdict = 1,
  search = 2,
  pilot = 3,
  starts = 4,
  shares = 5,
  swings = 6,
  rare = 8,
  refine = 9,
  worth = 10,
  compare = 11,
  test = 15
};

}  // namespace engine
