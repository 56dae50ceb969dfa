#include "engine/search/margin_passes.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "engine/draw/block_math.hpp"
#include "engine/rare/normals.hpp"

namespace engine {
namespace {

/// The least first number at which the sum of second numbers, in order of the first, exceeds `share`; the last where
/// none does. Halves the range at each step, as a selection does, so that nothing need be sorted whole.
double where_sum_exceeds(std::vector<std::pair<double, double>>& pairs, double share) {
  auto from = pairs.begin(), to = pairs.end();
  while (to - from > 1) {
    const auto middle = from + (to - from) / 2;
    std::nth_element(from, middle, to);
    double sum = 0;
    for (auto pair = from; pair != middle; ++pair) sum += pair->second;
    if (sum > share) {
      to = middle;
    } else {
      share -= sum;
      from = middle;
    }
  }
  return from->first;
}

}  // namespace

void MarginPasses::add(const Plan& plan, std::size_t normals) {
  for (std::uint64_t b = 0; b < plan.blocks(); ++b) {
    Part part{Block(normals), plan.size(b)};
    plan.fill(b, part.z);
    for (std::size_t d = 0; d < normals; ++d) normal_quantile_block(part.z.row(d), part.n);
    parts_.push_back(std::move(part));
  }
  count_ += plan.passes();
  if (!weights_.empty()) weights_.resize(count_, 1.0);
}

void MarginPasses::add(const rare::Mixture& mixture, std::size_t normals, std::uint64_t count, std::uint64_t key,
                       std::uint64_t round) {
  const rare::Normals drawn(key, rare::Use::search, round);
  weights_.resize(count_, 1.0);
  std::vector<double> weight(block_size);
  for (std::uint64_t b = 0; b * block_size < count; ++b) {
    Part part{Block(normals), block_size};
    mixture.draw(drawn, b, part.z);
    mixture.weigh(part.z, weight);
    weights_.insert(weights_.end(), weight.begin(), weight.end());
    count_ += block_size;
    parts_.push_back(std::move(part));
  }
}

std::vector<std::vector<double>> MarginPasses::margins(const OddsProblem& problem, const std::vector<double>& x) const {
  std::vector<std::vector<double>> all(problem.allowed.size());
  for (std::vector<double>& row : all) row.reserve(count_);
  Block g(problem.allowed.size());
  for (const Part& part : parts_) {
    problem.margins(x, part.z, g, part.n);
    for (std::size_t k = 0; k < all.size(); ++k)
      for (std::size_t i = 0; i < part.n; ++i)
        all[k].push_back(std::isnan(g.row(k)[i]) ? -std::numeric_limits<double>::infinity() : g.row(k)[i]);
  }
  return all;
}

double MarginPasses::quantile(std::vector<double> margins, double allowed) const {
  const double share = allowed * static_cast<double>(count_);
  if (weights_.empty()) {
    const auto rank = std::min<std::size_t>(margins.size() - 1, static_cast<std::size_t>(share));
    const auto place = margins.begin() + static_cast<std::ptrdiff_t>(rank);
    std::nth_element(margins.begin(), place, margins.end());
    return *place;
  }
  std::vector<std::pair<double, double>> weighed(margins.size());
  for (std::size_t i = 0; i < margins.size(); ++i) weighed[i] = {margins[i], weights_[i]};
  return where_sum_exceeds(weighed, share);
}

BoxProblem on_passes(const OddsProblem& problem, std::vector<std::shared_ptr<const MarginPasses>> passes) {
  BoxProblem box{problem.lower, problem.upper, problem.allowed.size(), {}};
  box.evaluate = [problem, passes = std::move(passes)](const std::vector<double>& x) {
    BoxProblem::Value value{problem.objective(x), {}};
    std::map<const MarginPasses*, std::vector<std::vector<double>>> seen;
    for (std::size_t k = 0; k < problem.allowed.size(); ++k) {
      const MarginPasses* own = passes[k].get();
      if (!seen.contains(own)) seen.emplace(own, own->margins(problem, x));
      value.constraints.push_back(-own->quantile(std::move(seen.at(own)[k]), problem.allowed[k]));
    }
    return value;
  };
  return box;
}

}  // namespace engine
