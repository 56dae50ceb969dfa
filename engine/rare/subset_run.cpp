#include "engine/rare/subset_run.hpp"

#include <algorithm>
#include <cmath>

#include "engine/rare/normals.hpp"

namespace engine::rare {
namespace {

constexpr std::size_t chain_length = 10;  ///< 1/p0
constexpr double aimed_acceptance = 0.44;

/// The passes of one level: step by step, each step a row a dimension and a column a chain.
struct Level {
  std::size_t dimension = 0, chains = 0;
  std::vector<std::vector<double>> steps;
  std::vector<double> g;  ///< of all passes, step after step

  Point point(std::size_t pass) const {
    Point u(dimension);
    for (std::size_t d = 0; d < dimension; ++d) u[d] = steps[pass / chains][d * chains + pass % chains];
    return u;
  }
};

class Run {
public:
  Run(const LimitState& state, const SubsetOptions& options, std::uint64_t key, std::uint64_t round)
      : state_(state),
        chains_(std::clamp<std::size_t>(options.chains, 2, block_size)),
        normals_(key, Use::subset, round),
        u_(state.dimension()),
        xi_(state.dimension()) {}

  Level first() {
    Level level{state_.dimension(), chains_, {}, {}};
    for (std::size_t step = 0; step < chain_length; ++step) {
      normals_.fill(next_block_++, u_, chains_);
      evaluate(u_);
      add(level, u_, g_);
    }
    return level;
  }

  /// Chains of `chain_length` from the seeds, all in step; each seed is the first pass of its chain.
  Level next(const Level& before, const std::vector<std::size_t>& seeds, double threshold) {
    Level level{state_.dimension(), chains_, {}, {}};
    Block at(state_.dimension());
    std::vector<double> g_at(chains_);
    for (std::size_t i = 0; i < chains_; ++i) {
      const Point seed = before.point(seeds[i]);
      for (std::size_t d = 0; d < at.rows(); ++d) at.row(d)[i] = seed[d];
      g_at[i] = before.g[seeds[i]];
    }
    add(level, at, g_at);
    for (std::size_t step = 1; step < chain_length; ++step) {
      propose(at);
      evaluate(u_);
      std::size_t accepted = 0;
      for (std::size_t i = 0; i < chains_; ++i) {
        if (!(g_[i] <= threshold)) continue;
        ++accepted;
        g_at[i] = g_[i];
        for (std::size_t d = 0; d < at.rows(); ++d) at.row(d)[i] = u_.row(d)[i];
      }
      adapt(static_cast<double>(accepted) / static_cast<double>(chains_), step);
      add(level, at, g_at);
    }
    return level;
  }

  std::size_t chains() const { return chains_; }
  std::uint64_t calls() const { return calls_; }

private:
  void propose(const Block& at) {
    normals_.fill(next_block_++, xi_, chains_);
    const double stay = std::sqrt(1 - step_ * step_);
    for (std::size_t d = 0; d < at.rows(); ++d)
      for (std::size_t i = 0; i < chains_; ++i) u_.row(d)[i] = stay * at.row(d)[i] + step_ * xi_.row(d)[i];
  }

  void adapt(double acceptance, std::size_t step) {
    step_ =
        std::clamp(step_ * std::exp((acceptance - aimed_acceptance) / std::sqrt(static_cast<double>(step))), 1e-3, 1.0);
  }

  void evaluate(const Block& u) {
    g_.resize(chains_);
    margins(state_, u, g_.data(), chains_);
    calls_ += chains_;
  }

  void add(Level& level, const Block& u, const std::vector<double>& g) const {
    std::vector<double> step(u.rows() * chains_);
    for (std::size_t d = 0; d < u.rows(); ++d) std::copy_n(u.row(d), chains_, step.data() + d * chains_);
    level.steps.push_back(std::move(step));
    level.g.insert(level.g.end(), g.begin(), g.end());
  }

  const LimitState& state_;
  std::size_t chains_;
  Normals normals_;
  Block u_, xi_;
  std::vector<double> g_;
  double step_ = 0.6;
  std::uint64_t next_block_ = 0, calls_ = 0;
};

/// The margin that about a tenth of the passes do not exceed, and the share that does not. Where many passes tie with
/// it, the next margin below is taken if any pass has one.
std::pair<double, double> threshold_of(const Level& level, std::size_t chains) {
  std::vector<double> sorted = level.g;
  std::sort(sorted.begin(), sorted.end());
  auto end = std::upper_bound(sorted.begin(), sorted.end(), sorted[chains - 1]);
  const auto below = std::lower_bound(sorted.begin(), sorted.end(), sorted[chains - 1]);
  if (end - sorted.begin() > 2 * static_cast<std::ptrdiff_t>(chains) && below != sorted.begin()) end = below;
  return {*(end - 1), static_cast<double>(end - sorted.begin()) / static_cast<double>(sorted.size())};
}

/// `count` of the passes within a threshold, evenly taken (again and again where they are fewer).
std::vector<std::size_t> within(const Level& level, double threshold, std::size_t count) {
  std::vector<std::size_t> held, taken;
  for (std::size_t i = 0; i < level.g.size(); ++i)
    if (level.g[i] <= threshold) held.push_back(i);
  for (std::size_t k = 0; k < count && !held.empty(); ++k)
    taken.push_back(held[held.size() >= count ? k * held.size() / count : k % held.size()]);
  return taken;
}

double share_failed(const Level& level) {
  const auto failed = std::count_if(level.g.begin(), level.g.end(), [](double g) { return g <= 0; });
  return static_cast<double>(failed) / static_cast<double>(level.g.size());
}

}  // namespace

SubsetRun subset_run(const LimitState& state, const SubsetOptions& options, std::uint64_t key, std::uint64_t round,
                     std::size_t keep) {
  Run run(state, options, key, round);
  SubsetRun answer;
  Level level = run.first();
  double above = 1, last = std::numeric_limits<double>::infinity();
  for (answer.levels = 1;; ++answer.levels) {
    const auto [threshold, share] = threshold_of(level, run.chains());
    if (threshold <= 0) break;
    answer.stuck = !(threshold < last) && answer.levels > 1;
    if (answer.stuck || above * share < options.least) {
      answer.calls = run.calls();
      return answer;
    }
    above *= share;
    last = threshold;
    level = run.next(level, within(level, threshold, run.chains()), threshold);
  }
  answer.p = above * share_failed(level);
  answer.calls = run.calls();
  const auto failed = static_cast<std::size_t>(std::lround(share_failed(level) * static_cast<double>(level.g.size())));
  for (const std::size_t pass : within(level, 0, std::min(keep, failed))) answer.failures.push_back(level.point(pass));
  return answer;
}

}  // namespace engine::rare
