#include "engine/matter/group.hpp"

#include <algorithm>
#include <numeric>

namespace engine {
namespace {

bool holds(const Group& group, std::size_t part) { return std::find(group.begin(), group.end(), part) != group.end(); }

/// Whether the law ties a part of one group to one of the other.
bool tied(const Law& law, const Group& one, const Group& other) {
  const auto reaches = [&](const Group& from, const Group& to) {
    return std::any_of(from.begin(), from.end(), [&](std::size_t part) {
      const std::vector<std::size_t> sources = law.sources(part);
      return std::any_of(sources.begin(), sources.end(), [&](std::size_t source) { return holds(to, source); });
    });
  };
  return reaches(one, other) || reaches(other, one);
}

}  // namespace

bool closed(const Law& law, const Group& group) {
  for (std::size_t part = 0; part < law.dimensions(); ++part)
    for (const std::size_t source : law.sources(part))
      if (holds(group, part) != holds(group, source)) return false;
  return true;
}

std::vector<std::vector<std::size_t>> tied_together(const Law& law, const std::vector<Group>& groups) {
  std::vector<std::size_t> first(groups.size());
  std::iota(first.begin(), first.end(), std::size_t{0});
  for (std::size_t i = 0; i < groups.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) {
      if (first[i] == first[j] || !tied(law, groups[i], groups[j])) continue;
      const std::size_t least = std::min(first[i], first[j]), most = std::max(first[i], first[j]);
      std::replace(first.begin(), first.end(), most, least);
    }
  std::vector<std::vector<std::size_t>> sets;
  for (std::size_t i = 0; i < groups.size(); ++i) {
    if (first[i] != i) continue;
    sets.emplace_back();
    for (std::size_t j = i; j < groups.size(); ++j)
      if (first[j] == i) sets.back().push_back(j);
  }
  return sets;
}

}  // namespace engine
