#pragma once
/// A limit state in standard normal space: where a design fails, as seen from independent standard normals.
#include <cmath>
#include <cstddef>
#include <limits>

#include "engine/draw/law.hpp"
#include "engine/pass/block.hpp"

namespace engine::rare {

/// A margin g over independent standard normals; the design fails where g ≤ 0, and where g is NaN.
class LimitState {
public:
  virtual ~LimitState() = default;
  /// Standard normals a point has, ≥ 1.
  virtual std::size_t dimension() const = 0;
  /// @param u  one row a dimension, of which the first `n` ≤ block_size columns count; may be called from several
  /// threads
  /// @param g  `n` margins; +infinity is safe, NaN a failure. The unit is the caller's: only the sign and order count.
  virtual void evaluate(const Block& u, double* g, std::size_t n) const = 0;
};

/// Calls the limit state and turns NaN into −infinity, so that margins have an order and g ≤ 0 is failure.
inline void margins(const LimitState& state, const Block& u, double* g, std::size_t n) {
  state.evaluate(u, g, n);
  for (std::size_t i = 0; i < n; ++i)
    if (std::isnan(g[i])) g[i] = -std::numeric_limits<double>::infinity();
}

/// Failure of one output of a model: below `least`, or missing. An output that equals `least` holds, as it does in a
/// survey. The law and the model must outlive it. g = (y − least)/|least| (y where least is 0).
class ModelState : public LimitState {
public:
  /// @throws std::invalid_argument when the law scatters nothing or the model has no such output
  ModelState(const Law& law, const BlockModel& model, std::size_t output, double least);
  std::size_t dimension() const override { return law_.dimensions(); }
  void evaluate(const Block& u, double* g, std::size_t n) const override;

private:
  const Law& law_;
  const BlockModel& model_;
  std::size_t output_;
  double least_, scale_;
};

}  // namespace engine::rare
