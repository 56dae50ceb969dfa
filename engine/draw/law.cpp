#include "engine/draw/law.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <stdexcept>

#include "engine/draw/tail.hpp"

namespace engine {
namespace {

/// x(z) of a standard normal z.
double of_normal(const Marginal& m, double z) {
  if (m.window.whole() && m.shape == Shape::normal) return m.a + m.b * z;
  if (m.window.whole() && m.shape == Shape::lognormal) return std::exp(m.a + m.b * z);
  return m.quantile(normal_distribution(z), normal_distribution(-z));
}

}  // namespace

Law::Law(std::vector<double> base, std::vector<double> floors, std::vector<Part> parts, const std::vector<Tie>& ties)
    : base_(std::move(base)), floors_(std::move(floors)), parts_(std::move(parts)), mix_(parts_.size()) {
  std::map<std::string, std::size_t> tables;
  for (const Part& part : parts_) {
    const bool draws = part.marginal.shape == Shape::draws;
    dimension_.push_back(draws ? tables.emplace(part.marginal.column->table, dimensions_).first->second : dimensions_);
    if (dimension_.back() == dimensions_) ++dimensions_;
  }
  if (ties.empty()) return;
  const auto n = static_cast<Eigen::Index>(parts_.size());
  Eigen::MatrixXd correlation = Eigen::MatrixXd::Identity(n, n);
  std::vector<bool> tied(parts_.size());
  for (const Tie& tie : ties) {
    for (const std::size_t part : {tie.part, tie.other})
      if (parts_[part].marginal.shape == Shape::draws)
        throw std::invalid_argument("draws have the correlation of their rows");
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
  for (const auto& [source, weight] : mix_[part]) all.push_back(dimension_[source]);
  return all.empty() ? std::vector{dimension_[part]} : all;
}

void Law::halve(std::size_t part, double* value, std::size_t passes) const {
  const Marginal& m = parts_[part].marginal;
  const double median = m.median();
  for (std::size_t i = 0; i < passes; ++i)
    value[i] = m.shape == Shape::lognormal ? std::sqrt(value[i] * median) : (value[i] + median) / 2;
}

void Law::draw(const Block& rows, Rows kind, std::size_t part, std::size_t passes, double* value) const {
  const Marginal& marginal = parts_[part].marginal;
  const bool normals = kind == Rows::normals;
  const double* row = rows.row(dimension_[part]);
  if (marginal.shape == Shape::draws) {
    for (std::size_t i = 0; i < passes; ++i) value[i] = marginal.column->at(normals ? normal_distribution(row[i]) : row[i]);
    return;
  }
  if (mix_[part].size() < 2) {
    for (std::size_t i = 0; i < passes; ++i) value[i] = normals ? tail_value(marginal, row[i]) : marginal.quantile(row[i]);
    return;
  }
  std::fill(value, value + passes, 0.0);
  for (const auto& [source, weight] : mix_[part]) {
    const double* other = rows.row(dimension_[source]);
    for (std::size_t i = 0; i < passes; ++i) value[i] += weight * (normals ? other[i] : normal_quantile(other[i]));
  }
  for (std::size_t i = 0; i < passes; ++i)
    value[i] = normals ? tail_value(marginal, value[i]) : of_normal(marginal, value[i]);
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
  for (std::size_t p = 0; p < parts_.size(); ++p) draw(u, Rows::uniforms, p, passes, value.row(p));
}

void Law::compose(const Block& value, Block& x, std::size_t passes, std::vector<std::uint64_t>& clipped) const {
  assemble(x, passes, clipped, [&](std::size_t p) { return value.row(p); });
}

void Law::draw_inputs(const Block& rows, Rows kind, Block& x, std::size_t passes,
                      std::vector<std::uint64_t>& clipped) const {
  std::array<double, block_size> value;
  assemble(x, passes, clipped, [&](std::size_t p) {
    draw(rows, kind, p, passes, value.data());
    return value.data();
  });
}

void Law::transform(const Block& u, Block& x, std::size_t passes, std::vector<std::uint64_t>& clipped) const {
  draw_inputs(u, Rows::uniforms, x, passes, clipped);
}

void Law::transform_normals(const Block& z, Block& x, std::size_t passes, std::vector<std::uint64_t>& clipped) const {
  draw_inputs(z, Rows::normals, x, passes, clipped);
}

}  // namespace engine
