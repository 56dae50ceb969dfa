#include <algorithm>
#include <boost/math/constants/constants.hpp>
#include <boost/math/special_functions/gamma.hpp>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <stdexcept>

#include "engine/draw/shape.hpp"

namespace engine {
namespace {

void must(bool holds, const char* sentence) {
  if (!holds) throw std::invalid_argument(sentence);
}

/// Spread over mean of a Weibull without threshold.
double weibull_ratio(double k) {
  const double one = std::log1p(boost::math::tgamma1pm1(1 / k)), two = std::log1p(boost::math::tgamma1pm1(2 / k));
  return std::sqrt(std::expm1(two - 2 * one));
}

}  // namespace

Marginal fixed_at(double value) { return {Shape::fixed, value, 0, 0}; }

Marginal normal(double mean, double spread) {
  must(std::isfinite(mean) && std::isfinite(spread) && spread > 0, "a normal spread must be above 0");
  return {Shape::normal, mean, spread, 0};
}

Marginal lognormal(double mean, double spread) {
  must(std::isfinite(mean) && mean > 0, "the mean of a lognormal must be above 0");
  must(std::isfinite(spread) && spread > 0, "a lognormal spread must be above 0");
  const double variance = std::log1p(spread / mean * (spread / mean));
  return {Shape::lognormal, std::log(mean) - variance / 2, std::sqrt(variance), 0};
}

Marginal uniform(double low, double high) {
  must(std::isfinite(low) && std::isfinite(high) && low < high, "low must be below high");
  return {Shape::uniform, low, high, 0};
}

Marginal triangular(double low, double mode, double high) {
  must(std::isfinite(low) && std::isfinite(high) && low < high, "low must be below high");
  must(mode >= low && mode <= high, "the mode must lie from low to high");
  return {Shape::triangular, low, high, mode};
}

Marginal beta(double mean, double spread, double low, double high) {
  must(std::isfinite(low) && std::isfinite(high) && low < high, "low must be below high");
  must(mean > low && mean < high, "the mean of a beta must lie between low and high");
  must(std::isfinite(spread) && spread > 0, "a beta spread must be above 0");
  const double m = (mean - low) / (high - low), rest = (high - mean) / (high - low), s = spread / (high - low);
  must(s >= 1e-4, "the spread of a beta must be at least 1/10 000 of the way from low to high");
  must(s * s <= 0.98 * m * rest,
       "the spread of a beta is too large for its mean, low and high: nearly all its values would be low or high");
  const double both = m * rest / (s * s) - 1;
  return {Shape::beta, low, high, m * both, rest * both};
}

Marginal weibull(double mean, double spread, double low) {
  must(std::isfinite(low) && std::isfinite(mean) && mean > low,
       "the mean of a weibull must be above its low end (0 where none is typed)");
  must(std::isfinite(spread) && spread > 0, "a weibull spread must be above 0");
  const double ratio = spread / (mean - low);
  must(ratio >= 1e-4 && ratio <= 15, "the spread of a weibull must be 0.0001 to 15 times its mean above low");
  const auto excess = [&](double log_k) { return std::log(weibull_ratio(std::exp(log_k)) / ratio); };
  std::uintmax_t steps = 200;
  const auto [from, to] = boost::math::tools::toms748_solve(excess, std::log(0.2), std::log(1e5),
                                                            boost::math::tools::eps_tolerance<double>(52), steps);
  const double k = std::exp((from + to) / 2);
  return {Shape::weibull, low, (mean - low) / (1 + boost::math::tgamma1pm1(1 / k)), k};
}

Marginal gumbel(double mean, double spread) {
  must(std::isfinite(mean) && std::isfinite(spread) && spread > 0, "a gumbel spread must be above 0");
  const double scale = spread * std::sqrt(6.0) / boost::math::constants::pi<double>();
  return {Shape::gumbel, mean - boost::math::constants::euler<double>() * scale, scale, 0};
}

Marginal student(double location, double scale, double dof) {
  must(std::isfinite(location) && std::isfinite(scale) && scale > 0, "a student scale must be above 0");
  must(dof >= 1 && std::isfinite(dof), "a student needs at least one degree of freedom");
  return {Shape::student, location, scale, dof};
}

Marginal range_of_practice(double low, double high, double inside, Shape shape) {
  must(std::isfinite(low) && std::isfinite(high) && low < high, "low must be below high");
  must(inside > 0 && inside < 1, "the share inside must lie between 0 and 1");
  const double z = normal_quantile((1 + inside) / 2), middle = (low + high) / 2, half = (high - low) / 2;
  switch (shape) {
    case Shape::lognormal: {
      must(low > 0, "the low end of a lognormal range must be above 0");
      return {Shape::lognormal, std::log(low * high) / 2, std::log(high / low) / (2 * z), 0};
    }
    case Shape::normal:
      return normal(middle, half / z);
    case Shape::uniform:
      return uniform(middle - half / inside, middle + half / inside);
    case Shape::triangular: {
      const double reach = half / (1 - std::sqrt(1 - inside));
      return triangular(middle - reach, middle, middle + reach);
    }
    default:
      must(false, "a range of practice is lognormal, normal, uniform or triangular");
  }
  return {};
}

Marginal draws(std::string table, std::vector<double> values) {
  must(!values.empty(), "a table of draws needs at least one row");
  must(std::all_of(values.begin(), values.end(), [](double v) { return std::isfinite(v); }), "a draw must be a number");
  std::vector<double> sorted = values;
  std::sort(sorted.begin(), sorted.end());
  Marginal m;
  m.shape = Shape::draws;
  m.column = std::make_shared<const Column>(Column{std::move(table), std::move(values), std::move(sorted)});
  return m;
}

Marginal scaled(const Marginal& marginal, double factor) {
  Marginal m = marginal;
  m.window.least *= factor;
  m.window.most *= factor;
  switch (m.shape) {
    case Shape::lognormal:
      m.a += std::log(factor);
      return m;
    case Shape::draws: {
      std::vector<double> values = m.column->values;
      for (double& value : values) value *= factor;
      return draws(m.column->table, std::move(values));
    }
    case Shape::triangular:
      m.c *= factor;
      break;
    default:
      break;
  }
  m.a *= factor;
  m.b *= factor;
  return m;
}

Marginal between(const Marginal& whole, double least, double most) {
  must(whole.window.whole(), "a distribution is cut once");
  must(whole.shape != Shape::fixed && whole.shape != Shape::draws, "only a shape can be cut");
  must(least < most, "'above' must lie below 'below'");
  const Share at_least = whole_share(whole, least), at_most = whole_share(whole, most);
  // The difference of the two shares, taken in the tail where they are small.
  const double kept = at_least.above <= 0.5  ? at_least.above - at_most.above
                      : at_most.below <= 0.5 ? at_most.below - at_least.below
                                             : 1 - at_least.below - at_most.above;
  must(kept >= 1e-12, "nothing to speak of lies between 'above' and 'below'");
  Marginal m = whole;
  if (at_least.below > 0 || at_most.above > 0)
    m.window = {least, most, at_least.below, std::min(kept, std::nextafter(1, 0)), at_most.above};
  return m;
}

double Column::at(double u) const {
  const auto n = static_cast<double>(values.size());
  return values[static_cast<std::size_t>(std::min(std::floor(u * n), n - 1))];
}

std::string name(Shape shape) {
  switch (shape) {
    case Shape::fixed:
      return "fixed";
    case Shape::normal:
      return "normal";
    case Shape::lognormal:
      return "lognormal";
    case Shape::uniform:
      return "uniform";
    case Shape::triangular:
      return "triangular";
    case Shape::beta:
      return "beta";
    case Shape::weibull:
      return "weibull";
    case Shape::gumbel:
      return "gumbel";
    case Shape::student:
      return "student";
    case Shape::draws:
      return "draws";
  }
  return "";
}

}  // namespace engine
