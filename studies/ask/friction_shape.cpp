#include "studies/ask/friction_shape.hpp"

#include <algorithm>
#include <vector>

namespace studies {

using engine::Shape;
using models::Input;

FrictionShape other_friction_shape(const InputLaw& inputs) {
  const auto is_friction = [](const engine::Part& part) {
    const auto input = static_cast<Input>(part.input);
    return input == Input::thread_friction || input == Input::face_friction;
  };
  const std::vector<engine::Part>& parts = inputs.law.parts();  // in the order of Input: the thread's come first
  const auto first = std::find_if(parts.begin(), parts.end(), is_friction);
  if (first == parts.end()) return {{}, {}, "no friction scatters"};
  const auto changes = std::find_if(first, parts.end(),
                                    [&](const auto& part) { return is_friction(part) && is_reshaped(part.marginal); });
  if (changes == parts.end())
    return {{},
            {},
            "the friction is " + name(first->marginal.shape) +
                ", cut or a deviation, for which normal and lognormal are no two readings of one range"};
  const Shape from = changes->marginal.shape;
  return {from, from == Shape::lognormal ? Shape::normal : Shape::lognormal, ""};
}

}  // namespace studies
