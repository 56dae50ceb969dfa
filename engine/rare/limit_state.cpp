#include "engine/rare/limit_state.hpp"

#include <algorithm>
#include <stdexcept>

namespace engine::rare {

ModelState::ModelState(const Law& law, const BlockModel& model, std::size_t output, double least)
    : law_(law), model_(model), output_(output), least_(least), scale_(least == 0 ? 1 : 1 / std::abs(least)) {
  if (law.dimensions() == 0) throw std::invalid_argument("nothing scatters: there are no odds to find");
  if (output >= model.outputs()) throw std::invalid_argument("the model has no such output");
}

void ModelState::evaluate(const Block& u, double* g, std::size_t n) const {
  Block x(model_.inputs()), y(model_.outputs());
  std::vector<std::uint64_t> clipped(model_.inputs());
  law_.transform_normals(u, x, n, clipped);
  model_.evaluate(x, y, n);
  const double* row = y.row(output_);
  for (std::size_t i = 0; i < n; ++i) {
    const double margin = (row[i] - least_) * scale_;
    g[i] = row[i] >= least_ ? std::max(margin, std::numeric_limits<double>::min()) : margin;
  }
}

}  // namespace engine::rare
