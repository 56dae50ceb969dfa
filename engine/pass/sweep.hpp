#pragma once
/// One sweep over all passes: how they are cut into chunks, and the one way in which a pass is ever computed.
#include <algorithm>
#include <cstdint>
#include <functional>
#include <memory>
#include <mutex>
#include <vector>

#include "engine/draw/law.hpp"
#include "engine/draw/plan.hpp"
#include "engine/pass/block.hpp"
#include "engine/pass/loop.hpp"

namespace engine {

/// What is swept.
struct Passed {
  const Plan& plan;
  const Law& law;
  const BlockModel& model;
};

/// The chunks of a plan: runs of at most 32 blocks that lie in one net.
class Chunks {
public:
  static constexpr std::uint64_t most_blocks = 32;

  explicit Chunks(const Plan& plan) : plan_(plan) {
    each_ = std::min(most_blocks, plan.blocks_a_net());
    a_net_ = (plan.blocks_a_net() + each_ - 1) / each_;
  }
  std::uint64_t count() const { return plan_.nets() * a_net_; }
  std::uint64_t first(std::uint64_t chunk) const { return net(chunk) * plan_.blocks_a_net() + chunk % a_net_ * each_; }
  std::uint64_t end(std::uint64_t chunk) const {
    return std::min(first(chunk) + each_, (net(chunk) + 1) * plan_.blocks_a_net());
  }
  std::uint64_t net(std::uint64_t chunk) const { return chunk / a_net_; }

private:
  const Plan& plan_;
  std::uint64_t each_, a_net_;  ///< blocks a chunk, chunks a net
};

/// One thread's working blocks.
struct Scratch {
  explicit Scratch(const Passed& p)
      : u(std::max<std::size_t>(1, p.law.dimensions())),
        x(p.law.inputs()),
        y(p.model.outputs()),
        clipped(p.law.inputs()) {}
  Block u, x, y;
  std::vector<std::uint64_t> clipped;  ///< impossible draws so far, by input
};

/// Working memory that chunks hand on to one another, as much of it as there are threads.
template <class T>
class Pool {
public:
  using Held = std::unique_ptr<T, std::function<void(T*)>>;
  /// @param make  makes one more when all are out
  explicit Pool(std::function<std::unique_ptr<T>()> make) : make_(std::move(make)) {}
  /// One for as long as it is held; in whatever state the last holder left it.
  Held take() {
    const std::scoped_lock lock(mutex_);
    if (free_.empty()) free_.push_back(make_());
    T* one = free_.back().release();
    free_.pop_back();
    return {one, [this](T* back) { give(back); }};
  }

private:
  void give(T* back) {
    std::unique_ptr<T> owned(back);
    const std::scoped_lock lock(mutex_);
    free_.push_back(std::move(owned));
  }
  std::function<std::unique_ptr<T>()> make_;
  std::mutex mutex_;
  std::vector<std::unique_ptr<T>> free_;
};

/// Plan, law and model over one block, into scratch.
/// @return passes of the block
inline std::size_t pass_block(const Passed& p, std::uint64_t block, Scratch& s) {
  const std::size_t n = p.plan.size(block);
  p.plan.fill(block, s.u);
  p.law.transform(s.u, s.x, n, s.clipped);
  p.model.evaluate(s.x, s.y, n);
  return n;
}

}  // namespace engine
