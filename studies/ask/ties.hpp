#pragma once
/// From the correlations that a study states to ties of the parts of its inputs.
#include <vector>

#include "engine/draw/law.hpp"
#include "studies/ask/study.hpp"

namespace studies {

/// Ties of the parts of two inputs that vary alike, first with first; draws are left out. `shared_friction` is the
/// correlation of the underlying normals; `correlation` that of the values of the two parts, for which that of the
/// normals is solved.
/// @param varies  how each part varies
/// @throws Refusal (study), at the pair as typed: no two parts vary alike; a part without finite spread; a correlation
///         that the two shapes cannot have (with the range that they can); correlations that contradict each other
///         (with the smallest eigenvalue of their matrix and the nearest that fit together)
std::vector<engine::Tie> ties(const Study& study, const std::vector<engine::Part>& parts,
                              const std::vector<Varies>& varies);

}  // namespace studies
