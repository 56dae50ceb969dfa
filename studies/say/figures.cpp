#include "studies/say/figures.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

#include "engine/base/format.hpp"

namespace studies::say {
namespace {

int power_of(double value) { return static_cast<int>(std::floor(std::log10(std::fabs(value)))); }

/// Multiples within rounding error of a whole number are that number: 3.08/0.01 is 308.
double whole(double multiple, Toward toward) {
  const double nearest = std::round(multiple);
  if (toward == Toward::nearest || std::fabs(multiple - nearest) < 1e-9 * std::max(1.0, std::fabs(multiple)))
    return nearest;
  return toward == Toward::down ? std::floor(multiple) : std::ceil(multiple);
}

}  // namespace

double to_place(double value, int power, Toward toward) {
  const double scale = std::pow(10.0, std::abs(power));
  return power < 0 ? whole(value * scale, toward) / scale : whole(value / scale, toward) * scale;
}

double to_three(double value, Toward toward) {
  return value == 0 || !std::isfinite(value) ? value : to_place(value, power_of(value) - 2, toward);
}

double beside(double value, double asked, bool most) {
  const auto holds = [&](double it) { return most ? it <= asked : it >= asked; };
  const double nearest = to_three(value, Toward::nearest);
  if (holds(nearest) == holds(value)) return nearest;
  return to_three(value, value < asked ? Toward::down : Toward::up);
}

std::string number(double value) {
  if (std::isfinite(value)) return engine::three_figures(value);
  return value > 0 ? "unlimited" : "none";
}

std::string given_number(double value) {
  if (!std::isfinite(value)) return number(value);
  const std::string all = engine::plain(value);
  const auto digits = std::count_if(all.begin(), all.end(), [](unsigned char c) { return std::isdigit(c) != 0; });
  return digits - (std::fabs(value) < 1 ? 1 : 0) < 7 ? all : engine::three_figures(value);
}

Said said(const Bounded& value, double allowed) {
  if (value.estimate <= 0) return {"0", "0", number(to_three(value.high, Toward::up))};
  const double width = value.high - value.low;
  const int finest = power_of(value.estimate) - 2;
  int power = width > 0 ? std::max(finest, static_cast<int>(std::ceil(std::log10(width / 50)))) : finest;
  power = std::min(power, power_of(value.estimate));
  double estimate = to_place(value.estimate, power, Toward::nearest);
  if (value.estimate > allowed && estimate <= allowed) estimate = to_place(value.estimate, power, Toward::up);
  if (value.estimate <= allowed && estimate > allowed) estimate = to_place(value.estimate, power, Toward::down);
  return {number(to_three(std::max(0.0, to_place(value.low, power, Toward::down)), Toward::down)), number(estimate),
          number(to_three(to_place(value.high, power, Toward::up), Toward::up))};
}

}  // namespace studies::say
