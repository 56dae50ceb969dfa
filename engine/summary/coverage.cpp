#include "engine/summary/coverage.hpp"

#include <algorithm>
#include <boost/math/distributions/binomial.hpp>
#include <cmath>
#include <limits>

namespace engine {
namespace {

using Rounds = boost::math::policies::policy<
    boost::math::policies::discrete_quantile<boost::math::policies::integer_round_nearest>>;
using Binomial = boost::math::binomial_distribution<double, Rounds>;

/// P(at most k of n), 0 for k < 0.
double at_most(const Binomial& b, double k) { return k < 0 ? 0 : k >= b.trials() ? 1 : boost::math::cdf(b, k); }

/// Least k with P(at most k) ≥ p: the library's own, mended where its rounding is off by a step.
double binomial_quantile(const Binomial& b, double p) {
  double k = std::clamp(std::round(boost::math::quantile(b, p)), 0.0, b.trials());
  while (k > 0 && at_most(b, k - 1) >= p) --k;
  while (k < b.trials() && at_most(b, k) < p) ++k;
  return k;
}

RankPair pair_from(std::uint64_t n, std::uint64_t low, std::uint64_t span) {
  low = std::clamp<std::uint64_t>(low, 1, n - span);
  return {low, low + span};
}

/// Value of rank r as a histogram tells it, r rising from call to call.
class Walk {
public:
  explicit Walk(const Histogram& h) : h_(h) {}
  double operator()(std::uint64_t rank) {
    while (found_.bin < Histogram::bins + 1 && found_.before + h_.count(found_.bin) < rank)
      found_.before += h_.count(found_.bin++);
    if (found_.bin == 0) return h_.low();
    if (found_.bin > Histogram::bins) return h_.high();
    const double within = (static_cast<double>(rank - found_.before) - 0.5) / static_cast<double>(h_.count(found_.bin));
    return h_.low() + (h_.high() - h_.low()) / Histogram::bins * (static_cast<double>(found_.bin - 1) + within);
  }

private:
  const Histogram& h_;
  Histogram::Found found_;
};

}  // namespace

std::uint64_t coverage_span(std::uint64_t n, double share) {
  const auto span = static_cast<std::uint64_t>(std::floor(share * static_cast<double>(n) + 0.5));
  return std::min(span, n - 1);
}

RankPair symmetric_ranks(std::uint64_t n, double share) {
  const std::uint64_t span = coverage_span(n, share);
  return pair_from(n, (n - span + 1) / 2, span);
}

RankPair shortest_ranks(const std::vector<double>& sorted, double share) {
  const std::uint64_t n = sorted.size(), span = coverage_span(n, share);
  RankPair best{1, 1 + span};
  double least = std::numeric_limits<double>::infinity();
  for (std::uint64_t r = 1; r + span <= n; ++r) {
    const double length = sorted[r + span - 1] - sorted[r - 1];
    if (length < least) least = length, best = {r, r + span};
  }
  return best;
}

RankPair shortest_ranks(const Histogram& histogram, double share) {
  const std::uint64_t n = histogram.total(), span = coverage_span(n, share);
  constexpr std::uint64_t steps = 8192;  // looked at: two a bin
  const std::uint64_t step = std::max<std::uint64_t>(1, (n - span) / steps);
  RankPair best{1, 1 + span};
  double least = std::numeric_limits<double>::infinity();
  Walk low(histogram), high(histogram);
  for (std::uint64_t r = 1; r + span <= n; r += step) {
    const double length = high(r + span) - low(r);
    if (length < least) least = length, best = {r, r + span};
  }
  return best;
}

double roughly(const Histogram& histogram, std::uint64_t rank) { return Walk(histogram)(rank); }

RankPair quantile_ranks(std::uint64_t n, double share, double confidence) {
  const Binomial below(static_cast<double>(n), share);
  const double tail = (1 - confidence) / 2;
  return {static_cast<std::uint64_t>(binomial_quantile(below, tail)),
          static_cast<std::uint64_t>(binomial_quantile(below, 1 - tail)) + 1};
}

double quantile_confidence(std::uint64_t n, double share, RankPair ranks) {
  const Binomial below(static_cast<double>(n), share);
  return at_most(below, static_cast<double>(ranks.high) - 1) - at_most(below, static_cast<double>(ranks.low) - 1);
}

}  // namespace engine
