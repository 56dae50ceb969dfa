#pragma once
/// Everything that a study lets the designer choose, laid out one combination after the other in the order typed.
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "studies/ask/inputs.hpp"
#include "studies/ask/study.hpp"

namespace studies {

/// A free diameter and pitch inside one band where the root diameter has no jump.
struct Band {
  models::Form form;
  Range diameter, pitch;  ///< [m]
};

/// How a band is sought for a point of a trade-off: by one aim, the other no worse than a value.
struct Held {
  Aim sought, other;
  double at_most = 0;  ///< of `other`, less being better; infinite: as it comes
};

/// One combination: a thread or a band, and the rest; the nut length is a value or a range.
struct Candidate {
  std::size_t index = 0;
  std::optional<models::Thread> thread;
  std::optional<Band> band;
  int starts = 1;
  Surface surface;
  std::size_t surface_index = 0;  ///< candidates with the same surface share an input law
  std::optional<Length> nut_length;
  std::optional<std::pair<Length, Length>> nut_range;
  std::optional<Held> held;  ///< of a band alone; none: sought by the study's first aim
  std::string why_not;       ///< why it cannot be built at all; empty where it can
};

/// Every combination of lubrication, materials and face, in the order typed.
std::vector<Surface> surfaces(const Choices& choices);

/// All of them. Combinations that cannot be built carry `why_not`.
std::vector<Candidate> candidates(const Study& study);

/// The thread of a free candidate at one diameter and pitch.
/// @throws Refusal where the geometry is impossible
models::Thread thread_in(const Study& study, const Candidate& candidate, double diameter, double pitch);

/// The design of a candidate with a thread and a nut length [m].
models::Design design_of(const Study& study, const Candidate& candidate, const models::Thread& thread,
                         double nut_length);

/// Why a design cannot be built or judged: fewer than one engaged turn, material row not valid at this size, nut too
/// thin; empty where it can.
std::string unbuildable(const Study& study, const models::Design& design);

/// Bounds of the nut length [m] of a ranged candidate for a thread: from the range typed and one engaged turn.
std::pair<double, double> nut_bounds(const Candidate& candidate, const models::Thread& thread);

}  // namespace studies
