#pragma once
/// Why (not): what each candidate misses on the shared passes, and the neighbours of the pick.
#include <vector>

#include "studies/ask/hunt.hpp"

namespace studies {

/// A candidate as the search left it: without margins. One put out early has the limit that did it, one put off the
/// least it weighs, and both their shortest nut.
CandidateVerdict brief(const SharedPasses& shared, const Candidate& candidate, const Hunted& hunted);

/// A candidate as the answer shows it, with its own lightest nut, judged on all shared passes at the odds the study
/// asks.
CandidateVerdict explain(const SharedPasses& shared, const Candidate& candidate, const Hunted& hunted);

/// Margins, and what is first missed, from a judgement of all limits.
void take_judgement(const Study& study, const Judgement& judgement, CandidateVerdict& verdict);
/// Whether a verdict's margin of a limit is what is asked.
/// @param k  index into the study's limits
bool holds(const Study& study, const CandidateVerdict& verdict, std::size_t k);

/// How near a verdict comes to passing: the worst of its margins over what is asked of them.
double closest(const Study& study, const CandidateVerdict& verdict);

/// Of a search in which nothing passed, the candidate that the first relaxation admits, or that comes nearest to
/// passing where none does; null where no candidate was judged.
const CandidateVerdict* nearest(const Answer& answer);

/// Whether two verdicts are of the same materials, lubrication and face.
bool like(const CandidateVerdict& a, const CandidateVerdict& b);

/// All that a verdict misses, in the order of models::Must.
std::vector<models::Must> all_missed(const Study& study, const CandidateVerdict& verdict);

/// One a size below the pick's mass, by falling mass: of each the variant with the pick's own lubrication, materials
/// and face where there is one, and of those the one that comes nearest to passing.
std::vector<CandidateVerdict> lighter_sizes(const Study& study, const std::vector<CandidateVerdict>& candidates,
                                            const CandidateVerdict& pick);

}  // namespace studies
