#include "engine/rare/mixture.hpp"

#include <algorithm>
#include <cmath>

namespace engine::rare {
namespace {

/// Σ_d axis[d]·u[d] of columns first … last − 1.
void project(const Block& u, const Point& axis, std::size_t first, std::size_t last, std::vector<double>& t) {
  std::fill(t.begin() + static_cast<std::ptrdiff_t>(first), t.begin() + static_cast<std::ptrdiff_t>(last), 0.0);
  for (std::size_t d = 0; d < u.rows(); ++d)
    for (std::size_t i = first; i < last; ++i) t[i] += axis[d] * u.row(d)[i];
}

/// Standard normals of some columns into draws of a bump.
void shape(const Bump& bump, std::size_t first, std::size_t last, std::vector<double>& t, Block& u) {
  project(u, bump.axis, first, last, t);
  for (std::size_t i = first; i < last; ++i) t[i] = (bump.along - bump.across) * t[i] + bump.shift;
  for (std::size_t d = 0; d < u.rows(); ++d)
    for (std::size_t i = first; i < last; ++i) u.row(d)[i] = bump.across * u.row(d)[i] + t[i] * bump.axis[d];
}

}  // namespace

Mixture::Mixture(std::vector<Bump> bumps) : bumps_(std::move(bumps)) {
  double sum = 0;
  for (const Bump& bump : bumps_) sum += bump.weight;
  for (Bump& bump : bumps_) bump.weight /= sum;
}

void Mixture::draw(const Normals& normals, std::uint64_t block, Block& u) const {
  normals.fill(block, u, block_size);
  const double offset = normals.uniform(block, 0);
  std::vector<double> t(block_size);
  double sum = 0;
  std::size_t first = 0;
  for (std::size_t k = 0; k < bumps_.size(); ++k) {
    sum += bumps_[k].weight;
    const auto end = static_cast<std::size_t>(std::max(0.0, std::ceil(sum * block_size - offset)));
    const std::size_t last = k + 1 == bumps_.size() ? block_size : std::clamp(end, first, block_size);
    shape(bumps_[k], first, last, t, u);
    first = last;
  }
}

void Mixture::weigh(const Block& u, std::vector<double>& weight) const {
  const auto n = static_cast<double>(u.rows());
  std::vector<double> square(block_size), top(block_size, -1e308);
  std::vector<std::vector<double>> terms(bumps_.size(), std::vector<double>(block_size));
  for (std::size_t d = 0; d < u.rows(); ++d) {
    const double* row = u.row(d);
    for (std::size_t i = 0; i < block_size; ++i) square[i] += row[i] * row[i];
    for (std::size_t k = 0; k < bumps_.size(); ++k)
      for (std::size_t i = 0; i < block_size; ++i) terms[k][i] += bumps_[k].axis[d] * row[i];
  }
  for (std::size_t k = 0; k < bumps_.size(); ++k) {
    const Bump& b = bumps_[k];
    const double constant = std::log(b.weight) - std::log(b.along) - (n - 1) * std::log(b.across);
    for (std::size_t i = 0; i < block_size; ++i) {
      const double t = terms[k][i], sideways = std::max(0.0, square[i] - t * t), off = t - b.shift;
      terms[k][i] = constant - sideways / (2 * b.across * b.across) - off * off / (2 * b.along * b.along);
      top[i] = std::max(top[i], terms[k][i]);
    }
  }
  weight.assign(block_size, 0.0);
  for (const std::vector<double>& term : terms)
    for (std::size_t i = 0; i < block_size; ++i) weight[i] += std::exp(term[i] - top[i]);
  for (std::size_t i = 0; i < block_size; ++i) weight[i] = std::exp(-square[i] / 2 - top[i]) / weight[i];
}

}  // namespace engine::rare
