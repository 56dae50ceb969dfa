#pragma once
/// One screw with its nut, lubrication and thrust face: a candidate.
#include <optional>
#include <string>

#include "models/tables/table.hpp"
#include "models/thread/form.hpp"

namespace models {

/// The thrust face: what turns against what does not.
struct Face {
  enum class Kind { pad, rolling, point };
  enum class Law { wear, pressure };  ///< uniform wear or uniform pressure over the ring

  Kind kind = Kind::pad;
  std::optional<double> outer, inner;  ///< diameters [m]; inner absent is 0
  std::optional<double> mean_radius;   ///< friction radius [m]
  Law law = Law::wear;
  std::string on;  ///< family of the other side: "steel", "bronze", "cast iron"; empty where not said
  bool hard = false;

  /// r_m [m]: the mean radius typed; else by the law from the diameters; 0 for a point without one.
  double friction_radius() const;
  double friction_radius(Law by) const;
  /// Ring area [m²]; 0 where no diameters are known.
  double area() const;
};

/// In a few words for lists: "domed pad, r 3.5 mm on bronze", "pad 40/20 mm on bronze", "rolling, r 15 mm".
std::string describe(const Face& face);

struct Design {
  Thread thread;
  double nut_length = 0;   ///< L_e [m]
  double nut_outside = 0;  ///< D_o [m]
  Material screw, nut;
  std::string lubrication;
  Face face;

  double engaged_turns() const { return nut_length / thread.pitch; }
};

}  // namespace models
