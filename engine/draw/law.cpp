#include "engine/draw/law.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <array>
#include <limits>
#include <memory>
#include <stdexcept>

#include "engine/draw/block_math.hpp"

namespace engine {
namespace {

/// x(u) of every u, in place: Marginal::quantile in vectorised stages where there are some.
void quantiles(const Marginal& m, double* value, std::size_t n) {
  const BlockMath& math = block_math();
  switch (m.shape) {
    case Shape::uniform:
      return math.line(value, m.a, m.b - m.a, n);
    case Shape::triangular:
      return math.triangular(value, m.a, m.c, m.b, n);
    case Shape::normal:
    case Shape::lognormal:
      math.normal_quantile(value, n);
      math.line(value, m.a, m.b, n);
      return m.shape == Shape::lognormal ? math.exp(value, n) : void();
    default:
      for (std::size_t i = 0; i < n; ++i) value[i] = m.quantile(value[i]);
  }
}

/// x(z) of every standard normal z, in place.
void of_normals(const Marginal& m, double* value, std::size_t n) {
  if (m.shape == Shape::normal || m.shape == Shape::lognormal) {
    block_math().line(value, m.a, m.b, n);
    if (m.shape == Shape::lognormal) block_math().exp(value, n);
    return;
  }
  for (std::size_t i = 0; i < n; ++i) value[i] = std::clamp(normal_distribution(value[i]), 0x1p-53, 1 - 0x1p-53);
  quantiles(m, value, n);
}

}  // namespace

/// The standard normals of the parts that others are mixed from, each worked out once a block.
class Law::Normals {
public:
  Normals(const std::vector<Mix>& mixes, const Block& u, std::size_t passes) : place_(mixes.size(), none) {
    std::size_t count = 0;
    for (const Mix& mix : mixes)
      for (std::size_t s = 0; mix.size() > 1 && s < mix.size(); ++s)
        if (place_[mix[s].first] == none) place_[mix[s].first] = count++;
    rows_ = std::make_unique_for_overwrite<double[]>(count * block_size);
    for (std::size_t part = 0; part < mixes.size(); ++part) {
      if (place_[part] == none) continue;
      double* row = rows_.get() + place_[part] * block_size;
      std::copy_n(u.row(part), passes, row);
      normal_quantile_block(row, passes);
    }
  }
  const double* of(std::size_t part) const { return rows_.get() + place_[part] * block_size; }

private:
  static constexpr std::size_t none = std::numeric_limits<std::size_t>::max();
  std::vector<std::size_t> place_;
  std::unique_ptr<double[]> rows_;
};

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

void Law::draw(const Block& u, const Normals& normals, std::size_t part, std::size_t passes, double* value) const {
  const Marginal& marginal = parts_[part].marginal;
  if (mix_[part].size() < 2) {
    std::copy_n(u.row(part), passes, value);
    quantiles(marginal, value, passes);
    return;
  }
  std::fill_n(value, passes, 0.0);
  for (const auto& [source, weight] : mix_[part]) block_math().add(value, normals.of(source), weight, passes);
  of_normals(marginal, value, passes);
}

void Law::transform(const Block& u, Block& x, std::size_t passes, std::vector<std::uint64_t>& clipped) const {
  const BlockMath& math = block_math();
  for (std::size_t k = 0; k < base_.size(); ++k) std::fill_n(x.row(k), passes, base_[k]);
  Normals normals(mix_, u, passes);
  std::array<double, block_size> value;
  for (const bool factor : {false, true})
    for (std::size_t p = 0; p < parts_.size(); ++p) {
      if (parts_[p].factor != factor) continue;
      draw(u, normals, p, passes, value.data());
      double* row = x.row(parts_[p].input);
      if (factor)
        math.multiply(row, value.data(), passes);
      else
        math.add(row, value.data(), 1, passes);
    }
  for (std::size_t k = 0; k < base_.size(); ++k)
    if (floors_[k] > -std::numeric_limits<double>::infinity()) clipped[k] += math.raise(x.row(k), floors_[k], passes);
}

}  // namespace engine
