#pragma once
/// Quantile functions as tables of quintics: any distribution is drawn in the time of any other.
#include <cstdint>
#include <memory>
#include <vector>

#include "engine/draw/block_math.hpp"
#include "engine/draw/marginal.hpp"
#include "engine/draw/quintic.hpp"

namespace engine {

/// What the tables have in common. Their pieces go through exact values and are checked in between (see Accuracy):
/// drawn values are within 1e-10 of spread + |x − median| of the exact ones, never beyond the ends of the distribution,
/// and rise as far as that accuracy goes. Where a table has no piece, the exact function is called. Bits depend on the
/// C library as those of the exact functions do, and on nothing else.
class QuantileTable {
public:
  QuantileTable(const QuantileTable&) = delete;
  QuantileTable& operator=(const QuantileTable&) = delete;
  /// Pieces that are polynomials.
  std::size_t pieces() const { return pieces_; }

protected:
  static constexpr std::size_t stride = CurveRows::stride;
  explicit QuantileTable(const Marginal& marginal);
  /// Appends a piece; one that is not a number calls for the exact function.
  void add(const Quintic& piece);
  void add_none();
  std::int32_t size() const { return static_cast<std::int32_t>(coefficients_.size() / stride); }
  CurveRows rows() const { return {coefficients_.data(), low_, high_}; }

  Marginal marginal_;
  double low_, high_;
  std::vector<double> coefficients_;
  std::size_t pieces_ = 0;
};

/// x(u) = Q(u) for uniforms of 53 bits, the usual case: in equal parts of each octave of u, and of 1 − u, down to 2⁻⁵⁴.
class ShareCurve : public QuantileTable {
public:
  explicit ShareCurve(const Marginal& marginal);

  /// Whether 64 pieces an octave do; else it has none.
  explicit operator bool() const { return pieces_ > 0; }
  /// Uniforms to values.
  /// @param u, x  rows that do not overlap
  void operator()(const double* u, double* x, std::size_t n) const;

private:
  bool fill(const Accuracy& accuracy);
  int bits_ = 0;  ///< 2^bits_ pieces an octave
};

/// x(z) = Q(Φ(z)) for |z| ≤ 8.25: in cells of width 1/8, each in as many equal pieces as it takes; where 1024 do not do
/// (about a kink), and farther out, the exact function.
class NormalCurve : public QuantileTable {
public:
  explicit NormalCurve(const Marginal& marginal);

  /// Standard normals to values.
  /// @param z, x  rows that do not overlap
  void operator()(const double* z, double* x, std::size_t n) const;

private:
  void add_cell(double from, const Accuracy& accuracy);
  std::vector<double> count_;        ///< of a cell: how many pieces it has
  std::vector<std::int32_t> first_;  ///< of a cell: its first piece
};

/// The curve of a distribution; one that is in use anywhere is shared.
template <class AnyCurve>
std::shared_ptr<const AnyCurve> curve_of(const Marginal& marginal);

}  // namespace engine
