#pragma once
/// SI values as text in the units of the person who wrote the study.
#include <string>

#include "engine/base/units.hpp"
#include "studies/ask/study.hpp"

namespace studies::say {

/// Says values in the first unit typed for a dimension in which they read easily; else in the shop unit of the system
/// that the study mostly uses. Holds the study by reference: it must outlive this.
class HisUnits {
public:
  explicit HisUnits(const Study& study) : study_(study) {}

  engine::Shown shown(double si, engine::Dimension dimension) const;
  /// Three figures and the unit: "22.8 kN"; "none" or "unlimited" where there is no number.
  std::string operator()(double si, engine::Dimension dimension) const;
  /// A value that was typed, with all its figures.
  std::string given(double si, engine::Dimension dimension) const;
  /// Three figures that hold or miss what is asked as the value does.
  std::string beside(double si, double asked_si, bool most, engine::Dimension dimension) const;
  /// In his unit, and in the shop unit of the other system: "22 kN (4950 lbf)".
  std::string both(double si, engine::Dimension dimension) const;
  /// The unit in which a torque of any size is said: "N.m", "lbf.ft".
  std::string torque_unit() const;

private:
  const Study& study_;
};

}  // namespace studies::say
