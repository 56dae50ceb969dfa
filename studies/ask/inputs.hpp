#pragma once
/// From what a study says about scatter to the engine's input law, for one choice of materials, lubrication and face.
#include <optional>
#include <string>
#include <vector>

#include "engine/draw/law.hpp"
#include "models/screw/screw_model.hpp"
#include "studies/ask/answer.hpp"
#include "studies/ask/study.hpp"

namespace studies {

/// The choices that an input law depends on.
struct Surface {
  std::string lubrication;
  models::Material screw, nut;
  models::Face face;
};

struct InputLaw {
  engine::Law law;
  models::Inputs nominal{};       ///< every input at its typed mean, or its median where no mean is typed
  std::vector<ScatterUsed> used;  ///< what scatters, for the answer: one for each part of the law, in its order
  std::vector<bool> by_screw;     ///< [input] some part varies from screw to screw
  bool face_from_table = false;
};

/// The name of an input as studies type it: the drive is "torque" or "hand_force".
std::string input_name(const models::Duty& duty, models::Input input);

/// @param friction  where given, every part of the two frictions that is_reshaped takes this shape instead of its own
/// @throws Refusal (study) where the correlations cannot be had (as ties.hpp) or the tables have no row for the pair
InputLaw input_law(const Study& study, const Surface& surface, std::optional<engine::Shape> friction = {});

/// Whether a distribution can change between normal and lognormal with the same mean and spread: one of the two, whole,
/// with a mean above 0.
bool is_reshaped(const engine::Marginal& marginal);

}  // namespace studies
