#pragma once
/// What the figures of a sheet are drawn from: a judged screw and passes of it, the first of those of its verdict.
#include <optional>
#include <vector>

#include "engine/pass/loop.hpp"
#include "models/screw/screw_model.hpp"
#include "studies/ask/answer.hpp"
#include "studies/ask/candidates.hpp"
#include "studies/ask/inputs.hpp"
#include "studies/say/units_of_his.hpp"

namespace studies::sheet {

/// Holds study and answer by reference: they must outlive it.
struct Scene {
  const Study& study;
  const Answer& answer;
  const models::Design& design;
  say::HisUnits his;
  InputLaw inputs;
  models::ScrewModel model;
  std::vector<double> nominal;           ///< every output and margin at nominal
  std::vector<std::vector<double>> in;   ///< [models::Input][pass]
  std::vector<std::vector<double>> out;  ///< [models::Output, then limits][pass]

  bool clamp() const { return study.duty.action == models::Action::clamp; }
  std::size_t passes() const { return out.front().size(); }
  const std::vector<double>& row(models::Input input) const { return in[static_cast<std::size_t>(input)]; }
  const std::vector<double>& row(models::Output output) const { return out[static_cast<std::size_t>(output)]; }
  double at_nominal(models::Output output) const { return nominal[static_cast<std::size_t>(output)]; }
  double at_nominal(models::Input input) const { return inputs.nominal[static_cast<std::size_t>(input)]; }
  bool scatters(models::Input input) const;
  /// Length of the column [m]; none where none is reckoned.
  std::optional<double> free_length() const;
  /// Inputs of one pass.
  models::Inputs pass(std::size_t i) const;
};

/// @param answer  with a pick
Scene scene(const Answer& answer, const engine::Running& running);

/// The screw that a sheet shows of a search in which nothing passed: the nearest, judged on passes of its own.
/// @param answer  without a pick; its one candidate is the nearest
/// @return without a pick where no screw could be judged
Answer judge_nearest(const Answer& answer, const engine::Running& running);

/// A design as a candidate of the search, its nut held.
Candidate candidate_of(const models::Design& design);

}  // namespace studies::sheet
