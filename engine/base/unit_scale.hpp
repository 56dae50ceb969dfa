#pragma once
/// How numbers in a unit as typed turn into SI.
#include <string>
#include <string_view>

#include "engine/base/units.hpp"

namespace engine {

/// A unit that fits what is due, as a ratio of whole numbers where there is one: 3/8 in is 0.009525 m to the last bit.
class Scale {
public:
  /// @param factor      what one of the unit is in SI; of a reciprocal, what one is per metre. Finite, above 0.
  /// @param reciprocal  threads per inch, which give a length
  Scale(double factor, bool reciprocal);

  /// The value in SI; of a reciprocal 0, an infinity.
  double to_si(double value) const { return apply(reciprocal_ ? 1 / value : value); }
  double from_si(double si) const { return reciprocal_ ? 1 / unapply(si) : unapply(si); }
  bool reciprocal() const { return reciprocal_; }

private:
  double apply(double value) const { return value * times_ / over_; }
  double unapply(double value) const { return value * over_ / times_; }

  double times_ = 1, over_ = 1;
  bool reciprocal_ = false;
};

/// The longest unit that is read.
constexpr std::size_t longest_unit = 40;

/// The scale of a unit as typed.
/// @throws QuantityError: not spelled like a unit, unknown, in doubt, of another dimension
Scale scale_for(const std::string& unit, Dimension dimension);

/// Text without the blanks around it.
std::string trimmed(std::string_view text);
/// Text for a message, in quotes.
std::string quoted(std::string_view text);
/// "a force is due here".
std::string due(Dimension dimension);
/// Words with a capital in front.
std::string capital(std::string words);
/// "use N, kN or lbf": the fix where a unit does not fit.
std::string use_usual(Dimension dimension);

}  // namespace engine
