#pragma once
/// A sampling plan: which uniforms belong to which pass.
#include <cstdint>
#include <vector>

#include "engine/draw/sobol.hpp"
#include "engine/pass/block.hpp"

namespace engine {

/// Independent scrambles of a Sobol' plan, and independent designs of a Latin one: bounds come from their disagreement.
inline constexpr std::uint64_t net_count = 16;

/// Equal runs of passes that a plan is made of, each with numbers of its own: a run of batches `first` … `first + count
/// − 1` has exactly the passes of those batches one by one.
struct Batches {
  std::uint64_t first = 0, count = 1;
};

/// Which uniforms belong to which pass.
class Plan {
public:
  enum class Kind { plain, sobol, latin };

  /// @param dimensions  uniforms per pass; 0 is allowed
  /// @param count       passes asked for in a batch; sobol rounds up to net_count whole nets of 2^m ≥ 64 points, latin
  ///                    to net_count designs of any equal size ≥ 64
  /// @param batches     where there are several, net n of the plan is the nets n of all batches, one after the other
  Plan(Kind kind, std::size_t dimensions, std::uint64_t count, std::uint64_t key, Stream stream, Batches batches = {});

  Kind kind() const { return kind_; }
  std::uint64_t passes() const { return nets() * net_size(); }
  std::uint64_t nets() const { return kind_ == Kind::plain ? 1 : net_count; }
  std::uint64_t net_size() const { return runs_ * run_; }
  std::uint64_t blocks() const { return nets() * blocks_a_net(); }
  std::uint64_t blocks_a_net() const { return runs_ * blocks_a_run(); }
  /// Passes of one block: all of them in one scramble or design.
  std::size_t size(std::uint64_t block) const;
  /// First pass of a block.
  std::uint64_t first(std::uint64_t block) const { return block / blocks_a_run() * run_ + place(block); }
  std::uint64_t net(std::uint64_t block) const { return block / blocks_a_net(); }
  /// Uniforms of one block, one row a dimension.
  void fill(std::uint64_t block, Block& u) const;

private:
  std::uint64_t blocks_a_run() const { return (run_ + per_block_ - 1) / per_block_; }
  /// First pass of a block, counted from the first of its run.
  std::uint64_t place(std::uint64_t block) const { return block % blocks_a_run() * per_block_; }
  std::uint64_t family(std::uint64_t run) const;
  SobolNet scramble(std::uint64_t run) const;

  Kind kind_;
  std::size_t dimensions_;
  Batches batches_;
  std::uint64_t runs_, run_;  ///< scrambles or designs a net, and passes of each; plain: one, of all passes
  std::uint64_t first_pass_, per_block_ = 0, key_;
  Stream stream_;
  std::vector<Directions> directions_;
  std::vector<SobolNet> nets_;  ///< of a single batch; those of several are made as they are needed
};

/// The passes that a plan makes of a count asked for.
std::uint64_t whole_nets(Plan::Kind kind, std::uint64_t count);

}  // namespace engine
