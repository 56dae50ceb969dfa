#pragma once
/// The loops of a draw over a block, vectorised: one stage each, in place or row to row. Element by element they give
/// the bits of the scalar functions (engine/lanes/point_math.hpp), on every instruction set.
#include <cstddef>
#include <cstdint>

namespace engine {

/// A table of polynomials: see engine/draw/curve.hpp.
struct CurveRows {
  static constexpr std::ptrdiff_t stride = 8;  ///< from one piece's coefficients to the next one's

  const double* coefficients;  ///< six a piece, for t from −1 to 1; not numbers where there is no polynomial
  double low, high;            ///< ends of the distribution
};

/// How a table over standard normals is cut, from −reach to reach.
struct NormalCells {
  static constexpr double reach = 8.25, width = 0.125;
  static constexpr int count = 132;

  const double* pieces;       ///< in each cell; there is one cell more at either end
  const std::int32_t* first;  ///< piece of each cell; piece 0 is none
};

struct BlockMath {
  void (*normal_quantile)(double* u_to_z, std::size_t n);
  void (*exp)(double* x, std::size_t n);
  void (*log)(double* x, std::size_t n);
  /// x ← a + b·x
  void (*line)(double* x, double a, double b, std::size_t n);
  void (*uniform)(double* u_to_x, double low, double high, std::size_t n);
  void (*triangular)(double* u_to_x, double low, double mode, double high, std::size_t n);
  /// sum ← sum + weight·x
  void (*add)(double* sum, const double* x, double weight, std::size_t n);
  void (*multiply)(double* product, const double* x, std::size_t n);
  /// Raises to the floor what is below it.
  /// @return how many were
  std::uint64_t (*raise)(double* x, double floor, std::size_t n);
  /// Uniforms of passes first … first + n − 1 from both words of threefry((pass, pair), (key, stream)).
  /// @param other  may be null
  void (*uniforms)(std::uint64_t first, std::uint64_t pair, std::uint64_t key, std::uint64_t stream, double* one,
                   double* other, std::size_t n);
  /// Values of a table over uniforms with 2^bits pieces an octave, those of 1 − u behind those of u.
  /// @param n  at most 256
  /// @return   how many it has no value for; they are not numbers
  std::uint64_t (*share_curve)(const double* u, double* x, const CurveRows& rows, int bits, std::size_t n);
  /// The same over standard normals.
  std::uint64_t (*normal_curve)(const double* z, double* x, const CurveRows& rows, const NormalCells& cells,
                                std::size_t n);
  /// Points of a net coordinate: point i is `start` with the directions of the one-bits of i.
  /// @param n  a power of 2, at most 1024
  void (*net)(std::uint64_t start, const std::uint64_t* directions, double* u, std::size_t n);
};

/// Of the instruction set in use.
const BlockMath& block_math();

/// In place; the bits of normal_quantile, exponential and logarithm.
inline void normal_quantile_block(double* u_to_z, std::size_t n) { block_math().normal_quantile(u_to_z, n); }
inline void exp_block(double* x, std::size_t n) { block_math().exp(x, n); }
inline void log_block(double* x, std::size_t n) { block_math().log(x, n); }

}  // namespace engine
