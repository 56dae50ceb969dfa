#pragma once
/// Limit states whose probability of failure is known, each with where the number comes from.
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "engine/rare/limit_state.hpp"

namespace rare_examples {

/// A limit state from a function of one point.
class Pointwise : public engine::rare::LimitState {
public:
  using Margin = std::function<double(const std::vector<double>&)>;
  Pointwise(std::size_t dimension, Margin margin) : dimension_(dimension), margin_(std::move(margin)) {}
  std::size_t dimension() const override { return dimension_; }
  void evaluate(const engine::Block& u, double* g, std::size_t n) const override;

private:
  std::size_t dimension_;
  Margin margin_;
};

/// g = offset + Σ term(u_d).
class Additive : public engine::rare::LimitState {
public:
  Additive(std::size_t dimension, double offset, std::function<double(double)> term)
      : dimension_(dimension), offset_(offset), term_(std::move(term)) {}
  std::size_t dimension() const override { return dimension_; }
  void evaluate(const engine::Block& u, double* g, std::size_t n) const override;

private:
  std::size_t dimension_;
  double offset_;
  std::function<double(double)> term_;
};

struct Example {
  std::string name;
  std::shared_ptr<const engine::rare::LimitState> state;
  double exact = 0;
  double error = 0;  ///< standard error of `exact` where that itself was simulated
  std::string source;
};

std::vector<Example> all();
/// The example of a name that `all` has.
const Example& example(const std::string& name);

}  // namespace rare_examples
