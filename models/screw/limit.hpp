#pragma once
/// One thing that must hold, as the model judges it pass by pass.
#include <optional>

#include "models/screw/names.hpp"

namespace models {

enum class StripBasis { yield, ultimate };  ///< 0.577 S_y, or 0.6 S_u, of both threads

struct Limit {
  enum class Kind { margin, at_least, at_most };

  Must must = Must::force;
  Kind kind = Kind::margin;
  double asked = 1;            ///< the margin [-], or the value [SI]
  std::optional<double> odds;  ///< how surely, in (0, 1); none: at nominal
  StripBasis basis = StripBasis::yield;
  Must part = Must::stripping;  ///< of goes_first: which part that is

  /// The least value of `margin.<name>` that holds: the margin asked, else 1.
  double least_margin() const { return kind == Kind::margin ? asked : 1.0; }
  /// The value judged, in the limit's own unit, from its margin.
  double value(double margin) const {
    if (kind == Kind::at_least) return margin * asked;
    return kind == Kind::at_most ? asked / margin : margin;
  }
  /// What a value has to spare: value/asked − 1, or 1 − value/asked of an at_most.
  double spare(double value) const { return kind == Kind::at_most ? 1 - value / asked : value / asked - 1; }
};

}  // namespace models
