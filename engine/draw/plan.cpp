#include "engine/draw/plan.hpp"

#include <algorithm>
#include <bit>

namespace engine {
namespace {

constexpr std::uint64_t least_net = 64;

}  // namespace

std::uint64_t whole_nets(Plan::Kind kind, std::uint64_t count) {
  if (kind == Plan::Kind::plain) return std::max<std::uint64_t>(count, 1);
  const std::uint64_t a_net = (count + net_count - 1) / net_count;
  return net_count * std::bit_ceil(std::max(a_net, least_net));
}

Plan::Plan(Kind kind, std::size_t dimensions, std::uint64_t count, std::uint64_t key, Stream stream, Batches batches)
    : kind_(kind),
      dimensions_(dimensions),
      batches_(batches),
      passes_(whole_nets(kind, count) * batches.count),
      points_(whole_nets(kind, count) / (kind == Kind::sobol ? net_count : 1)),
      key_(key),
      stream_(stream) {
  per_block_ = kind == Kind::sobol ? std::min<std::uint64_t>(block_size, points_) : block_size;
  if (kind == Kind::plain || dimensions == 0) return;
  directions_ = sobol_directions(dimensions);
  for (std::uint64_t net = 0; batches.count == 1 && net < net_count; ++net) nets_.push_back(scramble(net));
}

/// @param number  of the scramble within the plan: all of net 0, batch by batch, then all of net 1
SobolNet Plan::scramble(std::uint64_t number) const {
  const std::uint64_t net = number / batches_.count, batch = batches_.first + number % batches_.count;
  return {directions_, key_, stream_, batch * net_count + net, static_cast<std::size_t>(std::countr_zero(points_))};
}

std::size_t Plan::size(std::uint64_t block) const {
  return static_cast<std::size_t>(std::min(per_block_, passes_ - block * per_block_));
}

void Plan::fill(std::uint64_t block, Block& u) const {
  const std::uint64_t first = block * per_block_;
  const std::size_t n = size(block);
  if (kind_ == Kind::sobol) {
    const auto draw = [&](const SobolNet& net) {
      for (std::size_t d = 0; d < dimensions_; ++d) net.fill(d, first % points_, n, u.row(d));
    };
    if (nets_.empty() && dimensions_ > 0)
      draw(scramble(first / points_));
    else if (dimensions_ > 0)
      draw(nets_[first / points_]);
    return;
  }
  const std::uint64_t from = batches_.first * points_ + first;
  for (std::size_t d = 0; d < dimensions_; d += 2) {
    double* one = u.row(d);
    double* other = d + 1 < dimensions_ ? u.row(d + 1) : nullptr;
    for (std::size_t i = 0; i < n; ++i) {
      const Words words = threefry({from + i, d / 2}, {key_, static_cast<std::uint64_t>(stream_)});
      one[i] = unit(words[0]);
      if (other) other[i] = unit(words[1]);
    }
  }
}

}  // namespace engine
