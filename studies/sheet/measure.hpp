#pragma once
/// What the task of a screw is measured by, in the figures that show how surely it is done.
#include <initializer_list>
#include <optional>
#include <string>

#include "studies/sheet/scene.hpp"

namespace studies::sheet {

/// What the task is measured by: the force of a clamp; the hand force of a lift by hand, else its torque.
struct Measure {
  models::Output output = models::Output::force;
  engine::Dimension dimension = engine::Dimension::force;
  std::string name;            ///< "force at the pad"
  std::optional<double> wall;  ///< what is needed, or what there is
  std::string wall_label;      ///< "22 kN asked", "200 N allowed"
  std::string wall_verb;       ///< "are asked"
};

Measure measure(const Scene& scene);

/// The verdict on the first of these limits that is asked; null where none is.
const LimitVerdict* verdict_on(const Answer& answer, std::initializer_list<models::Must> musts);

/// Values that 5, 50 and 95 of 100 lie below.
struct Spread3 {
  double low = 0, middle = 0, high = 0;
};
Spread3 spread3(const std::vector<double>& values);

}  // namespace studies::sheet
