#include "engine/matter/swings.hpp"

#include <algorithm>

#include "engine/draw/plan.hpp"

namespace engine {
namespace {

/// Inputs that have a part in the law, in order.
std::vector<std::size_t> scattered(const Law& law) {
  std::vector<std::size_t> inputs;
  for (std::size_t k = 0; k < law.inputs(); ++k)
    if (std::any_of(law.parts().begin(), law.parts().end(), [&](const Part& part) { return part.input == k; }))
      inputs.push_back(k);
  return inputs;
}

/// Every pass's value of each of these inputs.
std::vector<std::vector<double>> drawn(const Law& law, const std::vector<std::size_t>& inputs, std::uint64_t key) {
  const Plan plan(Plan::Kind::sobol, law.dimensions(), swing_passes, key, Stream::swings);
  Block u(std::max<std::size_t>(1, law.dimensions())), x(law.inputs());
  std::vector<std::uint64_t> clipped(law.inputs());
  std::vector<std::vector<double>> values(inputs.size());
  for (std::uint64_t b = 0; b < plan.blocks(); ++b) {
    plan.fill(b, u);
    law.transform(u, x, plan.size(b), clipped);
    for (std::size_t i = 0; i < inputs.size(); ++i)
      values[i].insert(values[i].end(), x.row(inputs[i]), x.row(inputs[i]) + plan.size(b));
  }
  return values;
}

double quantile(std::vector<double>& values, std::size_t twentieths) {
  const auto place = values.begin() + static_cast<std::ptrdiff_t>(values.size() * twentieths / 20);
  std::nth_element(values.begin(), place, values.end());
  return *place;
}

}  // namespace

std::vector<Swing> swings(const Law& law, const BlockModel& model, std::size_t output,
                          const std::vector<double>& nominal, std::uint64_t key) {
  const std::vector<std::size_t> inputs = scattered(law);
  std::vector<std::vector<double>> values = drawn(law, inputs, key);
  Block x(law.inputs()), y(model.outputs());
  const auto at = [&](std::size_t input, double value) {
    for (std::size_t k = 0; k < law.inputs(); ++k) x.row(k)[0] = k == input ? value : nominal[k];
    model.evaluate(x, y, 1);
    return y.row(output)[0];
  };
  std::vector<Swing> all;
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    const double from = quantile(values[i], 1), to = quantile(values[i], 19);
    all.push_back({inputs[i], from, to, at(inputs[i], from), at(inputs[i], to)});
  }
  return all;
}

}  // namespace engine
