#pragma once
/// What differs between two screws and their studies, thing by thing in the terms in which it is typed.
#include <vector>

#include "studies/ask/comparison.hpp"
#include "studies/ask/side.hpp"

namespace studies {

/// An alteration, and how a mixture takes it from the other side.
struct Alterable {
  Alteration alteration;
  std::vector<Take> takes;
};

/// Everything that differs and can move a measure, in the order of a study's sections. A mixture that takes all of it
/// is the other side.
/// What follows from something else is not said again: the row of a bar and lengths in diameters follow the thread, a
/// handbook's friction the materials and the lubrication.
std::vector<Alterable> alterables(const Side& a, const Side& b);

/// What differs and moves nothing: odds asked, limits that one side alone has, aims, caps, passes.
std::vector<Difference> besides(const Study& a, const Study& b);

}  // namespace studies
