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

Plan::Plan(Kind kind, std::size_t dimensions, std::uint64_t count, std::uint64_t key, Stream stream)
    : kind_(kind), dimensions_(dimensions), passes_(whole_nets(kind, count)), key_(key), stream_(stream) {
  per_block_ = kind == Kind::plain ? block_size : std::min<std::uint64_t>(block_size, net_size());
  if (kind != Kind::sobol || dimensions == 0) return;
  const std::vector<Directions> directions = sobol_directions(dimensions);
  for (std::uint64_t net = 0; net < net_count; ++net) nets_.emplace_back(directions, key, stream, net);
}

std::size_t Plan::size(std::uint64_t block) const {
  return static_cast<std::size_t>(std::min(per_block_, net_size() - place(block)));
}

void Plan::fill(std::uint64_t block, Block& u) const {
  const std::size_t n = size(block);
  if (kind_ == Kind::sobol) {
    for (std::size_t d = 0; d < dimensions_; ++d) nets_[net(block)].fill(d, place(block), n, u.row(d));
    return;
  }
  if (kind_ == Kind::latin) {
    const LatinDesign design(net_size(), key_, stream_, net(block));
    for (std::size_t d = 0; d < dimensions_; ++d) design.fill(d, place(block), n, u.row(d));
    return;
  }
  const std::uint64_t first = this->first(block);
  for (std::size_t d = 0; d < dimensions_; d += 2)
    block_math().uniforms(first, d / 2, key_, static_cast<std::uint64_t>(stream_), u.row(d),
                          d + 1 < dimensions_ ? u.row(d + 1) : nullptr, n);
}

}  // namespace engine
