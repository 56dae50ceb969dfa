#include "engine/matter/group.hpp"

#include <algorithm>
#include <numeric>

namespace engine {
namespace {

/// Which dimensions of the law the values of a group are made of.
std::vector<bool> sources_of(const Law& law, const Group& group) {
  std::vector<bool> sources(law.dimensions());
  for (const std::size_t part : group)
    for (const std::size_t source : law.sources(part)) sources[source] = true;
  return sources;
}

bool share_any(const std::vector<bool>& one, const std::vector<bool>& other) {
  for (std::size_t i = 0; i < one.size(); ++i)
    if (one[i] && other[i]) return true;
  return false;
}

}  // namespace

bool closed(const Law& law, const Group& group) {
  Group rest;
  for (std::size_t part = 0; part < law.parts().size(); ++part)
    if (std::find(group.begin(), group.end(), part) == group.end()) rest.push_back(part);
  return !share_any(sources_of(law, group), sources_of(law, rest));
}

std::vector<std::vector<std::size_t>> tied_together(const Law& law, const std::vector<Group>& groups) {
  std::vector<std::size_t> first(groups.size());
  std::iota(first.begin(), first.end(), std::size_t{0});
  for (std::size_t i = 0; i < groups.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) {
      if (first[i] == first[j] || !share_any(sources_of(law, groups[i]), sources_of(law, groups[j]))) continue;
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
