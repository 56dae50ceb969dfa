#pragma once
/// The examples of JCGM 101:2008, clause 9, as laws and block models, and what the engine's tests need of both.
#include <cmath>
#include <limits>
#include <vector>

#include "engine/pass/survey.hpp"

namespace jcgm {

/// Independent inputs, one part each.
inline engine::Law inputs(const std::vector<engine::Marginal>& marginals) {
  std::vector<engine::Part> parts;
  for (std::size_t k = 0; k < marginals.size(); ++k) parts.push_back({k, false, marginals[k]});
  const std::size_t n = marginals.size();
  return {std::vector<double>(n), std::vector<double>(n, -std::numeric_limits<double>::infinity()), parts, {}};
}

/// A model of one output, given as a function of one pass's inputs.
template <class Function>
class Single : public engine::BlockModel {
public:
  Single(std::size_t inputs, Function function) : inputs_(inputs), function_(function) {}
  std::size_t inputs() const override { return inputs_; }
  std::size_t outputs() const override { return 1; }
  void evaluate(const engine::Block& x, engine::Block& y, std::size_t passes) const override {
    std::vector<double> one(inputs_);
    for (std::size_t i = 0; i < passes; ++i) {
      for (std::size_t k = 0; k < inputs_; ++k) one[k] = x.row(k)[i];
      y.row(0)[i] = function_(one);
    }
  }

private:
  std::size_t inputs_;
  Function function_;
};

inline double sum_of(const std::vector<double>& x) {
  double sum = 0;
  for (const double value : x) sum += value;
  return sum;
}
/// 9.2: Y = X1 + X2 + X3 + X4.
inline auto additive() { return Single(4, sum_of); }
inline engine::Law four_normals() { return inputs(std::vector<engine::Marginal>(4, engine::normal(0, 1))); }
inline engine::Law four_uniforms() {
  return inputs(std::vector<engine::Marginal>(4, engine::uniform(-std::sqrt(3.0), std::sqrt(3.0))));
}
inline engine::Law one_dominant() {
  const double r = std::sqrt(3.0);
  return inputs(
      {engine::uniform(-r, r), engine::uniform(-r, r), engine::uniform(-r, r), engine::uniform(-10 * r, 10 * r)});
}

/// 9.4: δY = X1² + X2² in 10⁻⁶, X1 about 1000·x1.
inline auto loss() {
  return Single(2, [](const std::vector<double>& x) { return x[0] * x[0] + x[1] * x[1]; });
}
inline engine::Law loss_at(double x1) { return inputs({engine::normal(1000 * x1, 5), engine::normal(0, 5)}); }

/// A rectangle whose ends are inexact by ± d, from two uniforms (6.4.3).
inline double curved_trapezoid(double a, double b, double d, double first, double second) {
  const double low = a - d + 2 * d * first, high = a + b - low;
  return low + (high - low) * second;
}

/// Student's t from a standard normal, by a table: the engine's own quantile is exact and too slow for millions.
class StudentOfNormal {
public:
  explicit StudentOfNormal(double dof) {
    for (int i = 0; i <= 2 * last; ++i)
      table_.push_back(engine::student(0, 1, dof).quantile(engine::normal_distribution((i - last) / steps)));
  }
  double operator()(double z) const {
    const double at = std::min(std::max(z * steps + last, 0.0), 2.0 * last - 1e-9);
    const auto i = static_cast<std::size_t>(at);
    return table_[i] + (at - static_cast<double>(i)) * (table_[i + 1] - table_[i]);
  }

private:
  static constexpr int last = 1200;
  static constexpr double steps = 200;  ///< a unit of z
  std::vector<double> table_;
};

/// 9.5: the length of a gauge block, in nm.
inline auto gauge_block() {
  const StudentOfNormal t18(18), t24(24), t5(5), t8(8);
  return Single(11, [=](const std::vector<double>& x) {
    const double swing = 0.5 * std::sin(2 * 3.14159265358979324 * x[6]);
    const double d_alpha = curved_trapezoid(-1e-6, 1e-6, 0.1e-6, x[7], x[8]);
    const double d_theta = curved_trapezoid(-0.05, 0.05, 0.025, x[9], x[10]);
    const double standard = 50000623 + 25 * t18(x[0]);
    const double sum = standard + 215 + 6 * t24(x[1]) + 4 * t5(x[2]) + 7 * t8(x[3]);
    return sum - standard * (d_alpha * (x[5] + swing) + x[4] * d_theta) - 50e6;
  });
}
inline engine::Law gauge_block_inputs() {
  using namespace engine;
  const Marginal whole = uniform(0, 1), z = normal(0, 1);
  return inputs({z, z, z, z, uniform(9.5e-6, 13.5e-6), normal(-0.1, 0.2), whole, whole, whole, whole, whole});
}

}  // namespace jcgm
