#pragma once
/// Addressed standard normals for the room: every use of them has a family of its own.
#include <cstdint>

#include "engine/draw/counter.hpp"
#include "engine/draw/marginal.hpp"
#include "engine/pass/block.hpp"

namespace engine::rare {

/// What a family of normals is for.
enum class Use : std::uint64_t { directions = 1, pilot = 2, importance = 3, subset = 4, direct = 5, search = 6 };

/// Random numbers of one use: a pure function of (key, use, round, place).
class Normals {
public:
  Normals(std::uint64_t key, Use use, std::uint64_t round)
      : key_{threefry({static_cast<std::uint64_t>(use), round}, {key, static_cast<std::uint64_t>(Stream::rare)})} {}

  /// Standard normals of a whole block, one row a dimension; places of different blocks never meet.
  void fill(std::uint64_t block, Block& z, std::size_t n) const {
    for (std::size_t d = 0; d < z.rows(); d += 2)
      for (std::size_t i = 0; i < n; ++i) {
        const Words words = threefry({block * block_size + i, d / 2}, key_);
        z.row(d)[i] = normal_quantile(engine::unit(words[0]));
        if (d + 1 < z.rows()) z.row(d + 1)[i] = normal_quantile(engine::unit(words[1]));
      }
  }

  /// A uniform of a column of a block, beside its normals.
  double uniform(std::uint64_t block, std::size_t column) const {
    return engine::unit(threefry({block * block_size + column, ~std::uint64_t{0}}, key_)[0]);
  }

private:
  Words key_;
};

}  // namespace engine::rare
