#include "studies/ask/hardest.hpp"

#include <algorithm>
#include <limits>
#include <numeric>

#include "engine/pass/survey.hpp"

namespace studies {
namespace {

/// Passes tried beyond the misses allowed and one, since another design's order is not quite this one's.
std::size_t tried(std::uint64_t allowed, std::uint64_t passes) {
  return static_cast<std::size_t>(std::min(passes, allowed + 1 + allowed / 4 + 64));
}

}  // namespace

std::optional<std::size_t> Hardest::missed(const Candidate& candidate, const models::Design& design,
                                           const std::vector<std::optional<double>>& odds,
                                           const std::vector<bool>& asked) {
  const Study& study = shared_.study();
  const models::ScrewModel screw = shared_.model(candidate, design);
  const std::vector<double> nominal = shared_.nominal(candidate, screw);
  const auto over = [&](std::size_t k) { return nominal[models::output_count + k] / study.limits[k].least_margin(); };
  std::vector<std::size_t> by_nominal;
  for (std::size_t k = 0; k < odds.size(); ++k) {
    if (!asked[k]) continue;
    if (!odds[k] && !(over(k) >= 1)) return k;
    if (odds[k]) by_nominal.push_back(k);
  }
  if (by_nominal.empty() || !shared_.held()) return std::nullopt;
  if (order_.empty()) learn(candidate, design, odds);
  // A limit missed at nominal is missed on about half the passes: of those the one that takes the fewest to show it.
  const auto before = [&](std::size_t a, std::size_t b) {
    const bool sure_a = over(a) < 1, sure_b = over(b) < 1;
    if (sure_a != sure_b) return sure_a;
    return sure_a && *odds[a] != *odds[b] ? *odds[a] > *odds[b] : over(a) < over(b);
  };
  std::sort(by_nominal.begin(), by_nominal.end(), before);
  for (const std::size_t k : by_nominal)
    if (misses_more(candidate, screw, k, engine::misses_allowed(*odds[k], shared_.passes()))) return k;
  return std::nullopt;
}

void Hardest::learn(const Candidate& candidate, const models::Design& design,
                    const std::vector<std::optional<double>>& odds) {
  const std::vector<std::vector<double>> margins = shared_.margins(candidate, design);
  const SharedInputs& inputs = shared_.inputs(candidate);
  std::vector<Place> places;
  for (std::uint64_t b = 0; b < inputs.plan.blocks(); ++b)
    for (std::size_t i = 0; i < inputs.plan.size(b); ++i)
      places.push_back({static_cast<std::uint32_t>(b), static_cast<std::uint32_t>(i)});
  order_.resize(odds.size());
  for (std::size_t k = 0; k < odds.size(); ++k) {
    if (!odds[k]) continue;
    std::vector<std::uint32_t> order(places.size());
    std::iota(order.begin(), order.end(), 0u);
    const std::size_t n = tried(engine::misses_allowed(*odds[k], places.size()), places.size());
    const auto hardness = [&, m = margins[k].data()](std::uint32_t pass) {  // what is not a number is missed
      return m[pass] == m[pass] ? m[pass] : -std::numeric_limits<double>::infinity();
    };
    std::partial_sort(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(n), order.end(),
                      [&](std::uint32_t a, std::uint32_t b) {
                        return hardness(a) != hardness(b) ? hardness(a) < hardness(b) : a < b;
                      });
    for (std::size_t i = 0; i < n; ++i) order_[k].push_back(places[order[i]]);
  }
}

const Hardest::Passes& Hardest::passes(const Candidate& candidate, std::size_t limit) {
  const SharedInputs& inputs = shared_.inputs(candidate);
  std::vector<Passes>& of_limits = drawn_[&inputs];
  of_limits.resize(order_.size());
  Passes& blocks = of_limits[limit];
  for (std::size_t i = 0; blocks.size() * engine::block_size < order_[limit].size(); i = 0) {
    const std::size_t first = blocks.size() * engine::block_size;
    blocks.emplace_back(models::input_count);
    for (; i < engine::block_size && first + i < order_[limit].size(); ++i) {
      const Place place = order_[limit][first + i];
      for (std::size_t input = 0; input < models::input_count; ++input)
        blocks.back().row(input)[i] = inputs.held[place.block].row(input)[place.column];
    }
  }
  return blocks;
}

bool Hardest::misses_more(const Candidate& candidate, const models::ScrewModel& screw, std::size_t limit,
                          std::uint64_t allowed) {
  const Passes& blocks = passes(candidate, limit);
  const double least = shared_.study().limits[limit].least_margin();
  engine::Block margin(1);
  std::uint64_t misses = 0, done = 0;
  const std::uint64_t all = order_[limit].size();
  while (done < all && misses + (all - done) > allowed) {
    // As many as would settle it if all were missed, within one block.
    const std::uint64_t column = done % engine::block_size;
    const std::uint64_t n = std::min({allowed + 1 - misses, all - done, engine::block_size - column});
    screw.evaluate_margin(limit, blocks[done / engine::block_size], margin, n, column);
    shared_.count_calls(n);
    for (std::size_t i = 0; i < n; ++i) misses += !(margin.row(0)[i] >= least);
    if (misses > allowed) return true;
    done += n;
  }
  return false;
}

}  // namespace studies
