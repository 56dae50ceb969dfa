#include "engine/summary/interval.hpp"

#include <algorithm>
#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <numeric>

namespace engine {

Interval clopper_pearson(double hits, double n, double confidence) {
  const double tail = (1 - confidence) / 2;
  Interval interval{0, 1};
  if (hits > 0) interval.low = boost::math::quantile(boost::math::beta_distribution<>(hits, n - hits + 1), tail);
  if (hits < n)
    interval.high =
        boost::math::quantile(boost::math::complement(boost::math::beta_distribution<>(hits + 1, n - hits), tail));
  return interval;
}

double student_point(double dof, double probability) {
  return boost::math::quantile(boost::math::students_t_distribution<>(dof), probability);
}

Interval share_interval(const std::vector<std::uint64_t>& hits, std::uint64_t net_size) {
  const auto nets = static_cast<double>(hits.size()), size = static_cast<double>(net_size);
  const auto all = static_cast<double>(std::accumulate(hits.begin(), hits.end(), std::uint64_t{0}));
  const double n = nets * size, rarer = std::min(all, n - all);
  const bool agree = std::all_of(hits.begin(), hits.end(), [&](std::uint64_t h) { return h == hits.front(); });
  if (hits.size() < 2 || agree || rarer < 5 * nets) return clopper_pearson(all, n);
  double squares = 0;
  for (const std::uint64_t h : hits) squares += std::pow(static_cast<double>(h) / size - all / n, 2);
  const double half = student_975(nets - 1) * std::sqrt(squares / (nets * (nets - 1)));
  Interval interval{std::max(0.0, all / n - half), std::min(1.0, all / n + half)};
  const auto [fewest, most] = std::minmax_element(hits.begin(), hits.end());
  if (*most - *fewest > 1) return interval;
  return {std::min(interval.low, static_cast<double>(*fewest) / size),
          std::max(interval.high, static_cast<double>(*most) / size)};
}

}  // namespace engine
