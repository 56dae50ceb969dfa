#pragma once
/// What the screw must do, resolved to SI and checked by the reader.
#include <optional>

namespace models {

enum class Action { clamp, lift };  ///< torque in, force out; or load in, torque out
enum class Drive { none, torque, hand_force, motor };
enum class TorquePath { full, thread, face };  ///< which torque the loaded section carries
enum class Ends { fixed_free, rounded_rounded, fixed_rounded, fixed_fixed };

/// The worst credible pull, held fixed.
struct Overload {
  double torque = 0;                            ///< at the screw [N·m]
  std::optional<double> handle = std::nullopt;  ///< radius [m]; the duty's where not given
  double hands = 1;
};

struct Duty {
  Action action = Action::clamp;
  bool screw_in_compression = true;
  std::optional<double> force;  ///< wanted (clamp) or the load (lift) [N]
  Drive drive = Drive::none;
  double drive_value = 0;  ///< torque [N·m], hand force per hand [N] or motor torque [N·m]
  double drive_to_torque =
      1;  ///< torque at the screw = drive_value × this: 1, handle × hands [m], or ratio × efficiency
  std::optional<double> handle;  ///< radius [m]
  double hands = 1;
  std::optional<double> screw_speed;   ///< [rev/s]; from a motor its speed/ratio
  std::optional<double> travel_speed;  ///< [m/s]; the screw speed is then this over the lead
  std::optional<double> start;         ///< friction factor from rest [-]
  TorquePath torque_path = TorquePath::full;
  std::optional<double> handle_overhang;  ///< [m]; handle bending is left out where not given
  std::optional<double> travel;           ///< [m]
  std::optional<double> free_length;      ///< [m], to mid-nut
  double end_length = 0;                  ///< [m]
  Ends ends = Ends::fixed_free;
  std::optional<double> lowering_force;  ///< [N]; the load where not given
  std::optional<Overload> overload;
  bool people = false;

  double drive_torque() const { return drive_value * drive_to_torque; }
};

}  // namespace models
