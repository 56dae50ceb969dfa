#include "engine/summary/tolerance.hpp"

#include <cmath>
#include <limits>

namespace engine {

double numerical_tolerance(double value, int digits) {
  value = std::fabs(value);
  if (!(value > 0) || !std::isfinite(value)) return 0;
  int power = static_cast<int>(std::floor(std::log10(value))) - digits + 1;
  const double rounded = std::round(value * std::pow(10.0, -power));
  if (rounded >= std::pow(10.0, digits))
    ++power;
  else if (rounded < std::pow(10.0, digits - 1))
    --power;
  return 0.5 * std::pow(10.0, power);
}

double Estimates::tolerance() const {
  if (moments_.n < 2 || moments_.missing > 0 || moments_.unbounded > 0) return std::numeric_limits<double>::infinity();
  return 2 * moments_.spread() / std::sqrt(static_cast<double>(moments_.n));
}

}  // namespace engine
