#pragma once
/// The works to be timed: law, model and questions.
#include <memory>

#include "engine/pass/survey.hpp"

namespace bench {

struct Work {
  engine::Law law;
  std::unique_ptr<engine::BlockModel> model;
  engine::Ask counts;  ///< moments, histograms and hits: one sweep
  engine::Ask ranks;   ///< exact quantiles and reaches as well: two sweeps
};

/// 8 inputs (3 normal, 3 lognormal, 2 uniform), 12 outputs, 4 limits.
/// @param lean  the model with shared reciprocals, else as the plain loop has it
Work standard_work(bool lean = true);
/// Inputs of the shapes that are drawn by tables, two of them tied, or as many normals instead; one output, their sum.
Work shapes_work(bool normals);
/// The screw with 5 scattered inputs (2 of them tied), an overload pull and 7 limits: 47 outputs.
Work screw_work();
/// A sum of as many lognormals, and as many outputs as asked, to see how time grows.
Work sized_work(std::size_t inputs, std::size_t outputs);

}  // namespace bench
