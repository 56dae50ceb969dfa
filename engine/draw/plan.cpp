#include "engine/draw/plan.hpp"

#include <algorithm>
#include <bit>

#include "engine/draw/block_math.hpp"
#include "engine/draw/latin.hpp"

namespace engine {
namespace {

constexpr std::uint64_t least_net = 64;

}  // namespace

std::uint64_t whole_nets(Plan::Kind kind, std::uint64_t count) {
  if (kind == Plan::Kind::plain) return std::max<std::uint64_t>(count, 1);
  const std::uint64_t a_net = (count + net_count - 1) / net_count;
  const std::uint64_t size = std::max(a_net, least_net);
  return net_count * (kind == Plan::Kind::sobol ? std::bit_ceil(size) : size);
}

Plan::Plan(Kind kind, std::size_t dimensions, std::uint64_t count, std::uint64_t key, Stream stream, Batches batches)
    : kind_(kind),
      dimensions_(dimensions),
      batches_(batches),
      runs_(kind == Kind::plain ? 1 : batches.count),
      run_(whole_nets(kind, count) / (kind == Kind::plain ? 1 : net_count) * (batches.count / runs_)),
      first_pass_(kind == Kind::plain ? batches.first * whole_nets(kind, count) : 0),
      key_(key),
      stream_(stream) {
  per_block_ = kind == Kind::plain ? block_size : std::min<std::uint64_t>(block_size, run_);
  if (kind != Kind::sobol || dimensions == 0) return;
  directions_ = sobol_directions(dimensions);
  for (std::uint64_t net = 0; runs_ == 1 && net < net_count; ++net) nets_.push_back(scramble(net));
}

/// Which of the independent scrambles or designs a run is: all of net 0 come first, batch by batch, then those of
/// net 1.
std::uint64_t Plan::family(std::uint64_t run) const { return (batches_.first + run % runs_) * net_count + run / runs_; }

SobolNet Plan::scramble(std::uint64_t run) const {
  return {directions_, key_, stream_, family(run), static_cast<std::size_t>(std::countr_zero(run_))};
}

std::size_t Plan::size(std::uint64_t block) const {
  return static_cast<std::size_t>(std::min(per_block_, run_ - place(block)));
}

void Plan::fill(std::uint64_t block, Block& u) const {
  const std::size_t n = size(block);
  const std::uint64_t run = block / blocks_a_run(), place = this->place(block);
  if (kind_ == Kind::sobol) {
    const auto draw = [&](const SobolNet& net) {
      for (std::size_t d = 0; d < dimensions_; ++d) net.fill(d, place, n, u.row(d));
    };
    if (dimensions_ > 0) nets_.empty() ? draw(scramble(run)) : draw(nets_[run]);
    return;
  }
  if (kind_ == Kind::latin) {
    const LatinDesign design(run_, key_, stream_, family(run));
    for (std::size_t d = 0; d < dimensions_; ++d) design.fill(d, place, n, u.row(d));
    return;
  }
  for (std::size_t d = 0; d < dimensions_; d += 2)
    block_math().uniforms(first_pass_ + place, d / 2, key_, static_cast<std::uint64_t>(stream_), u.row(d),
                          d + 1 < dimensions_ ? u.row(d + 1) : nullptr, n);
}

}  // namespace engine
