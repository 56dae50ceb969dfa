#pragma once
/// A sampling plan: which uniforms belong to which pass.
#include <cstdint>
#include <vector>

#include "engine/draw/sobol.hpp"
#include "engine/pass/block.hpp"

namespace engine {

/// Independent scrambles of a Sobol' plan: its bounds come from their disagreement.
inline constexpr std::uint64_t net_count = 16;

/// Equal runs of passes that a plan is made of, each with numbers of its own: a run of batches `first` … `first + count
/// − 1` has exactly the passes of those batches one by one.
struct Batches {
  std::uint64_t first = 0, count = 1;
};

/// Which uniforms belong to which pass.
class Plan {
public:
  enum class Kind { plain, sobol };

  /// @param dimensions  uniforms per pass; 0 is allowed
  /// @param count       passes asked for in a batch; sobol rounds up to net_count whole nets of 2^m ≥ 64 points
  /// @param batches     where there are several, net n of the plan is the nets n of all batches, one after the other
  Plan(Kind kind, std::size_t dimensions, std::uint64_t count, std::uint64_t key, Stream stream, Batches batches = {});

  Kind kind() const { return kind_; }
  std::uint64_t passes() const { return passes_; }
  std::uint64_t nets() const { return kind_ == Kind::sobol ? net_count : 1; }
  std::uint64_t net_size() const { return passes_ / nets(); }
  std::uint64_t blocks() const { return (passes_ + per_block_ - 1) / per_block_; }
  /// Passes of one block: all of them in one net.
  std::size_t size(std::uint64_t block) const;
  /// First pass of a block.
  std::uint64_t first(std::uint64_t block) const { return block * per_block_; }
  std::uint64_t net(std::uint64_t block) const { return block * per_block_ / net_size(); }
  /// Uniforms of one block, one row a dimension.
  void fill(std::uint64_t block, Block& u) const;

private:
  SobolNet scramble(std::uint64_t number) const;

  Kind kind_;
  std::size_t dimensions_;
  Batches batches_;
  std::uint64_t passes_, points_, per_block_, key_;  ///< points_: of one scramble
  Stream stream_;
  std::vector<Directions> directions_;
  std::vector<SobolNet> nets_;  ///< of a single batch; those of several are made as they are needed
};

/// The passes that a plan makes of a count asked for.
std::uint64_t whole_nets(Plan::Kind kind, std::uint64_t count);

}  // namespace engine
