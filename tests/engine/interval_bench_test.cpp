#include <array>
#include <boost/math/distributions/gamma.hpp>
#include <catch2/catch.hpp>
#include <cmath>
#include <iostream>
#include <numeric>

#include "engine/draw/marginal.hpp"
#include "engine/draw/plan.hpp"
#include "engine/summary/interval.hpp"

using namespace engine;

namespace {

/// Hedged betting interval of the mean of numbers in [0, 1], for a number of them fixed beforehand.
/// @source Waudby-Smith & Ramdas, J. R. Statist. Soc. B 86 (2024), section 4 (predictable plug-in bets, from memory)
Interval betting(const std::vector<double>& x, double most_bet, double alpha = 0.05) {
  const auto n = static_cast<double>(x.size());
  std::vector<double> bets;
  double sum = 0.5, squares = 0.25, variance = 0.25;
  for (std::size_t i = 0; i < x.size(); ++i) {
    bets.push_back(std::sqrt(2 * std::log(2 / alpha) / (n * variance)));
    const double seen = static_cast<double>(i) + 2;
    sum += x[i];
    squares += std::pow(x[i] - sum / seen, 2);
    variance = squares / seen;
  }
  const auto refused = [&](double m) {
    double up = 1, down = 1;
    for (std::size_t i = 0; i < x.size(); ++i) {
      up *= 1 + std::min(bets[i], most_bet / m) * (x[i] - m);
      down *= 1 - std::min(bets[i], most_bet / (1 - m)) * (x[i] - m);
      if (std::max(up, down) >= 2 / alpha) return true;
    }
    return false;
  };
  const double mean = std::accumulate(x.begin(), x.end(), 0.0) / n;
  const auto edge = [&](double in, double out) {
    if (!refused(out)) return out;
    for (int i = 0; i < 50; ++i) {
      const double middle = (in + out) / 2;
      (refused(middle) ? out : in) = middle;
    }
    return in;
  };
  return {edge(mean, 1e-12), edge(mean, 1 - 1e-12)};
}

Interval student(const std::vector<double>& x) {
  const auto n = static_cast<double>(x.size());
  const double mean = std::accumulate(x.begin(), x.end(), 0.0) / n;
  double squares = 0;
  for (const double value : x) squares += std::pow(value - mean, 2);
  const double half = student_975(n - 1) * std::sqrt(squares / (n * (n - 1)));
  return {std::max(0.0, mean - half), std::min(1.0, mean + half)};
}

/// Events of exactly known probability: across one axis, oblique, curved, and as good as random.
enum Event { axis, oblique, curved, rough };
constexpr const char* names[] = {"axis", "oblique", "curved", "rough"};
constexpr std::size_t dimensions = 6;

bool happens(Event event, double bound, const std::array<double, dimensions>& u) {
  double sum = 0;
  switch (event) {
    case axis:
      return u[2] < bound;
    case oblique:
      for (const double v : u) sum += normal_quantile(v);
      return sum < bound;
    case curved:
      for (const double v : u) sum -= std::log(v);
      return sum < bound;
    case rough:
      break;
  }
  for (std::size_t d = 0; d < dimensions; ++d) sum += 977 * static_cast<double>(d + 1) * u[d];
  return sum - std::floor(sum) < bound;
}

double bound_of(Event event, double share) {
  if (event == oblique) return std::sqrt(double(dimensions)) * normal_quantile(share);
  if (event == curved) return boost::math::quantile(boost::math::gamma_distribution<>(double(dimensions), 1), share);
  return share;
}

struct Tally {
  int covered = 0;
  double width = 0;
};

const std::vector<double> shares = {0.001, 0.01, 0.05, 0.2, 0.5};

/// Hits of each net, [share][net].
std::vector<std::vector<std::uint64_t>> hits_of(const Plan& plan, Event event) {
  std::vector<std::vector<std::uint64_t>> hits(shares.size(), std::vector<std::uint64_t>(plan.nets()));
  std::vector<double> bounds;
  for (const double share : shares) bounds.push_back(bound_of(event, share));
  Block block(dimensions);
  std::array<double, dimensions> u{};
  for (std::uint64_t b = 0; b < plan.blocks(); ++b) {
    plan.fill(b, block);
    for (std::size_t i = 0; i < plan.size(b); ++i) {
      for (std::size_t d = 0; d < dimensions; ++d) u[d] = block.row(d)[i];
      for (std::size_t s = 0; s < shares.size(); ++s) hits[s][plan.net(b)] += happens(event, bounds[s], u);
    }
  }
  return hits;
}

}  // namespace

TEST_CASE("How often and how widely intervals of odds cover under nets", "[.bench]") {
  constexpr int repeats = 1000;
  std::cout << "passes event share | coverage: rule, t, Clopper-Pearson, bets 1/2, bets 3/4 | mean width alike\n";
  for (const std::uint64_t passes : {4096, 32768})
    for (const Event event : {axis, oblique, curved, rough}) {
      std::vector<std::array<Tally, 5>> tallies(shares.size());
      for (std::uint64_t key = 1; key <= repeats; ++key) {
        const Plan plan(Plan::Kind::sobol, dimensions, passes, key, Stream::test);
        const auto hits = hits_of(plan, event);
        for (std::size_t s = 0; s < shares.size(); ++s) {
          std::vector<double> means;
          for (const std::uint64_t h : hits[s]) means.push_back(double(h) / double(plan.net_size()));
          const double all = double(std::accumulate(hits[s].begin(), hits[s].end(), std::uint64_t{0}));
          const Interval found[] = {share_interval(hits[s], plan.net_size()), student(means),
                                    clopper_pearson(all, double(plan.passes())), betting(means, 0.5),
                                    betting(means, 0.75)};
          for (std::size_t i = 0; i < 5; ++i) {
            tallies[s][i].covered += found[i].low <= shares[s] && shares[s] <= found[i].high;
            tallies[s][i].width += (found[i].high - found[i].low) / repeats;
          }
        }
      }
      for (std::size_t s = 0; s < shares.size(); ++s) {
        std::cout << passes << ' ' << names[event] << ' ' << shares[s] << " |";
        for (const Tally& t : tallies[s]) std::cout << ' ' << 100.0 * t.covered / repeats;
        std::cout << " |";
        for (const Tally& t : tallies[s]) std::cout << ' ' << t.width;
        std::cout << '\n';
      }
    }
}
