#include "studies/read/plausible.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/format.hpp"
#include "studies/read/choose.hpp"

namespace studies::read {
namespace {

using engine::three_figures;
using models::Face;
using models::Input;

std::string in_mm(double length) { return three_figures(length * 1e3) + " mm"; }

bool on_series(models::Form form, double diameter, double pitch) {
  const std::vector<models::Size>& sizes = models::series(form);
  return std::any_of(sizes.begin(), sizes.end(), [&](const models::Size& size) {
    return std::abs(size.diameter - diameter) < 1e-6 * diameter && std::abs(size.pitch - pitch) < 1e-4 * pitch;
  });
}

void mind_pitch(Page& page) {
  const Choices& c = page.study.choices;
  constexpr double coarsest = 0.35;  // of the diameter; the coarsest trapezoidal size has 0.36
  for (const ThreadChoice::Free& free : c.thread.free) {
    const double d = free.diameter.to, p = free.pitch.from;
    if (on_series(free.form, d, p)) continue;
    const int starts = *std::max_element(c.starts.begin(), c.starts.end());
    const bool times = free.diameter.fixed() && free.pitch.fixed() && starts > 1 && on_series(free.form, d, p / starts);
    if (times)
      page.caution(Level::caution,
                   fmt::format("Is this pitch the lead? A pitch of {} with {} starts would be the usual size.",
                               in_mm(p / starts), starts),
                   fmt::format("choose.thread.pitch is {} and starts {}", in_mm(p), starts));
    else if (p > coarsest * d)
      page.caution(Level::caution,
                   "Is this pitch the lead? Type the pitch, and starts for how many threads begin side by side.",
                   fmt::format("choose.thread.pitch is {}, {} of the diameter", in_mm(p), three_figures(p / d)));
  }
}

void mind_diameter(Page& page) {
  constexpr double smallest = 4e-3, largest = 0.4;
  for (const ThreadChoice::Free& free : page.study.choices.thread.free)
    if (free.diameter.from < smallest || free.diameter.to > largest)
      page.caution(
          Level::caution, "Is this diameter in the unit meant (mm or in)?",
          fmt::format("choose.thread.diameter goes from {} to {}", in_mm(free.diameter.from), in_mm(free.diameter.to)));
}

void mind_handle(Page& page) {
  const models::Duty& duty = page.study.duty;
  constexpr double longest = 1.5;
  if (duty.handle && *duty.handle > longest)
    page.caution(Level::caution,
                 "Is this the radius of the handle, in the unit meant? Not its length across, nor a diameter.",
                 fmt::format("duty.handle is {}", in_mm(*duty.handle)));
  constexpr double strongest = 600, weakest = 5;
  if (duty.drive == models::Drive::hand_force && (duty.drive_value > strongest || duty.drive_value < weakest))
    page.caution(Level::caution,
                 duty.drive_value > strongest
                     ? "Few people pull so hard with one hand: is it in the unit meant (N or lbf)?"
                     : "So weak a pull: is it in the unit meant (N, kN or lbf)?",
                 fmt::format("duty.hand_force is {} N for each hand", three_figures(duty.drive_value)));
}

void mind_face(Page& page) {
  const Range d = diameters(page.study.choices.thread);
  for (const Face& face : page.study.choices.face) {
    const double widest = face.kind == Face::Kind::rolling ? 2 : 1;
    if (face.mean_radius && *face.mean_radius > widest * d.to)
      page.caution(
          Level::caution, "Is this mean_radius a diameter? It is the radius at which the face rubs.",
          fmt::format("choose.face.mean_radius is {} on a screw of {} at most", in_mm(*face.mean_radius), in_mm(d.to)));
    // A ring lies around the screw or its root, so its outside is no smaller than the screw's root.
    if (face.outer && face.inner && *face.inner > 0 && *face.outer < 0.7 * d.from)
      page.caution(Level::caution, "Are outer and inner radii? Both are diameters.",
                   fmt::format("choose.face.outer is {} on a screw of {} at least", in_mm(*face.outer), in_mm(d.from)));
    if (face.outer && *face.outer > 5 * d.to)
      page.caution(Level::caution, "Is this face in the unit meant (mm or in)?",
                   fmt::format("choose.face.outer is {} on a screw of {} at most", in_mm(*face.outer), in_mm(d.to)));
  }
}

void mind_friction(Page& page) {
  const Study& study = page.study;
  const auto base = [&](Input input) { return study.scatter[static_cast<std::size_t>(input)].base; };
  const auto rolling = [](const Face& face) { return face.kind == Face::Kind::rolling; };
  const bool rolls = std::any_of(study.choices.face.begin(), study.choices.face.end(), rolling);
  const auto mind = [&](Input input, double low, double high) {
    const std::optional<double> mean = base(input);
    if (mean == 0.0 && input == Input::face_friction)
      page.caution(Level::notice, "Without any face friction the torque is understated, unless the face does not turn.",
                   "scatter.face_friction is 0");
    else if (mean && (*mean < low || *mean > high))
      page.caution(Level::caution,
                   fmt::format("A {} of {} lies outside {} to {}: is the decimal point where it was meant?",
                               row(input).words, three_figures(*mean), three_figures(low), three_figures(high)),
                   fmt::format("scatter.{}", row(input).name));
  };
  mind(Input::thread_friction, 0.03, 0.35);
  rolls ? mind(Input::face_friction, 0.0005, 0.03) : mind(Input::face_friction, 0.03, 0.35);
}

void mind_start(Page& page) {
  constexpr double most = 3;
  const std::optional<double>& start = page.study.duty.start;
  if (start && (*start < 1 || *start > most))
    page.caution(Level::caution,
                 "Friction from rest is seldom below running friction, or above three times it: start is their ratio.",
                 fmt::format("duty.start is {}", three_figures(*start)));
}

void mind_drag(Page& page) {
  const models::Duty& duty = page.study.duty;
  const std::optional<double>& drag = page.study.scatter[static_cast<std::size_t>(Input::drag)].base;
  if (drag && duty.drive != models::Drive::none && *drag >= duty.drive_torque())
    page.caution(Level::warning,
                 "The drag alone takes the whole torque: nothing is left to turn the screw. Is it in the unit meant?",
                 fmt::format("scatter.drag is {} N.m, the torque {} N.m", three_figures(*drag),
                             three_figures(duty.drive_torque())));
}

}  // namespace

void mind_implausible(Page& page) {
  mind_pitch(page);
  mind_diameter(page);
  mind_handle(page);
  mind_face(page);
  mind_friction(page);
  mind_start(page);
  mind_drag(page);
  mind_drive(page);
}

}  // namespace studies::read
