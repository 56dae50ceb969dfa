#include <stdexcept>

#include "studies/keep/schema.hpp"
#include "studies/keep/sections.hpp"

namespace studies {
namespace {

/// What a row of kept values is: one variable of the file.
engine::StoredVariable input_row(std::size_t i, const models::Duty& duty) {
  const auto input = static_cast<models::Input>(i);
  const models::NameRow& row = models::row(input);
  const bool is_force = input == models::Input::drive && duty.drive == models::Drive::hand_force;
  const bool is_torque = input == models::Input::drive && !is_force;
  const auto dimension = is_force ? engine::Dimension::force : is_torque ? engine::Dimension::torque : row.dimension;
  return spelled(results_row("/passes/rated/<input>"), std::string(row.name), dimension, std::string(row.meaning));
}

engine::StoredVariable output_row(std::size_t i, const Study& study) {
  const auto& pattern = results_row("/passes/rated/<output>");
  if (i < models::output_count) {
    const models::NameRow& row = models::row(static_cast<models::Output>(i));
    return spelled(pattern, std::string(row.name), row.dimension, std::string(row.meaning));
  }
  const std::size_t limit = i - models::output_count;
  if (limit >= study.limits.size()) throw std::logic_error("more rows of kept outputs than outputs and limits");
  const models::NameRow& row = models::row(study.limits[limit].must);
  return spelled(pattern, "margin." + std::string(row.name), engine::Dimension::none, std::string(row.meaning));
}

bool is_used(std::size_t input, const models::Duty& duty) {
  return static_cast<models::Input>(input) != models::Input::drive || duty.drive != models::Drive::none;
}

}  // namespace

void write_passes(engine::StoreWriter& file, const Answer& answer) {
  const Study& study = *answer.study;
  const auto& inputs = answer.kept_inputs;
  const auto& outputs = answer.kept_outputs;
  if ((inputs.empty() && outputs.empty()) || answer.passes == 0) return;
  if (inputs.size() > models::input_count) throw std::logic_error("more rows of kept inputs than inputs");
  file.dimension("/passes/rated", "pass", answer.passes);
  for (std::size_t i = 0; i < inputs.size(); ++i)
    if (!inputs[i].empty() && is_used(i, study.duty)) file.put(input_row(i, study.duty), inputs[i]);
  for (std::size_t i = 0; i < outputs.size(); ++i)
    if (!outputs[i].empty()) file.put(output_row(i, study), outputs[i]);
}

}  // namespace studies
