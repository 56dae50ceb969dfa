#include "studies/ask/finding.hpp"

namespace studies {
namespace {

using engine::Dimension;
using models::Drive;
using models::Duty;
using models::Input;

std::string in_words(models::Ends ends) {
  using models::Ends;
  return ends == Ends::fixed_free        ? "fixed-free"
         : ends == Ends::rounded_rounded ? "rounded-rounded"
         : ends == Ends::fixed_rounded   ? "fixed-rounded"
                                         : "fixed-fixed";
}

std::string in_words(models::TorquePath path) {
  using models::TorquePath;
  return path == TorquePath::full ? "full" : path == TorquePath::thread ? "thread" : "face";
}

TypedValue drive_words(const Duty& duty) {
  switch (duty.drive) {
    case Drive::none:
      return said("none");
    case Drive::torque:
      return {"torque", duty.drive_value, Dimension::torque};
    case Drive::hand_force:
      return {"hand force", duty.drive_value, Dimension::force};
    case Drive::motor:
      return {"motor of", duty.drive_value, Dimension::torque};
  }
  return {};
}

/// Another kind of drive: with it all that turns the screw, and how that scatters.
void find_drive_of_other_kind(Finding& f) {
  f.add({"duty", "drive", drive_words(f.a.study.duty), drive_words(f.b.study.duty)}, [](Side& into, const Side& from) {
    Duty& duty = into.study.duty;
    const Duty& other = from.study.duty;
    duty.drive = other.drive;
    duty.drive_value = other.drive_value;
    duty.drive_to_torque = other.drive_to_torque;
    duty.handle = other.handle;
    duty.hands = other.hands;
    scatter_of(Input::drive)(into, from);
  });
}

void follow_handle(Side& into, const Side&) {
  Duty& duty = into.study.duty;
  if (duty.drive == Drive::hand_force) duty.drive_to_torque = duty.handle.value_or(1) * duty.hands;
}

void find_drive(Finding& f) {
  const Duty &a = f.a.study.duty, &b = f.b.study.duty;
  if (a.drive != b.drive) return find_drive_of_other_kind(f);
  const bool by_hand = a.drive == Drive::hand_force;
  const bool scattered = value_in_scatter(f.a, f.b, Input::drive);
  const Take with_scatter = scattered ? scatter_of(Input::drive) : Take{};
  f.field(
      by_hand                   ? "duty.hand_force"
      : a.drive == Drive::motor ? "duty.motor.torque"
                                : "duty.torque",
      by_hand                   ? "hand force"
      : a.drive == Drive::motor ? "motor torque"
                                : "torque",
      by_hand ? Dimension::force : Dimension::torque, [](auto& side) -> auto& { return side.study.duty.drive_value; },
      with_scatter);
  f.field(
      "duty.handle", "handle", Dimension::length, [](auto& side) -> auto& { return side.study.duty.handle; },
      follow_handle);
  f.field(
      "duty.hands", "hands", Dimension::none, [](auto& side) -> auto& { return side.study.duty.hands; }, follow_handle);
  if (a.drive == Drive::motor)
    f.field(
        "duty.motor", "gear of the motor (ratio times efficiency)", Dimension::none,
        [](auto& side) -> auto& { return side.study.duty.drive_to_torque; });
}

TypedValue speed_words(const Duty& duty) {
  if (duty.screw_speed) return said(duty.screw_speed, Dimension::rotation);
  return said(duty.travel_speed, Dimension::speed);
}

void find_speed(Finding& f) {
  const Duty &a = f.a.study.duty, &b = f.b.study.duty;
  if (alike(a.screw_speed, b.screw_speed) && alike(a.travel_speed, b.travel_speed)) return;
  f.add({"duty.speed", "speed", speed_words(a), speed_words(b)}, [](Side& into, const Side& from) {
    into.study.duty.screw_speed = from.study.duty.screw_speed;
    into.study.duty.travel_speed = from.study.duty.travel_speed;
  });
}

TypedValue overload_words(const Duty& duty) {
  return duty.overload ? said(duty.overload->torque, Dimension::torque) : said("none");
}

void find_overload(Finding& f) {
  const std::optional<models::Overload>&a = f.a.study.duty.overload, &b = f.b.study.duty.overload;
  if (a.has_value() == b.has_value() &&
      (!a || (alike(a->torque, b->torque) && alike(a->handle, b->handle) && alike(a->hands, b->hands))))
    return;
  f.add({"duty.overload", "overload pull", overload_words(f.a.study.duty), overload_words(f.b.study.duty)},
        [](Side& into, const Side& from) { into.study.duty.overload = from.study.duty.overload; });
}

void find_column(Finding& f) {
  f.worded(
      "duty.screw_in", "way the screw is loaded",
      [](auto& side) -> auto& { return side.study.duty.screw_in_compression; },
      [](bool compression) { return std::string(compression ? "compression" : "tension"); });
  f.field(
      "duty.travel", "travel", Dimension::length, [](auto& side) -> auto& { return side.study.duty.travel; });
  f.field(
      "duty.free_length", "free length", Dimension::length,
      [](auto& side) -> auto& { return side.study.duty.free_length; });
  f.field(
      "duty.end_length", "end length", Dimension::length,
      [](auto& side) -> auto& { return side.study.duty.end_length; });
  f.worded(
      "duty.ends", "ends of the column", [](auto& side) -> auto& { return side.study.duty.ends; },
      [](models::Ends ends) { return in_words(ends); });
}

}  // namespace

void find_in_duty(Finding& f) {
  if (f.a.study.duty.action == models::Action::lift)
    f.field(
        "duty.force", "load", Dimension::force, [](auto& side) -> auto& { return side.study.duty.force; },
        value_in_scatter(f.a, f.b, Input::load) ? scatter_of(Input::load) : Take{});
  find_drive(f);
  find_speed(f);
  f.field(
      "duty.start", "start from rest", Dimension::none, [](auto& side) -> auto& { return side.study.duty.start; });
  f.worded(
      "duty.torque_path", "path of the torque", [](auto& side) -> auto& { return side.study.duty.torque_path; },
      [](models::TorquePath path) { return in_words(path); });
  f.field(
      "duty.handle_overhang", "overhang of the handle", Dimension::length,
      [](auto& side) -> auto& { return side.study.duty.handle_overhang; });
  find_column(f);
  f.field(
      "duty.lowering_force", "force when lowering", Dimension::force,
      [](auto& side) -> auto& { return side.study.duty.lowering_force; });
  find_overload(f);
}

}  // namespace studies
