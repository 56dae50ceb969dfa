#include "engine/rare/importance.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace engine::rare {
namespace {

constexpr std::size_t replicates = 16;
constexpr double half_again = 1.5;

/// Sums of weights of failed draws.
struct Sums {
  double weight = 0, square = 0, largest = 0;
  std::uint64_t failures = 0, draws = 0;

  void add(const Sums& other) {
    weight += other.weight;
    square += other.square;
    largest = std::max(largest, other.largest);
    failures += other.failures;
    draws += other.draws;
  }
};

Sums drawn(const LimitState& state, const Mixture& mixture, const Normals& normals, std::uint64_t block) {
  Block u(state.dimension());
  std::vector<double> g(block_size), weight;
  mixture.draw(normals, block, u);
  margins(state, u, g.data(), block_size);
  mixture.weigh(u, weight);
  Sums sums;
  sums.draws = block_size;
  for (std::size_t i = 0; i < block_size; ++i) {
    if (!(g[i] <= 0)) continue;
    sums.weight += weight[i];
    sums.square += weight[i] * weight[i];
    sums.largest = std::max(sums.largest, weight[i]);
    ++sums.failures;
  }
  return sums;
}

Importance summed(const std::array<Sums, replicates>& parts) {
  constexpr double n = replicates;
  Sums all;
  for (const Sums& part : parts) all.add(part);
  Importance answer;
  answer.p = all.weight / static_cast<double>(all.draws);
  answer.failures = all.failures;
  answer.calls = all.draws;
  if (!(all.weight > 0)) return answer;
  double squares = 0;
  for (const Sums& part : parts) squares += std::pow(part.weight / static_cast<double>(part.draws) - answer.p, 2);
  const auto draws = static_cast<double>(all.draws);
  const double pooled = std::sqrt(std::max(0.0, all.square / draws - answer.p * answer.p) / draws);
  answer.spread = std::max(pooled, std::sqrt(squares / (n * (n - 1))));
  const double half = half_again * student_975(n - 1) * answer.spread;
  answer.interval = {std::max(0.0, answer.p - half), std::min(1.0, answer.p + half)};
  answer.effective = all.weight * all.weight / all.square;
  answer.largest = all.largest / all.weight;
  return answer;
}

}  // namespace

Importance importance(const LimitState& state, const Mixture& mixture, const ImportanceOptions& options,
                      std::uint64_t key, std::uint64_t round, const Running& running) {
  const Normals normals(key, Use::importance, round);
  std::array<Sums, replicates> parts{};
  Importance answer;
  std::uint64_t first = 0;
  for (std::uint64_t blocks = replicates;; blocks = first) {
    std::uint64_t next = first;
    run_chunks(
        blocks, running, [&](std::uint64_t b) { return drawn(state, mixture, normals, first + b); },
        [&](const Sums& sums) { parts[next++ % replicates].add(sums); });
    first = next;
    answer = summed(parts);
    const double half = answer.interval.high - answer.p;
    answer.reached = answer.p > 0 && half <= options.relative * answer.p && answer.effective > 100;
    if (answer.reached || 2 * answer.calls > options.calls) return answer;
  }
}

}  // namespace engine::rare
