#pragma once
/// A screw under its study as one side of a comparison, or a mixture of two such.
#include <array>
#include <functional>
#include <optional>
#include <string>

#include "models/screw/screw_model.hpp"
#include "studies/ask/inputs.hpp"

namespace studies {

/// A mixture is begun as a copy of one side and takes things from the other, until it is settled.
struct Side {
  Study study;
  models::Design design;
  Length nut_length;  ///< as typed where both sides type one multiple of the diameter, so that it follows the thread
  /// [input] its scatter is that of the other side: whose parts it has.
  std::array<bool, models::input_count> taken{};

  Side(const Study& of, const models::Design& screw) : study(of), design(screw), nut_length{screw.nut_length} {}
};

/// Takes one thing from another side.
using Take = std::function<void(Side& into, const Side& from)>;

/// A settled side, ready to be passed through.
struct Ready {
  InputLaw inputs;
  models::ScrewModel model;
  std::vector<double> nominal;  ///< outputs, then margins of the study's limits
};

/// Makes what follows from what a side holds: the thread's geometry, the nut's lengths, the row of the bar, the input
/// law. None where that cannot be built: no engaged turn, no row of the tables, correlations that cannot be had.
std::optional<Ready> settled(Side side);

}  // namespace studies
