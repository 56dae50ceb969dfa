#include "studies/read/not_checked.hpp"

namespace studies {

std::vector<std::string> not_checked(const Study& study) {
  const models::Duty& duty = study.duty;
  std::vector<std::string> all = {
      "frame",     "welds",      "handle", "fatigue", "shock",
      "corrosion", "foundation", "wear",   "heat",    "bending by a side load or an offset"};
  // Two opposed equal hands do not bend the screw.
  if (duty.drive == models::Drive::hand_force && !duty.handle_overhang && duty.hands != 2)
    all.push_back("bending by the handle");
  if (duty.screw_in_compression && !duty.free_length && !duty.travel) all.push_back("column");
  if (duty.screw_speed || duty.travel_speed) all.push_back("critical speed");
  return all;
}

}  // namespace studies
