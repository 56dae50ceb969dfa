#include "models/thread/series.hpp"
#include "studies/ask/candidates.hpp"
#include "studies/ask/question.hpp"
#include "studies/ask/verdict.hpp"

namespace studies {

Answer rate(const Study& study, const Asking& asking) {
  const Candidate candidate = candidates(study).front();
  if (!candidate.why_not.empty())
    throw engine::Refusal(engine::ExitCode::study,
                          engine::Problem{study.path, 0, 0, "this screw cannot be built: " + candidate.why_not, "",
                                          "choose another size, nut or material in [choose]"});
  const models::Design design =
      design_of(study, candidate, *candidate.thread, candidate.nut_length->of(candidate.thread->diameter));
  Answer answer;
  answer.study = &study;
  CandidateVerdict pick;
  pick.design = design;
  pick.designation = models::designation(design.thread);
  judge_fresh(study, candidate, design, asking.running, answer);
  pick.mass = answer.outputs[static_cast<std::size_t>(models::Output::mass)].nominal;
  pick.torque = answer.outputs[static_cast<std::size_t>(models::Output::torque)].nominal;
  pick.examined = true;
  pick.passes = true;
  for (const LimitVerdict& v : answer.limits) pick.margins.push_back(v.nominal_margin);
  answer.pick = std::move(pick);
  return answer;
}

}  // namespace studies
