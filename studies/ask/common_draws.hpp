#pragma once
/// One set of uniforms for two screws and all mixtures of them, each belonging to an input and a part of it.
#include <array>
#include <cstdint>
#include <vector>

#include "engine/draw/plan.hpp"
#include "studies/ask/inputs.hpp"

namespace studies {

/// The uniform of every part: [input][part, in the order of the input law].
using Places = std::array<std::vector<std::size_t>, models::input_count>;

/// Uniforms that two sides share.
struct CommonPlaces {
  Places first, second;
  std::size_t count = 0;
};

/// The parts of an input on one side are paired with those on the other: first those that vary alike, in their order,
/// then what is left, in its order; each pair, and each part that stays alone, has a uniform. All columns of a file of
/// draws have one, that of the file which comes in the same place on the other side. So the same torque is drawn
/// wherever torque is the same, however many parts other inputs have; and exchanging the sides changes no number.
CommonPlaces common_places(const InputLaw& a, const InputLaw& b);

/// The passes of both sides and of all mixtures.
class CommonDraws {
public:
  /// @param passes  rounded up to whole nets of a Sobol' plan
  CommonDraws(const InputLaw& a, const InputLaw& b, std::uint64_t passes, std::uint64_t key);

  const engine::Plan& plan() const { return plan_; }
  /// The uniform of each dimension of a law.
  /// @param taken  [input] its parts are those of the second side
  std::vector<std::size_t> rows(const engine::Law& law, const std::array<bool, models::input_count>& taken) const;
  /// The inputs of one block of passes.
  void draw(const engine::Law& law, const std::vector<std::size_t>& rows, std::uint64_t block, engine::Block& x) const;

private:
  CommonPlaces places_;
  engine::Plan plan_;
  std::vector<engine::Block> uniforms_;  ///< one a block of the plan
};

}  // namespace studies
