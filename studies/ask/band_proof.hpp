#pragma once
/// How much lighter than the screw found anything of a free diameter and pitch could be: branch and bound.
#include "studies/ask/hunt.hpp"

namespace studies {

/// Cells of diameter and pitch looked into at most, and the gap at which it is enough.
inline constexpr std::size_t most_cells = 1000;
inline constexpr double enough = 0.02;

/// An impossible thread by which no screw of a cell can do better than a real one does: each of its measures is taken
/// from the corner of the cell that is best for the limits it stands for.
enum class Best {
  strength,  ///< what a force loads: least force of a torque (most friction: greatest pitch diameter and lead),
             ///< thickest root, most turns
  force,     ///< the most force of a torque: least pitch diameter and lead
  locking    ///< most self-locking: least lead on the greatest pitch diameter
};

/// Which of them bounds the margin of a limit from above; none where no bound is known. Torsion of a part of the torque
/// grows with the friction that lowers the force, and a lift's torque is not given, so that limits with torsion have
/// none there; nor has a safe pressure that a table gives by the speed of sliding; nor have the nut's body, what goes
/// first and the mass.
std::optional<Best> best_for(const Study& study, const models::Limit& limit);

/// The design that stands for a cell: with it the margin of such a limit is, on every pass, at least that of any screw
/// in the cell with a nut no longer than `longest` [m]. Holds while the lead angle is below 19° and friction below 1.2
/// over the cosine of the flank: none where it is steeper.
/// @param cell  its band is the cell
std::optional<models::Design> best_of_cell(const Study& study, const Candidate& cell, Best best, double longest);

/// What is left: by how much, as a share of the lightest left, the pick is heavier than the lightest screw that could
/// not be ruled out. A cell is ruled out by a limit that its best is bound to miss on any passes (odds loosened, see
/// `loosened`), or because it weighs no less than the pick. Infinite where some pass has more friction than the bounds
/// bear.
/// @param mass  of the pick [kg]
double band_gap(const SharedPasses& shared, const std::vector<Candidate>& candidates, double mass);

}  // namespace studies
