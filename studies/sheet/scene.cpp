#include "studies/sheet/scene.hpp"

#include <algorithm>

#include "engine/pass/survey.hpp"
#include "studies/ask/fresh.hpp"
#include "studies/ask/verdict.hpp"

namespace studies::sheet {
namespace {

/// Enough for a picture.
constexpr std::uint64_t drawn_passes = 65536;
/// What the nearest screw of a failed search is judged on.
constexpr std::uint64_t nearest_passes = 262144;

Study shortened(const Study& study, std::uint64_t most) {
  Study few = study;
  few.passes.settle.reset();
  few.passes.count = std::min(study.passes.settle ? most : study.passes.count, most);
  few.passes.keep = false;
  return few;
}

models::ScrewModel model_of(const Study& study, const models::Design& design, const InputLaw& inputs) {
  return {study.duty, design, models::allowances(study.tables, study.duty, design, inputs.face_from_table),
          study.limits};
}

}  // namespace

bool Scene::scatters(models::Input input) const {
  const std::vector<double>& values = row(input);
  const auto [least, most] = std::minmax_element(values.begin(), values.end());
  return *least < *most;
}

std::optional<double> Scene::free_length() const {
  const double slenderness = at_nominal(models::Output::slenderness);
  if (!study.duty.screw_in_compression || !(slenderness > 0)) return std::nullopt;
  return slenderness * design.thread.root_diameter / 4;
}

models::Inputs Scene::pass(std::size_t i) const {
  models::Inputs x{};
  for (std::size_t k = 0; k < x.size(); ++k) x[k] = in[k][i];
  return x;
}

Candidate candidate_of(const models::Design& design) {
  Candidate candidate;
  candidate.thread = design.thread;
  candidate.starts = design.thread.starts;
  candidate.surface = {design.lubrication, design.screw, design.nut, design.face};
  candidate.nut_length = Length{design.nut_length, false};
  return candidate;
}

Scene scene(const Answer& answer, const engine::Running& running) {
  const Study& study = *answer.study;
  const models::Design& design = answer.pick->design;
  InputLaw inputs = input_law(study, candidate_of(design).surface);
  models::ScrewModel model = model_of(study, design, inputs);
  const Study few = shortened(study, drawn_passes);
  engine::Ask ask;
  ask.keep = true;
  engine::Survey survey =
      engine::survey(fresh_plan(few, inputs.law, std::nullopt), inputs.law, model, ask, study.passes.key, running);
  std::vector<double> nominal = model.evaluate_one(inputs.nominal);
  return {study,
          answer,
          design,
          say::HisUnits(study),
          std::move(inputs),
          std::move(model),
          std::move(nominal),
          std::move(survey.kept_inputs),
          std::move(survey.kept_outputs)};
}

Answer judge_nearest(const Answer& answer, const engine::Running& running) {
  Answer nearest = answer;
  if (answer.candidates.empty()) return nearest;
  const models::Design design = answer.candidates.front().design;
  const Study few = shortened(*answer.study, nearest_passes);
  nearest.study = &few;
  nearest.cautions = {};
  judge_fresh(few, candidate_of(design), design, running, nearest);
  nearest.study = answer.study;
  nearest.pick = answer.candidates.front();
  return nearest;
}

}  // namespace studies::sheet
