#include "engine/pass/bounds.hpp"

#include <algorithm>
#include <cmath>

namespace engine {
namespace {

/// Share of a net at or below a value, taking a bin's values as evenly spread.
double share_below(const Histogram& h, double value, std::uint64_t total) {
  const std::size_t bin = h.bin(value);
  double below = 0;
  for (std::size_t b = 0; b < bin; ++b) below += static_cast<double>(h.count(b));
  const bool inner = bin > 0 && bin <= Histogram::bins;
  const double width = (h.high() - h.low()) / Histogram::bins;
  const double within = inner ? (value - h.low()) / width - static_cast<double>(bin - 1) : 0.5;
  return (below + within * static_cast<double>(h.count(bin))) / static_cast<double>(total);
}

/// Half the interval of the share of passes below a value, by the disagreement of the nets.
double half_share(const Counts& counts, std::size_t output, double value, std::uint64_t net_size, double confidence) {
  const auto nets = static_cast<double>(counts.nets.size());
  std::vector<double> shares;
  double mean = 0, squares = 0;
  for (const auto& net : counts.nets) shares.push_back(share_below(net[output], value, net_size));
  for (const double s : shares) mean += s / nets;
  for (const double s : shares) squares += (s - mean) * (s - mean);
  const auto [least, most] = std::minmax_element(shares.begin(), shares.end());
  const double one_pass = 1 / static_cast<double>(net_size), range = *most - *least;
  const double half = student_point(nets - 1, (1 + confidence) / 2) * std::sqrt(squares / (nets * (nets - 1)));
  return range > 1.5 * one_pass ? half : std::max(half, one_pass);  // nets know the share no finer than a pass
}

}  // namespace

RankPair BoundRanks::operator()(std::size_t output, double share, std::uint64_t rank, double confidence) {
  const std::size_t nets = counts_.nets.size();
  const auto n = static_cast<double>(passes_), r = static_cast<double>(rank);
  RankPair ranks;
  double half = 0;
  if (nets > 1 && std::min(r, n - r) >= 5 * static_cast<double>(nets))
    half = half_share(counts_, output, roughly(counts_.all[output], rank), passes_ / nets, confidence);
  if (half > 0) {
    const double low = std::floor(r - half * n), high = std::ceil(r + half * n) + 1;
    ranks.low = low < 1 ? 0 : static_cast<std::uint64_t>(low);
    ranks.high = high > n ? passes_ + 1 : static_cast<std::uint64_t>(high);
  } else {
    const auto [known, fresh] = binomial_.try_emplace({share, confidence});
    if (fresh) known->second = quantile_ranks(passes_, share, confidence);
    ranks = known->second;
  }
  return {std::min(ranks.low, rank), std::max(ranks.high, rank)};
}

}  // namespace engine
