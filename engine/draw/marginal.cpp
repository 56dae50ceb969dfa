#include "engine/draw/marginal.hpp"

#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace engine {
namespace {

void must(bool holds, const char* sentence) {
  if (!holds) throw std::invalid_argument(sentence);
}

double triangular_quantile(const Marginal& m, double u) {
  const double width = m.b - m.a, left = (m.c - m.a) / width;
  if (u < left) return m.a + std::sqrt(u * width * (m.c - m.a));
  return m.b - std::sqrt((1 - u) * width * (m.b - m.c));
}

double triangular_distribution(const Marginal& m, double x) {
  if (x <= m.a) return 0;
  if (x >= m.b) return 1;
  const double width = m.b - m.a;
  if (x < m.c) return (x - m.a) * (x - m.a) / (width * (m.c - m.a));
  return 1 - (m.b - x) * (m.b - x) / (width * (m.b - m.c));
}

boost::math::students_t_distribution<double> student_of(const Marginal& m) {
  return boost::math::students_t_distribution<double>(m.c);
}

}  // namespace

double Marginal::mean() const {
  switch (shape) {
    case Shape::lognormal:
      return std::exp(a + b * b / 2);
    case Shape::uniform:
      return (a + b) / 2;
    case Shape::triangular:
      return (a + b + c) / 3;
    default:
      return a;
  }
}

double Marginal::median() const { return shape == Shape::fixed ? a : quantile(0.5); }

double Marginal::spread() const {
  switch (shape) {
    case Shape::fixed:
      return 0;
    case Shape::normal:
      return b;
    case Shape::lognormal:
      return mean() * std::sqrt(std::expm1(b * b));
    case Shape::uniform:
      return (b - a) / std::sqrt(12.0);
    case Shape::triangular:
      return std::sqrt((a * a + b * b + c * c - a * b - a * c - b * c) / 18);
    case Shape::student:
      return c > 2 ? b * std::sqrt(c / (c - 2)) : std::numeric_limits<double>::quiet_NaN();
  }
  return 0;
}

double Marginal::quantile(double u) const {
  switch (shape) {
    case Shape::fixed:
      return a;
    case Shape::normal:
      return a + b * normal_quantile(u);
    case Shape::lognormal:
      return std::exp(a + b * normal_quantile(u));
    case Shape::uniform:
      return a + (b - a) * u;
    case Shape::triangular:
      return triangular_quantile(*this, u);
    case Shape::student:
      return a + b * boost::math::quantile(student_of(*this), u);
  }
  return a;
}

double Marginal::distribution(double x) const {
  switch (shape) {
    case Shape::fixed:
      return x >= a ? 1 : 0;
    case Shape::normal:
      return normal_distribution((x - a) / b);
    case Shape::lognormal:
      return x <= 0 ? 0 : normal_distribution((std::log(x) - a) / b);
    case Shape::uniform:
      return x <= a ? 0 : x >= b ? 1 : (x - a) / (b - a);
    case Shape::triangular:
      return triangular_distribution(*this, x);
    case Shape::student:
      return boost::math::cdf(student_of(*this), (x - a) / b);
  }
  return 0;
}

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
    case Shape::student:
      return "student";
  }
  return "";
}

}  // namespace engine
