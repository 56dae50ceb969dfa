#include "studies/read/duty.hpp"

#include <fmt/format.h>

namespace studies::read {
namespace {

using engine::Dimension;
using models::Action;
using models::Ends;
using models::TorquePath;

void read_action(Page& page, const View& duty) {
  models::Duty& d = page.study.duty;
  const std::optional<std::string> action = page.word(duty, "action", {"clamp", "lift"});
  d.action = action == "lift" ? Action::lift : Action::clamp;
  if (!duty.has("action") && !page.spoiled(duty))
    page.refuse(duty.place("action"), "'duty.action' is missing",
                "A clamp turns torque into force, a lift a load into torque",
                "write action = \"clamp\" or action = \"lift\" into [duty]");
  d.force = page.number(duty, "force");
  if (action == "lift" && !duty.has("force") && !page.spoiled(duty))
    page.refuse(duty.place("force"), "a lift has no load", "", "write force = \"…\" into [duty]");
}

/// A speed of the screw or of the travel, told apart by its unit.
void read_speed(Page& page, const View& duty) {
  const engine::Node* node = duty.find("speed");
  if (!node) return;
  models::Duty& d = page.study.duty;
  if (d.screw_speed) {
    page.refuse(duty.place("speed"), "the speed is given twice", "The motor has one too", "keep one of them");
    return;
  }
  bool linear = false;
  if (node->kind == engine::Node::Kind::text) try {
      engine::parse_quantity(node->text, Dimension::speed);
      linear = true;
    } catch (const engine::QuantityError&) {
    }
  const std::optional<double> speed =
      page.value(*node, "duty.speed", linear ? Dimension::speed : Dimension::rotation, Bound::above_zero);
  (linear ? d.travel_speed : d.screw_speed) = speed;
}

void read_column(Page& page, const View& duty) {
  models::Duty& d = page.study.duty;
  d.screw_in_compression = page.word_or_default(duty, "screw_in", {"compression", "tension"}) == "compression";
  d.travel = page.number(duty, "travel");
  d.free_length = page.number(duty, "free_length");
  if (!d.travel && !duty.has("travel")) {
    const std::string given = d.free_length ? "the free length" : "0";
    page.echo_other(
        "duty.travel", given, d.free_length.value_or(0), Dimension::length,
        d.free_length ? "default: no travel typed" : "default: no travel typed; the mass counts the length in the nut");
  }
  if (!d.free_length && !duty.has("free_length"))
    page.echo_other("duty.free_length", d.travel ? "travel + half the nut" : "none", std::nullopt, Dimension::length,
                    d.travel ? "default: no free length typed" : "default: no travel either, so no column is reckoned");
  d.end_length = page.number_or_default(duty, "end_length");
  const std::string ends =
      page.word_or_default(duty, "ends", {"fixed-free", "rounded-rounded", "fixed-rounded", "fixed-fixed"});
  d.ends = ends == "rounded-rounded" ? Ends::rounded_rounded
           : ends == "fixed-rounded" ? Ends::fixed_rounded
           : ends == "fixed-fixed"   ? Ends::fixed_fixed
                                     : Ends::fixed_free;
  if (!d.screw_in_compression && duty.has("ends"))
    page.caution(Level::notice, "The ends have no say: a screw in tension does not buckle.",
                 "duty.ends beside screw_in = \"tension\"");
}

void read_people(Page& page, const View& duty) {
  page.study.duty.people = page.truth_or_false(duty, "people");
  if (page.study.duty.people)
    page.caution(Level::danger,
                 "Not for supporting people: a screw that carries or holds people needs its own standards, "
                 "a second safe nut and a licensed engineer.",
                 "duty.people = true");
}

}  // namespace

void read_duty(Page& page) {
  const View duty = page.table(page.top(), "duty");
  models::Duty& d = page.study.duty;
  read_action(page, duty);
  read_drive(page, duty);
  read_speed(page, duty);
  d.start = page.number(duty, "start");
  const std::string path = page.word_or_default(duty, "torque_path", {"full", "thread", "face"});
  d.torque_path = path == "thread" ? TorquePath::thread : path == "face" ? TorquePath::face : TorquePath::full;
  read_column(page, duty);
  d.lowering_force = page.number(duty, "lowering_force");
  read_people(page, duty);
}

}  // namespace studies::read
