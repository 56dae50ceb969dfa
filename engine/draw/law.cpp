#include "engine/draw/law.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

namespace engine {
namespace {

/// x(z) of a standard normal z.
double of_normal(const Marginal& m, double z) {
  if (m.shape == Shape::normal) return m.a + m.b * z;
  if (m.shape == Shape::lognormal) return std::exp(m.a + m.b * z);
  return m.quantile(std::clamp(normal_distribution(z), 0x1p-53, 1 - 0x1p-53));
}

}  // namespace

Law::Law(std::vector<double> base, std::vector<double> floors, std::vector<Part> parts, const std::vector<Tie>& ties)
    : base_(std::move(base)), floors_(std::move(floors)), parts_(std::move(parts)), mix_(parts_.size()) {
  if (ties.empty()) return;
  const auto n = static_cast<Eigen::Index>(parts_.size());
  Eigen::MatrixXd correlation = Eigen::MatrixXd::Identity(n, n);
  std::vector<bool> tied(parts_.size());
  for (const Tie& tie : ties) {
    const auto i = static_cast<Eigen::Index>(tie.part), j = static_cast<Eigen::Index>(tie.other);
    correlation(i, j) = correlation(j, i) = tie.correlation;
    tied[tie.part] = tied[tie.other] = true;
  }
  const Eigen::LLT<Eigen::MatrixXd> factor(correlation);
  if (factor.info() != Eigen::Success) throw std::invalid_argument("the correlations make no positive definite matrix");
  const Eigen::MatrixXd lower = factor.matrixL();
  for (Eigen::Index i = 0; i < n; ++i)
    for (Eigen::Index j = 0; tied[static_cast<std::size_t>(i)] && j <= i; ++j)
      if (lower(i, j) != 0) mix_[static_cast<std::size_t>(i)].emplace_back(static_cast<std::size_t>(j), lower(i, j));
}

std::vector<std::size_t> Law::sources(std::size_t part) const {
  std::vector<std::size_t> all;
  for (const auto& [source, weight] : mix_[part]) all.push_back(source);
  return all.empty() ? std::vector{part} : all;
}

void Law::halve(std::size_t part, double* value, std::size_t passes) const {
  const Marginal& m = parts_[part].marginal;
  const double median = m.median();
  for (std::size_t i = 0; i < passes; ++i)
    value[i] = m.shape == Shape::lognormal ? std::sqrt(value[i] * median) : (value[i] + median) / 2;
}

void Law::draw(const Block& u, std::size_t part, std::size_t passes, double* value) const {
  const Marginal& marginal = parts_[part].marginal;
  if (mix_[part].size() < 2) {
    for (std::size_t i = 0; i < passes; ++i) value[i] = marginal.quantile(u.row(part)[i]);
    return;
  }
  std::fill(value, value + passes, 0.0);
  for (const auto& [source, weight] : mix_[part])
    for (std::size_t i = 0; i < passes; ++i) value[i] += weight * normal_quantile(u.row(source)[i]);
  for (std::size_t i = 0; i < passes; ++i) value[i] = of_normal(marginal, value[i]);
}

template <class Row>
void Law::assemble(Block& x, std::size_t passes, std::vector<std::uint64_t>& clipped, Row row) const {
  for (std::size_t k = 0; k < base_.size(); ++k) std::fill(x.row(k), x.row(k) + passes, base_[k]);
  for (const bool factor : {false, true})
    for (std::size_t p = 0; p < parts_.size(); ++p) {
      if (parts_[p].factor != factor) continue;
      const double* value = row(p);
      double* input = x.row(parts_[p].input);
      for (std::size_t i = 0; i < passes; ++i) input[i] = factor ? input[i] * value[i] : input[i] + value[i];
    }
  for (std::size_t k = 0; k < base_.size(); ++k)
    for (std::size_t i = 0; i < passes; ++i)
      if (x.row(k)[i] < floors_[k]) {
        x.row(k)[i] = floors_[k];
        ++clipped[k];
      }
}

void Law::values(const Block& u, Block& value, std::size_t passes) const {
  for (std::size_t p = 0; p < parts_.size(); ++p) draw(u, p, passes, value.row(p));
}

void Law::compose(const Block& value, Block& x, std::size_t passes, std::vector<std::uint64_t>& clipped) const {
  assemble(x, passes, clipped, [&](std::size_t p) { return value.row(p); });
}

void Law::transform(const Block& u, Block& x, std::size_t passes, std::vector<std::uint64_t>& clipped) const {
  std::array<double, block_size> value;
  assemble(x, passes, clipped, [&](std::size_t p) {
    draw(u, p, passes, value.data());
    return value.data();
  });
}

}  // namespace engine
