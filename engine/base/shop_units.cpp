#include <cmath>

#include "engine/base/units.hpp"

namespace engine {
namespace {

Shown shown(double si, const char* unit, Dimension dimension) { return {in_unit(si, unit, dimension), unit}; }

const char* metric_unit(double size, Dimension dimension) {
  switch (dimension) {
    case Dimension::none:
      return "";
    case Dimension::length:
      return "mm";
    case Dimension::force:
      return size < 1000 ? "N" : "kN";
    case Dimension::torque:
      return "N.m";
    case Dimension::stress:
      return size == 0 ? "MPa" : size < 0.1e6 ? "kPa" : size < 10e9 ? "MPa" : "GPa";
    case Dimension::speed:
      return "mm/s";
    case Dimension::rotation:
      return "rpm";
    case Dimension::angle:
      return "deg";
    case Dimension::area:
      return "mm2";
    case Dimension::mass:
      return size < 1 && size > 0 ? "g" : "kg";
    case Dimension::density:
      return "kg/m3";
    case Dimension::time:
      return "s";
    case Dimension::power:
      return size < 1000 ? "W" : "kW";
    case Dimension::pv:
      return "MPa.m/s";
    case Dimension::wear_rate:
      return "mm2/N";
  }
  return "";
}

const char* inch_unit(double size, Dimension dimension) {
  const double pound_foot = 1.3558179483314004, psi = 6894.757293168361;
  switch (dimension) {
    case Dimension::none:
      return "";
    case Dimension::length:
      return "in";
    case Dimension::force:
      return "lbf";
    case Dimension::torque:
      return size < 10 * pound_foot * (1 - 1e-12) ? "lbf.in" : "lbf.ft";
    case Dimension::stress:
      return size < 10000 * psi * (1 - 1e-12) ? "psi" : "ksi";
    case Dimension::speed:
      return "in/s";
    case Dimension::rotation:
      return "rpm";
    case Dimension::angle:
      return "deg";
    case Dimension::area:
      return "in2";
    case Dimension::mass:
      return "lb";
    case Dimension::density:
      return "lb/in3";
    case Dimension::time:
      return "s";
    case Dimension::power:
      return "hp";
    case Dimension::pv:
      return "psi.fpm";
    case Dimension::wear_rate:
      return "in2/lbf";
  }
  return "";
}

}  // namespace

Shown in_metric(double si, Dimension dimension) { return shown(si, metric_unit(std::fabs(si), dimension), dimension); }

Shown in_inch(double si, Dimension dimension) { return shown(si, inch_unit(std::fabs(si), dimension), dimension); }

}  // namespace engine
