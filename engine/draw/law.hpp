#pragma once
/// The input law: uniforms of a pass → the values of every input, with correlation and independent parts.
#include <cstdint>
#include <vector>

#include "engine/draw/curve.hpp"
#include "engine/draw/marginal.hpp"
#include "engine/pass/block.hpp"

namespace engine {

/// One part of an input. Each has a dimension of its own, but draws: all columns of one table share theirs.
struct Part {
  std::size_t input = 0;
  bool factor = false;  ///< multiplies the input; else it is added
  Marginal marginal;
};

/// Correlation [-] of the underlying normals of two parts, neither of them draws.
struct Tie {
  std::size_t part = 0, other = 0;
  double correlation = 0;
};

/// value of an input = (base + Σ added parts) × Π factors, then at least its floor.
class Law {
public:
  /// @param base    value of each input without its parts
  /// @param floors  least value each input may take (impossible draws become it, and are counted); −infinity for none
  /// @throws std::invalid_argument when the ties make no correlation matrix
  Law(std::vector<double> base, std::vector<double> floors, std::vector<Part> parts, const std::vector<Tie>& ties);

  std::size_t inputs() const { return base_.size(); }
  std::size_t dimensions() const { return dimensions_; }
  const std::vector<Part>& parts() const { return parts_; }
  /// The dimension of a part's own uniform.
  std::size_t dimension(std::size_t part) const { return dimension_[part]; }
  /// The dimensions whose uniforms a part's value is made of: its own alone, or with those it is tied to.
  std::vector<std::size_t> sources(std::size_t part) const;
  /// The first half of transform: the value of every part, one row each.
  void values(const Block& u, Block& value, std::size_t passes) const;
  /// Its second half: values of the parts into inputs.
  void compose(const Block& value, Block& x, std::size_t passes, std::vector<std::uint64_t>& clipped) const;
  /// Values of a part as they would be, at the same uniforms and under the same ties, if it scattered half as much:
  /// half as far from its median, of a lognormal in its logarithm.
  void halve(std::size_t part, double* value, std::size_t passes) const;
  /// Turns uniforms (one row a dimension) into inputs (one row each); adds to `clipped`, one count an input. Parts
  /// are drawn by tables (see QuantileTable) but where a formula is quicker.
  void transform(const Block& u, Block& x, std::size_t passes, std::vector<std::uint64_t>& clipped) const;
  /// The same from standard normals, z = Φ⁻¹(u), of any size: no digits are lost in either tail, and every value is by
  /// the exact quantile function.
  void transform_normals(const Block& z, Block& x, std::size_t passes, std::vector<std::uint64_t>& clipped) const;

private:
  enum class Rows { uniforms, normals };
  class Normals;
  using Mix = std::vector<std::pair<std::size_t, double>>;
  /// Fills mix_.
  void tie(const std::vector<Tie>& ties);
  void add_curves(std::size_t part);
  /// x(u) of every uniform.
  void of_uniforms(std::size_t part, const double* u, double* value, std::size_t n) const;
  /// x(z) of every standard normal mixed from those of uniforms, in place.
  void of_normals(std::size_t part, double* value, std::size_t n) const;
  void draw(const Block& rows, const Normals& normals_of, Rows kind, std::size_t part, std::size_t passes,
            double* value) const;
  /// Draws every part and puts the inputs together.
  void draw_inputs(const Block& rows, Rows kind, Block& x, std::size_t passes,
                   std::vector<std::uint64_t>& clipped) const;
  /// Inputs from the values of their parts; `row(p, space)` gives those of a part, in the space or elsewhere.
  template <class Row>
  void assemble(Block& x, std::size_t passes, std::vector<std::uint64_t>& clipped, Row row) const;

  std::vector<double> base_, floors_;
  std::vector<Part> parts_;
  std::vector<std::size_t> dimension_;  ///< of each part
  std::size_t dimensions_ = 0;
  std::vector<std::size_t> begins_;  ///< of each input: its first added part, or as many as there are parts
  /// Of each part: a table over uniforms where it stands alone, over normals where it is tied or that one is not
  /// enough; neither where a formula is quicker, or as good.
  std::vector<std::shared_ptr<const ShareCurve>> over_shares_;
  std::vector<std::shared_ptr<const NormalCurve>> over_normals_;
  /// Rows of the Cholesky factor of tied parts; empty for a part that stands alone.
  std::vector<Mix> mix_;
};

}  // namespace engine
