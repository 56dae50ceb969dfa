#include "engine/draw/law.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <memory>
#include <stdexcept>

#include "engine/draw/block_math.hpp"
#include "engine/draw/tail.hpp"

namespace engine {
namespace {

bool is_whole(const Marginal& m, Shape shape) { return m.shape == shape && m.window.whole(); }

/// x(z) of every standard normal z of a normal or a lognormal, in place.
/// @return  whether it is one; else nothing is done
bool from_normals(const Marginal& m, double* value, std::size_t n) {
  const bool exponential = is_whole(m, Shape::lognormal);
  if (!exponential && !is_whole(m, Shape::normal)) return false;
  block_math().line(value, m.a, m.b, n);
  if (exponential) exp_block(value, n);
  return true;
}

/// x(z) of every standard normal z of any size, in place.
void of_any_normals(const Marginal& m, double* value, std::size_t n) {
  if (from_normals(m, value, n)) return;
  for (std::size_t i = 0; i < n; ++i) value[i] = tail_value(m, value[i]);
}

}  // namespace

/// The standard normals of the parts that others are mixed from, each worked out once a block.
class Law::Normals {
public:
  /// @param dimension  of each part: its row
  Normals(const std::vector<Mix>& mixes, const std::vector<std::size_t>& dimension, const Block& rows, Rows kind,
          std::size_t passes)
      : rows_(mixes.size()) {
    for (const Mix& mix : mixes)
      for (std::size_t s = 0; mix.size() > 1 && s < mix.size(); ++s) {
        const std::size_t part = mix[s].first;
        if (rows_[part]) continue;
        rows_[part] = rows.row(dimension[part]);
        if (kind == Rows::uniforms) rows_[part] = quantiles(rows_[part], passes);
      }
  }
  const double* of(std::size_t part) const { return rows_[part]; }

private:
  const double* quantiles(const double* u, std::size_t passes) {
    own_.push_back(std::make_unique_for_overwrite<double[]>(block_size));
    std::copy_n(u, passes, own_.back().get());
    normal_quantile_block(own_.back().get(), passes);
    return own_.back().get();
  }
  std::vector<const double*> rows_;
  std::vector<std::unique_ptr<double[]>> own_;
};

void Law::add_curves(std::size_t part) {
  const Marginal& m = parts_[part].marginal;
  over_shares_.emplace_back(), over_normals_.emplace_back();
  if (m.shape == Shape::fixed || m.shape == Shape::draws) return;
  const bool tied = mix_[part].size() > 1;
  if (!tied && (is_whole(m, Shape::uniform) || is_whole(m, Shape::triangular))) return;
  if (!tied) over_shares_.back() = curve_of<ShareCurve>(m);
  if (!tied && *over_shares_.back()) return;
  over_shares_.back() = nullptr;
  if (!is_whole(m, Shape::normal) && !is_whole(m, Shape::lognormal)) over_normals_.back() = curve_of<NormalCurve>(m);
}

void Law::of_uniforms(std::size_t part, const double* u, double* value, std::size_t n) const {
  const Marginal& m = parts_[part].marginal;
  if (m.shape == Shape::fixed) return static_cast<void>(std::fill_n(value, n, m.a));
  if (over_shares_[part]) return (*over_shares_[part])(u, value, n);
  std::copy_n(u, n, value);
  if (is_whole(m, Shape::uniform)) return block_math().uniform(value, m.a, m.b, n);
  if (is_whole(m, Shape::triangular)) return block_math().triangular(value, m.a, m.c, m.b, n);
  normal_quantile_block(value, n);
  of_normals(part, value, n);
}

void Law::of_normals(std::size_t part, double* value, std::size_t n) const {
  const Marginal& m = parts_[part].marginal;
  if (m.shape == Shape::fixed) return static_cast<void>(std::fill_n(value, n, m.a));
  if (!over_normals_[part]) return static_cast<void>(from_normals(m, value, n));
  std::array<double, block_size> z;
  std::copy_n(value, n, z.data());
  (*over_normals_[part])(z.data(), value, n);
}

Law::Law(std::vector<double> base, std::vector<double> floors, std::vector<Part> parts, const std::vector<Tie>& ties)
    : base_(std::move(base)), floors_(std::move(floors)), parts_(std::move(parts)), mix_(parts_.size()) {
  std::map<std::string, std::size_t> tables;
  for (const Part& part : parts_) {
    const bool draws = part.marginal.shape == Shape::draws;
    dimension_.push_back(draws ? tables.emplace(part.marginal.column->table, dimensions_).first->second : dimensions_);
    if (dimension_.back() == dimensions_) ++dimensions_;
  }
  begins_.assign(base_.size(), parts_.size());
  for (std::size_t p = parts_.size(); p-- > 0;)
    if (!parts_[p].factor) begins_[parts_[p].input] = p;
  tie(ties);
  for (std::size_t p = 0; p < parts_.size(); ++p) add_curves(p);
}

void Law::tie(const std::vector<Tie>& ties) {
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

void Law::draw(const Block& rows, const Normals& normals_of, Rows kind, std::size_t part, std::size_t passes,
               double* value) const {
  const Marginal& marginal = parts_[part].marginal;
  const bool normals = kind == Rows::normals;
  const double* row = rows.row(dimension_[part]);
  if (marginal.shape == Shape::draws) {
    for (std::size_t i = 0; i < passes; ++i)
      value[i] = marginal.column->at(normals ? normal_distribution(row[i]) : row[i]);
    return;
  }
  if (mix_[part].size() < 2) {
    if (!normals) return of_uniforms(part, row, value, passes);
    std::copy_n(row, passes, value);
    return of_any_normals(marginal, value, passes);
  }
  std::fill_n(value, passes, 0.0);
  for (const auto& [source, weight] : mix_[part]) block_math().add(value, normals_of.of(source), weight, passes);
  normals ? of_any_normals(marginal, value, passes) : of_normals(part, value, passes);
}

template <class Row>
void Law::assemble(Block& x, std::size_t passes, std::vector<std::uint64_t>& clipped, Row row) const {
  const BlockMath& math = block_math();
  std::array<double, block_size> space;
  for (std::size_t k = 0; k < base_.size(); ++k)
    if (begins_[k] == parts_.size()) std::fill_n(x.row(k), passes, base_[k]);
  for (const bool factor : {false, true})
    for (std::size_t p = 0; p < parts_.size(); ++p) {
      if (parts_[p].factor != factor) continue;
      double* input = x.row(parts_[p].input);
      if (begins_[parts_[p].input] == p) {
        if (const double* value = row(p, input); value != input) std::copy_n(value, passes, input);
        math.line(input, base_[parts_[p].input], 1, passes);
      } else {
        const double* value = row(p, space.data());
        factor ? math.multiply(input, value, passes) : math.add(input, value, 1, passes);
      }
    }
  for (std::size_t k = 0; k < base_.size(); ++k)
    if (floors_[k] > -std::numeric_limits<double>::infinity()) clipped[k] += math.raise(x.row(k), floors_[k], passes);
}

void Law::values(const Block& u, Block& value, std::size_t passes) const {
  const Normals normals_of(mix_, dimension_, u, Rows::uniforms, passes);
  for (std::size_t p = 0; p < parts_.size(); ++p) draw(u, normals_of, Rows::uniforms, p, passes, value.row(p));
}

void Law::compose(const Block& value, Block& x, std::size_t passes, std::vector<std::uint64_t>& clipped) const {
  assemble(x, passes, clipped, [&](std::size_t p, double*) { return value.row(p); });
}

void Law::draw_inputs(const Block& rows, Rows kind, Block& x, std::size_t passes,
                      std::vector<std::uint64_t>& clipped) const {
  const Normals normals_of(mix_, dimension_, rows, kind, passes);
  assemble(x, passes, clipped, [&](std::size_t p, double* value) {
    draw(rows, normals_of, kind, p, passes, value);
    return value;
  });
}

void Law::transform(const Block& u, Block& x, std::size_t passes, std::vector<std::uint64_t>& clipped) const {
  draw_inputs(u, Rows::uniforms, x, passes, clipped);
}

void Law::transform_normals(const Block& z, Block& x, std::size_t passes, std::vector<std::uint64_t>& clipped) const {
  draw_inputs(z, Rows::normals, x, passes, clipped);
}

}  // namespace engine
