#pragma once
/// Latin designs: n points of which each coordinate has exactly one in each of n equal strata, any point computable
/// alone.
#include <array>
#include <cstddef>
#include <cstdint>

#include "engine/draw/counter.hpp"

namespace engine {

/// A random order of 0 … size − 1, computed place by place and stored nowhere: Feistel rounds on the digits of a place
/// in a mixed base a·b ≥ size, walked on until they come back below size.
/// @source Black & Rogaway, Ciphers with arbitrary finite domains, CT-RSA 2002
class Order {
public:
  /// @param size  1 … 2^40
  Order(std::uint64_t size, Words counter, Words key);
  std::uint64_t operator()(std::uint64_t place) const;

private:
  static constexpr std::size_t rounds = 8;
  std::uint64_t size_, wide_, tall_;
  std::array<std::uint64_t, rounds> keys_{};
};

/// One Latin design: an independent order of the strata on each coordinate, and a random place within each stratum.
/// @source McKay, Beckman, Conover, Technometrics 21 (1979)
class LatinDesign {
public:
  /// @param key, stream  name the family of designs; `net` the independent one within it
  LatinDesign(std::uint64_t size, std::uint64_t key, Stream stream, std::uint64_t net)
      : size_(size), net_(net), key_{key, static_cast<std::uint64_t>(stream) << 32 | 1} {}

  /// Points first … first + n − 1 of one coordinate, each strictly between 0 and 1.
  void fill(std::size_t dimension, std::uint64_t first, std::size_t n, double* u) const;

private:
  std::uint64_t size_, net_;
  Words key_;
};

}  // namespace engine
