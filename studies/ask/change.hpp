#pragma once
/// One thing of a study typed otherwise, all else as it stands: what a fabricator could give way in.
#include <string>
#include <vector>

#include "studies/ask/study.hpp"

namespace studies {

struct Surface;

/// What changes.
struct Change {
  enum class Kind {
    limit,           ///< what one limit asks
    free_length,     ///< the column's, or the travel where that is counted to mid-nut
    screw_strength,  ///< yield and ultimate strength of every screw to choose from, by the same factor
    nut_strength,    ///< the same of every nut
    cap              ///< what one cap allows
  };
  Kind kind = Kind::limit;
  std::size_t limit = 0;  ///< index into the study's limits, or caps
};

/// "limit", "free_length", "screw_strength", "nut_strength", "cap".
std::string name(Change::Kind kind);

/// Every single change but of caps that a study has room for: its limits in order, then length and strengths.
std::vector<Change> changes(const Study& study);

/// In what a change is typed: the force wanted, the drive there is, a value, a margin, a length, or how many times as
/// strong.
struct Terms {
  double was = 0;  ///< as typed now [SI]; 1 for a strength
  engine::Dimension dimension = engine::Dimension::none;
  bool of_margin = false;
};
Terms terms(const Study& study, Change change);

/// What a limit would have to ask for so much margin to do, in its terms; exact where the margin goes as the value
/// does.
/// @param margin  judged, above 0
double asked_for(const Study& study, std::size_t limit, double margin);
/// Whether a limit's terms are the drive, whose scatter need not grow with it: then asked_for is a first guess.
bool is_drive(const Study& study, Change change);

/// The study with the change typed. What is typed of the scatter of a strength stands: a mean and a distribution of the
/// strength itself are multiplied, a factor on it grows along, a deviation added to it stays as it is.
/// @param to  in the terms of the change
Study changed(const Study& study, Change change, double to);
/// A surface under the same change.
Surface changed(Surface surface, Change change, double to);
/// Whether what scatters is drawn alike before and after.
bool drawn_alike(const Study& study, Change change);

/// The farthest that is worth saying: a fifth of the length, three times as strong. Limits have no such end.
double farthest(const Study& study, Change change);
/// Whether the change can raise the margin of a limit, and by what factor at most: Euler's load goes as 1/L², a margin
/// of strength no faster than the strength. Infinite where nothing is known.
double most_gain(const Study& study, Change change, double to, const models::Limit& limit);

/// How much of itself a value changes by.
double relative(double was, double to);

/// A changed value as it is said and would be typed: in his unit, three figures, rounded away from what was.
double as_said(const Study& study, Change change, double to);

}  // namespace studies
