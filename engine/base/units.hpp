#pragma once
/// Quantities at the edge of the program: text with a unit in, SI inside, the user's own unit out.
#include <string>
#include <string_view>

namespace engine {

/// What a quantity measures. Torque and energy share SI units but never a key, so they need no separate kinds.
enum class Dimension {
  none,      ///< a bare number, or a percentage
  length,    ///< m
  force,     ///< N
  torque,    ///< N·m
  stress,    ///< Pa; pressures too
  speed,     ///< m/s
  rotation,  ///< rev/s (rpm = 1/60)
  angle,     ///< rad
  area,      ///< m²
  mass,      ///< kg
  density,   ///< kg/m³
  time,      ///< s
  power,     ///< W
  pv,        ///< Pa·m/s
  wear_rate  ///< m²/N
};

/// A quantity as a user typed it.
struct Quantity {
  double si = 0;     ///< in the SI unit of its dimension
  double given = 0;  ///< the number typed
  std::string unit;  ///< the unit as the user spelled it, trimmed ("ft-lb")
};

/// Why a text is no quantity; the caller adds the place.
struct QuantityError {
  std::string problem, reason, fix;
};

/// Reads "22 kN", "1 1/4 in", "150 ft-lb", "5 tpi" (a length), "10 %" (none).
/// @param text       what was typed
/// @param dimension  what is due
/// "lb" is a pound-force but where a mass or density is due; "1/s" is one turn a second where a rotation is due.
/// @throws QuantityError: no number, no unit, unknown unit (with the nearest spelling), wrong dimension, ambiguous unit
///         ("ton": with the choices), more than one number, not finite
Quantity parse_quantity(std::string_view text, Dimension dimension);

/// A number with the unit it is shown in.
struct Shown {
  double value = 0;
  std::string unit;
};

/// "length", "force", …: for messages ("a force is due here").
std::string dimension_name(Dimension dimension);
/// The SI unit of a dimension as files and JSON spell it: "m", "N", "N.m", "Pa", "m/s", "1/s", "rad", "m2", "kg",
/// "kg/m3", "s", "W", "Pa.m/s", "m2/N"; empty for none.
std::string si_unit(Dimension dimension);
/// A value in the metric unit a shop uses: mm, N or kN, N.m, MPa, kg, rpm, …
Shown in_metric(double si, Dimension dimension);
/// A value in the inch unit a shop uses: in, lbf, lbf.ft (lbf.in below 10 lbf.ft), psi or ksi, lb, rpm, …
Shown in_inch(double si, Dimension dimension);
/// A value in a unit that was once accepted for this dimension.
/// @throws QuantityError when the unit is not one of that dimension
double in_unit(double si, std::string_view unit, Dimension dimension);
/// True where the unit belongs to the inch system (in, lbf, psi, ton, …).
bool is_inch_unit(std::string_view unit);

}  // namespace engine
