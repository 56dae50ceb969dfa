#pragma once
/// How far odds lean on the assumed shape of the frictions: the same scatter with the other of two usual shapes.
#include <optional>
#include <string>

#include "studies/ask/inputs.hpp"

namespace studies {

/// The other of normal and lognormal, for the frictions of a law.
struct FrictionShape {
  std::optional<engine::Shape> from, to;  ///< none where there is no other shape to compare with
  std::string reason;                     ///< why there is none
};

/// The shape of the thread friction decides, else that of the face; parts of another shape stay as they are.
FrictionShape other_friction_shape(const InputLaw& inputs);

}  // namespace studies
