#include "studies/ask/attribution.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace studies {
namespace {

Made bit(std::size_t i) { return Made{1} << i; }
Made all_of(std::size_t n) { return bit(n) - 1; }

std::vector<double> over_every_order(std::size_t n, const std::vector<double>& value) {
  // Weight of the sets of s others: s! (n − 1 − s)!/n!, one order of n in so many.
  std::vector<double> weight(n, 1.0 / static_cast<double>(n));
  for (std::size_t s = 1; s < n; ++s) weight[s] = weight[s - 1] * static_cast<double>(s) / static_cast<double>(n - s);
  std::vector<double> shares(n);
  for (std::size_t i = 0; i < n; ++i)
    for (Made set = 0; set < value.size(); ++set)
      if (!(set & bit(i)))
        shares[i] += weight[static_cast<std::size_t>(__builtin_popcountll(set))] * (value[set | bit(i)] - value[set]);
  return shares;
}

std::vector<double> over_two_orders(std::size_t n, const std::vector<double>& value) {
  const std::vector<Made> sets = sets_needed(n);
  const auto at = [&](Made set) {
    return value[static_cast<std::size_t>(std::lower_bound(sets.begin(), sets.end(), set) - sets.begin())];
  };
  std::vector<double> shares(n);
  for (std::size_t i = 0; i < n; ++i) {
    const Made before = all_of(i), after = all_of(n) & ~all_of(i + 1);
    shares[i] = ((at(before | bit(i)) - at(before)) + (at(after | bit(i)) - at(after))) / 2;
  }
  return shares;
}

/// The original alterations that a set of groups stands for.
Made spread_out(Made set, const std::vector<std::vector<std::size_t>>& groups) {
  Made all = 0;
  for (std::size_t g = 0; g < groups.size(); ++g)
    for (const std::size_t i : groups[g])
      if (set & bit(g)) all |= bit(i);
  return all;
}

/// The two groups that part most of the sets; of equals those next to each other in the order.
std::pair<std::size_t, std::size_t> most_parted(std::size_t groups, const std::vector<Made>& sets) {
  std::pair<std::size_t, std::size_t> worst{0, 1};
  std::ptrdiff_t most = -1;
  for (std::size_t i = 0; i < groups; ++i)
    for (std::size_t j = i + 1; j < groups; ++j) {
      const auto parted =
          std::count_if(sets.begin(), sets.end(), [&](Made set) { return !(set & bit(i)) != !(set & bit(j)); });
      if (parted > most || (parted == most && j - i < worst.second - worst.first)) most = parted, worst = {i, j};
    }
  return worst;
}

}  // namespace

std::vector<Made> sets_needed(std::size_t n) {
  std::set<Made> sets;
  if (n <= most_for_every_order)
    for (Made set = 0; set <= all_of(n); ++set) sets.insert(set);
  for (std::size_t i = 0; n > most_for_every_order && i <= n; ++i)
    sets.insert(all_of(i)), sets.insert(all_of(n) & ~all_of(i));
  return {sets.begin(), sets.end()};
}

std::vector<double> shares(std::size_t n, const std::vector<double>& value) {
  if (n == 1) return {value[1] - value[0]};
  return n <= most_for_every_order ? over_every_order(n, value) : over_two_orders(n, value);
}

std::vector<std::vector<std::size_t>> inseparable(std::size_t n, const std::function<bool(Made)>& builds) {
  std::vector<std::vector<std::size_t>> groups;
  for (std::size_t i = 0; i < n; ++i) groups.push_back({i});
  std::map<Made, bool> known;
  while (groups.size() > 1) {
    std::vector<Made> broken;
    for (const Made set : sets_needed(groups.size())) {
      const Made made = spread_out(set, groups);
      const auto [it, unknown] = known.try_emplace(made, false);
      if (unknown) it->second = builds(made);
      if (!it->second) broken.push_back(set);
    }
    if (broken.empty()) break;
    const auto [i, j] = most_parted(groups.size(), broken);
    groups[i].insert(groups[i].end(), groups[j].begin(), groups[j].end());
    std::sort(groups[i].begin(), groups[i].end());
    groups.erase(groups.begin() + static_cast<std::ptrdiff_t>(j));
  }
  return groups;
}

}  // namespace studies
