#pragma once
/// The block loops of the screw, vectorised: every pass of a block through the kernel, one limit at a time after that.
#include <cstddef>

#include "models/screw/kernel.hpp"

namespace models {

/// Constants of a duty and a design beside the kernel's; NaN where there is none of it.
struct Known {
  double hand_arm = 0;                             ///< handle × hands [m]
  double force = 0;                                ///< asked [N]
  double lowering_force = 0;                       ///< [N]; NaN: the load
  double overload_torque = 0;                      ///< [N·m]
  double bearing_pressure = 0, face_pressure = 0;  ///< allowed [Pa]
  double face_area = 0;                            ///< [m²]
  double column_length = 0;                        ///< [m]
  double no_column = 0;                            ///< 0, or NaN where there is none
  double rotation = 0;                             ///< [rev/s]
  double turns = 0, stroke_time = 0;
  double screw_mass = 0, nut_mass = 0;
};

/// What limits judge, pass by pass: values, and the margins of parts.
struct Judged {
  double force, starting_torque, body, thread_root, buckling, slenderness, bearing, face_bearing, lock_margin, nut_body,
      stripping, overload;
  Parts parts;
};

/// Judged, row by row, of a part of a block.
struct JudgedRows {
  static constexpr std::size_t width = 256;
  double force[width], starting_torque[width], body[width], thread_root[width], buckling[width], slenderness[width],
      bearing[width], face_bearing[width], lock_margin[width], nut_body[width], stripping[width], overload[width];
  double yield_part[width], thread_root_part[width], buckling_part[width], stripping_part[width];
};

/// Rows that lie `stride` apart.
struct Rows {
  const double* x;
  std::size_t x_stride;
  double* y;  ///< null: no outputs, margins only
  std::size_t y_stride;
};

struct ScrewLoops {
  /// @param passes  at most JudgedRows::width
  void (*judge)(const Kernel& kernel, const Known& known, const Rows& rows, std::size_t passes, JudgedRows& judged);
  /// One limit over what was judged.
  void (*margin)(const Kernel& kernel, const Known& known, const Limit& limit, const Rows& rows, std::size_t passes,
                 const JudgedRows& judged, double* margin);
};

/// Of the instruction set in use.
const ScrewLoops& screw_loops();

}  // namespace models
