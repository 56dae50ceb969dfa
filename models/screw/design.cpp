#include "models/screw/design.hpp"

#include <fmt/format.h>

#include <numbers>

#include "engine/base/format.hpp"

namespace models {

double Face::friction_radius(Law by) const {
  if (mean_radius) return *mean_radius;
  if (!outer) return 0;
  const double Ro = *outer / 2, Ri = inner.value_or(0) / 2;
  if (by == Law::wear) return (Ro + Ri) / 2;
  return 2.0 / 3.0 * (Ro * Ro * Ro - Ri * Ri * Ri) / (Ro * Ro - Ri * Ri);
}

double Face::friction_radius() const { return friction_radius(law); }

double Face::area() const {
  if (!outer) return 0;
  const double Di = inner.value_or(0);
  return std::numbers::pi / 4 * (*outer * *outer - Di * Di);
}

std::string describe(const Face& face) {
  std::string words = face.kind == Face::Kind::rolling ? "rolling" : face.kind == Face::Kind::point ? "point" : "pad";
  if (face.mean_radius) words += fmt::format(", mean radius {} mm", engine::plain(*face.mean_radius * 1e3));
  if (face.outer) {
    words += fmt::format(" {}", engine::plain(*face.outer * 1e3));
    if (face.inner) words += fmt::format("/{}", engine::plain(*face.inner * 1e3));
    words += " mm";
  }
  if (!face.on.empty()) words += fmt::format(" on {}{}", face.hard ? "hard " : "", face.on);
  return words;
}

}  // namespace models
