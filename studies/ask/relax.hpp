#pragma once
/// What would have to give: the least change of one thing that admits a screw which is out.
#include <vector>

#include "studies/ask/hunt.hpp"

namespace studies {

/// For every change a study has room for (see changes) the least of it alone that lets some candidate pass, the least
/// first by its share of what was.
///
/// A change is solved for on the shared passes, to three figures, and held against what a search would go on to: the
/// more numerous passes of Stream::refine for the nut, and those of Stream::verdict, rare odds included. Where it does
/// not hold there it is solved for again there; a candidate that then misses something else gives way to the next one.
/// So whoever types the value told gets that candidate or a lighter one. Passes of the verdict are the study's own, but
/// 262 144 even ones where it asks for more or lets them settle.
///
/// A candidate of free diameter and pitch keeps the design found for it, and only its limits change.
/// @param verdicts  of candidates of the hunt, explained where they may be helped
/// @param running   its progress is not told
std::vector<Relaxation> relaxations(const SharedPasses& shared, const Hunt& hunt,
                                    const std::vector<CandidateVerdict>& verdicts, const engine::Running& running);

/// For each lighter size the least single change that admits it as better than the pick by the first aim, solved for
/// and held likewise; none where no single change does.
/// @param verdicts  as above: a size may be admitted with another of its nuts on the same surface
std::vector<std::optional<Relaxation>> admitted(const SharedPasses& shared, const Hunt& hunt,
                                                const std::vector<CandidateVerdict>& verdicts,
                                                const std::vector<CandidateVerdict>& lighter, double pick_value,
                                                const engine::Running& running);

/// For every cap the least value of it alone that lets some candidate pass: the answer of a search that aims at just
/// that.
std::vector<Relaxation> relaxed_caps(const Study& study, const engine::Running& running);

/// Where no single change helps: what the candidate that misses least misses.
std::vector<models::Must> least_missed(const Study& study, const std::vector<CandidateVerdict>& verdicts);

}  // namespace studies
