#include <fmt/format.h>

#include <algorithm>
#include <numbers>
#include <string>

#include "engine/base/format.hpp"
#include "studies/read/choose.hpp"
#include "studies/read/plausible.hpp"

namespace studies::read {
namespace {

using engine::Dimension;

/// Efficiencies of any power screw with plain friction, and how far off a drive must be before it is doubted.
constexpr double poorest = 0.08, usual = 0.2, too_little = 3, too_much = 20;

/// Smallest and largest lead that may be chosen [m].
Range leads(const Choices& c) {
  Range range;
  const auto take = [&](double from, double to, int starts) {
    const double low = from * starts, high = to * starts;
    range.from = range.to > 0 ? std::min(range.from, low) : low;
    range.to = std::max(range.to, high);
  };
  for (const models::Designation& size : c.thread.sizes)
    for (const int starts : size.starts_said ? std::vector<int>{size.starts} : c.starts)
      take(size.pitch, size.pitch, starts);
  for (const ThreadChoice::Free& free : c.thread.free)
    for (const int starts : c.starts) take(free.pitch.from, free.pitch.to, starts);
  return range;
}

/// A quantity as it stands in the file.
std::optional<engine::Quantity> as_it_stands(const Study& study, const std::string& path, Dimension dimension) {
  for (const Echo& echo : study.echoes)
    if (echo.path == path && echo.line > 0) return engine::parse_quantity(echo.given, dimension);
  return std::nullopt;
}

/// The same number in another unit where it would suit: "85 N.m"; empty where there is none.
/// @param suits  whether a value so many times the one typed would
template <class Suits>
std::string another_unit(const Study& study, const std::string& path, Dimension dimension,
                         const std::vector<const char*>& units, Suits suits) {
  const std::optional<engine::Quantity> typed = as_it_stands(study, path, dimension);
  if (!typed || !(typed->si > 0)) return "";
  for (const char* unit : units) {
    const double one = engine::parse_quantity(fmt::format("1 {}", unit), dimension).si;
    const double factor = typed->given * one / typed->si;
    if (!same(factor, 1) && suits(factor)) return fmt::format("{} {}", engine::plain(typed->given), unit);
  }
  return "";
}

}  // namespace

void mind_drive(Page& page) {
  const Study& study = page.study;
  const models::Duty& duty = study.duty;
  const Range lead = leads(study.choices);
  if (duty.drive == models::Drive::none || !duty.force || !(lead.to > 0) || !(duty.drive_torque() > 0)) return;
  // Torque without any friction by the finest lead, and with more friction than any by the coarsest.
  const double turn = *duty.force / (2 * std::numbers::pi), torque = duty.drive_torque();
  const double least = turn * lead.from, most = turn * lead.to / poorest;
  const bool little = too_little * torque < least;
  const bool much = torque > too_much * most;
  if (!little && !much) return;
  const auto suits = [&](double factor) {
    const double meant = torque * factor;
    return meant > turn * lead.from / (2 * usual) && meant < 2 * turn * lead.to / usual;
  };
  const std::vector<const char*> lengths = {"mm", "in", "m", "ft"}, forces = {"N", "kN", "lbf", "kgf"},
                                 torques = {"N.m", "lbf.ft", "lbf.in", "kN.m", "N.mm", "kgf.m"};
  std::string meant = another_unit(study, "duty.torque", Dimension::torque, torques, suits);
  if (meant.empty()) meant = another_unit(study, "duty.motor.torque", Dimension::torque, torques, suits);
  if (meant.empty()) meant = another_unit(study, "duty.handle", Dimension::length, lengths, suits);
  if (meant.empty()) meant = another_unit(study, "duty.hand_force", Dimension::force, forces, suits);
  if (meant.empty())
    meant =
        another_unit(study, "duty.force", Dimension::force, forces, [&](double factor) { return suits(1 / factor); });
  const std::string doubt = little ? "The drive is far too weak for the force, even without any friction."
                                   : "The drive is far stronger than the force needs.";
  page.caution(Level::caution,
               doubt + (meant.empty() ? " Check the units of both." : fmt::format(" Was {} meant?", meant)),
               fmt::format("{} N.m drive the screw, {} N.m would do", engine::three_figures(torque),
                           engine::three_figures(turn * (little ? lead.from : lead.to) / usual)));
}

}  // namespace studies::read
