#pragma once
/// The single changes of a screw that a shop would think of: what the study offers, and what lies near at hand.
#include <optional>
#include <string>
#include <vector>

#include "studies/ask/study.hpp"

namespace studies {

/// One choice made otherwise.
struct OtherChoice {
  std::string change;  ///< "lubrication", "face", "nut", "screw", "starts" or "pitch"
  std::string from, to;
  bool offered = false;                  ///< among the choices that the study lists
  std::optional<models::Design> design;  ///< the changed screw; none where there is no such thread
  std::string why;                       ///< why it cannot be built; empty where it can
};

/// Every single change of a screw, all else as in it, nut length included; none twice.
///
/// First the values that the study lists: of lubrication, face, materials, starts, and of the pitch at this diameter.
/// Then, where friction comes from the handbook, the lubrications that it has for this pair and a rolling thrust
/// bearing of the same friction radius instead of a pad or a point; one start more and one less; and the other pitches
/// of the series at this diameter. Of these only what can be built.
std::vector<OtherChoice> other_choices(const Study& study, const models::Design& screw);

}  // namespace studies
