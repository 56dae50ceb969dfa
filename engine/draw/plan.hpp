#pragma once
/// A sampling plan: which uniforms belong to which pass.
#include <cstdint>
#include <vector>

#include "engine/draw/sobol.hpp"
#include "engine/pass/block.hpp"

namespace engine {

/// Independent scrambles of a Sobol' plan, and independent designs of a Latin one: bounds come from their disagreement.
inline constexpr std::uint64_t net_count = 16;

class Plan {
public:
  enum class Kind { plain, sobol, latin };

  /// @param dimensions  uniforms per pass; 0 is allowed
  /// @param count       passes asked for; sobol rounds up to net_count whole nets of 2^m ≥ 64 points, latin to
  /// net_count
  ///                    designs of any equal size ≥ 64
  Plan(Kind kind, std::size_t dimensions, std::uint64_t count, std::uint64_t key, Stream stream);

  Kind kind() const { return kind_; }
  std::uint64_t passes() const { return passes_; }
  std::uint64_t nets() const { return kind_ == Kind::plain ? 1 : net_count; }
  std::uint64_t net_size() const { return passes_ / nets(); }
  std::uint64_t blocks() const { return nets() * blocks_a_net(); }
  std::uint64_t blocks_a_net() const { return (net_size() + per_block_ - 1) / per_block_; }
  /// Passes of one block: all of them in one net.
  std::size_t size(std::uint64_t block) const;
  /// First pass of a block.
  std::uint64_t first(std::uint64_t block) const { return net(block) * net_size() + place(block); }
  std::uint64_t net(std::uint64_t block) const { return block / blocks_a_net(); }
  /// Uniforms of one block, one row a dimension.
  void fill(std::uint64_t block, Block& u) const;

private:
  /// First pass of a block, counted from the first of its net.
  std::uint64_t place(std::uint64_t block) const { return block % blocks_a_net() * per_block_; }

  Kind kind_;
  std::size_t dimensions_;
  std::uint64_t passes_, per_block_, key_;
  Stream stream_;
  std::vector<SobolNet> nets_;
};

/// The passes that a plan makes of a count asked for.
std::uint64_t whole_nets(Plan::Kind kind, std::uint64_t count);

}  // namespace engine
