#pragma once
/// Functions with known variance shares, as block models.
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>
#include <utility>
#include <vector>

#include "engine/matter/shares.hpp"

namespace matter_tests {

using namespace engine;

constexpr double inf = std::numeric_limits<double>::infinity();

/// One output: a function of a pass's inputs.
class Function : public BlockModel {
public:
  using Of = std::function<double(const std::vector<double>&)>;
  Function(std::size_t inputs, Of of) : inputs_(inputs), of_(std::move(of)) {}
  std::size_t inputs() const override { return inputs_; }
  std::size_t outputs() const override { return 1; }
  void evaluate(const Block& x, Block& y, std::size_t passes) const override {
    std::vector<double> one(inputs_);
    for (std::size_t i = 0; i < passes; ++i) {
      for (std::size_t k = 0; k < inputs_; ++k) one[k] = x.row(k)[i];
      y.row(0)[i] = of_(one);
    }
  }

private:
  std::size_t inputs_;
  Of of_;
};

/// Σ c_i x_i.
inline Function linear(const std::vector<double>& c) {
  return Function(c.size(), [c](const std::vector<double>& x) {
    double sum = 0;
    for (std::size_t k = 0; k < c.size(); ++k) sum += c[k] * x[k];
    return sum;
  });
}

/// One part an input.
inline Law law_of(const std::vector<Marginal>& marginals, const std::vector<Tie>& ties = {}) {
  std::vector<Part> parts;
  for (std::size_t k = 0; k < marginals.size(); ++k) parts.push_back({k, false, marginals[k]});
  return Law(std::vector<double>(marginals.size()), std::vector<double>(marginals.size(), -inf), parts, ties);
}

/// A group for every part.
inline std::vector<Group> one_by_one(const Law& law) {
  std::vector<Group> groups;
  for (std::size_t p = 0; p < law.parts().size(); ++p) groups.push_back({p});
  return groups;
}

/// sin x1 + 7 sin² x2 + 0.1 x3⁴ sin x1, each uniform from −π to π.
inline Law ishigami_law() {
  const double pi = std::numbers::pi;
  return law_of(std::vector<Marginal>(3, uniform(-pi, pi)));
}
inline Function ishigami() {
  return Function(3, [](const std::vector<double>& x) {
    return std::sin(x[0]) + 7 * std::pow(std::sin(x[1]), 2) + 0.1 * std::pow(x[2], 4) * std::sin(x[0]);
  });
}

/// Bounds of the estimate are at most `width` apart and, drawn 1.6 times as wide (3.4 standard errors: of the hundred
/// such checks here none should fail), hold the truth.
inline bool finds(const Estimate& it, double truth, double width) {
  const double wide = 1.6;
  return it.low <= it.estimate && it.estimate <= it.high && it.high - it.low <= width &&
         it.estimate - wide * (it.estimate - it.low) <= truth && truth <= it.estimate + wide * (it.high - it.estimate);
}

}  // namespace matter_tests
