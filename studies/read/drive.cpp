#include <fmt/format.h>

#include <cmath>

#include "studies/read/duty.hpp"

namespace studies::read {
namespace {

using models::Drive;

void read_motor(Page& page, const View& duty) {
  const View motor = page.table(duty, "motor");
  if (!motor.node) return;
  models::Duty& d = page.study.duty;
  for (const char* key : {"torque", "ratio", "efficiency"})
    if (!motor.has(key) && !page.spoiled(motor))
      page.refuse(motor.node->place, fmt::format("'duty.motor.{}' is missing", key),
                  "It must be typed: nothing is assumed of a motor", fmt::format("write {} = … into the motor", key));
  d.drive = Drive::motor;
  d.drive_value = page.number(motor, "torque").value_or(0);
  const double ratio = page.number(motor, "ratio").value_or(1);
  d.drive_to_torque = ratio * page.number(motor, "efficiency").value_or(1);
  if (const auto speed = page.number(motor, "speed")) d.screw_speed = *speed / ratio;
}

void read_handle(Page& page, const View& duty) {
  models::Duty& d = page.study.duty;
  d.handle = page.number(duty, "handle");
  if (duty.has("handle") || duty.has("hands")) d.hands = page.number_or_default(duty, "hands");
  d.handle_overhang = page.number(duty, "handle_overhang");
  if (duty.has("hand_force")) {
    d.drive = Drive::hand_force;
    d.drive_value = page.number(duty, "hand_force").value_or(0);
    d.drive_to_torque = d.handle.value_or(1) * d.hands;
    if (!duty.has("handle"))
      page.refuse(duty.place("hand_force"), "a hand force needs the handle it pulls at", "",
                  "write handle = \"…\" (its radius) into [duty]");
    return;
  }
  if (duty.has("hands") && !duty.has("handle"))
    page.refuse(duty.place("hands"), "'duty.hands' has no handle to pull at", "",
                "write handle = \"…\", or take hands out");
  const engine::Node* pull = duty.find("overload");
  if (duty.has("handle_overhang") && !duty.has("handle") && !(pull && pull->find("handle")))
    page.refuse(duty.place("handle_overhang"), "'duty.handle_overhang' has no handle",
                "The bending follows from the handle's radius", "write handle = \"…\" (its radius) into [duty]");
}

/// A handle that nothing pulls at, in a clamp.
void check_idle_handle(Page& page, const View& duty, bool pulled_in_overload) {
  const engine::Node* action = duty.find("action");
  if (action && action->text == "clamp" && duty.has("handle") && !duty.has("hand_force") && !pulled_in_overload &&
      !duty.has("handle_overhang"))
    page.refuse(duty.place("handle"), "'duty.handle' has no hand force to pull at it", "A clamp is turned by one drive",
                "write hand_force = \"…\", or take handle out");
}

void read_overload(Page& page, const View& duty) {
  const View pull = page.table(duty, "overload");
  if (!pull.node) return;
  models::Duty& d = page.study.duty;
  const bool by_torque = pull.has("torque"), by_hand = pull.has("hand_force");
  const bool sure = !page.spoiled(pull);
  if (by_torque && (by_hand || pull.has("handle") || pull.has("hands")))
    page.refuse(pull.place("torque"), "the overload pull is given twice", "It is a torque, or a hand force on a handle",
                "keep one of them");
  if (!by_torque && !by_hand && sure)
    page.refuse(pull.node->place, "the overload pull says no force", "",
                "write { torque = \"…\" } or { hand_force = \"…\", handle = \"…\" }");
  if (by_torque) {
    if (const auto torque = page.number(pull, "torque")) d.overload = models::Overload{*torque, std::nullopt, 1};
    return;
  }
  const std::optional<double> force = page.number(pull, "hand_force"), own = page.number(pull, "handle");
  const std::optional<double> handle = pull.has("handle") ? own : d.handle;
  if (by_hand && !handle && !pull.has("handle") && !duty.has("handle") && sure)
    page.refuse(pull.place("hand_force"), "the overload pull needs the handle it pulls at", "",
                "write handle = \"…\" (its radius) into overload");
  if (by_hand && handle && !pull.has("handle"))
    page.echo_other("duty.overload.handle", "duty.handle", handle, engine::Dimension::length,
                    "default: the same handle");
  const double hands = by_hand ? page.number_or_default(pull, "hands") : 1;
  if (force && handle) d.overload = models::Overload{*force * *handle * hands, *handle, hands};
}

}  // namespace

void read_drive(Page& page, const View& duty) {
  models::Duty& d = page.study.duty;
  std::string first;
  for (const char* key : {"torque", "hand_force", "motor"}) {
    if (!duty.has(key)) continue;
    if (!first.empty())
      page.refuse(duty.place(key), fmt::format("two drives: '{}' and '{}'", first, key), "The screw is turned by one",
                  "keep one of them");
    first = key;
  }
  if (first.empty() && duty.find("action") && duty.find("action")->text == "clamp" && !page.spoiled(duty))
    page.refuse(duty.place("action"), "a clamp has no drive", "Its force follows from what turns it",
                "write torque = \"…\", or hand_force = \"…\" with handle = \"…\", or motor = { … } into [duty]");
  if (duty.has("torque")) {
    d.drive = Drive::torque;
    d.drive_value = page.number(duty, "torque").value_or(0);
  }
  read_motor(page, duty);
  read_handle(page, duty);
  read_overload(page, duty);
  const engine::Node* pull = duty.find("overload");
  if (!std::isfinite(d.drive_torque()) || (d.overload && !std::isfinite(d.overload->torque)))
    page.refuse(duty.node->place, "the torque on the screw is too large to reckon with", "",
                "check the drive and the overload pull");
  check_idle_handle(page, duty, pull && pull->find("hand_force"));
}

}  // namespace studies::read
