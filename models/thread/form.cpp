#include "models/thread/form.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "engine/base/error.hpp"

namespace models {
namespace {

/// What is cut deeper than the basic profile at the root of the screw and of the nut, on diameter.
enum class Clearance { none, acme, trapezoidal };

/// One form: flank angles [degrees] in the axial plane and diameters as d minus so many pitches (D4: d plus).
struct Profile {
  Form form;
  const char* name;
  const char* source;
  double load_flank, other_flank;
  double pitch_diameter, nut_minor, root, nut_major;
  Clearance clearance;
};

/// From one pitch on, the clearance on diameter [m].
struct Band {
  double from, clearance;
};

constexpr double inch = 0.0254;

constexpr std::array<Profile, 8> profiles{{
    {Form::acme, "acme", "ASME B1.5", 14.5, 14.5, 0.5, 1, 1, 0, Clearance::acme},
    {Form::stub_acme, "stub-acme", "ASME B1.8", 14.5, 14.5, 0.3, 0.6, 0.6, 0, Clearance::acme},
    {Form::trapezoidal, "trapezoidal", "ISO 2901-2904", 15, 15, 0.5, 1, 1, 0, Clearance::trapezoidal},
    {Form::square, "square", "textbook square profile (IS 4694)", 0, 0, 0.5, 1, 1, 0, Clearance::none},
    {Form::buttress_7_45, "buttress-7-45", "ASME B1.9", 7, 45, 0.6, 1.2, 1.32542, 0.12542, Clearance::none},
    {Form::buttress_3_30, "buttress-3-30", "DIN 513 (from memory)", 3, 30, 0.75, 1.5, 1.73554, 0, Clearance::none},
    {Form::iso_metric, "iso-metric", "ISO 68-1, ISO 724", 30, 30, 0.649519, 1.082532, 1.226869, 0, Clearance::none},
    {Form::unified, "unified", "ASME B1.1", 30, 30, 0.649519, 1.082532, 1.226869, 0, Clearance::none},
}};

/// ASME B1.5: 0.010 in on diameter finer than 10 threads an inch, else 0.020 in.
constexpr std::array<Band, 2> acme_bands{{{0, 0.010 * inch}, {0.1 * inch, 0.020 * inch}}};
/// ISO 2901: 2 a_c, with a_c = 0.15 (P 1.5), 0.25 (2–5), 0.5 (6–12), 1.0 mm (14–44; from memory). Pitches between the
/// listed ones take the band they lie in.
constexpr std::array<Band, 4> trapezoidal_bands{{{0, 0.30e-3}, {1.9e-3, 0.50e-3}, {5.5e-3, 1.00e-3}, {13e-3, 2.00e-3}}};
constexpr double least_trapezoidal_pitch = 1.5e-3, largest_trapezoidal_pitch = 44e-3;
/// ISO 2901: what rolling may take off the root diameter, in pitches.
constexpr double rolled_root = 0.15;
/// Pitches come through unit conversions: a border counts as reached within this share of it.
constexpr double slack = 1e-9;

const Profile& profile(Form form) {
  return *std::find_if(profiles.begin(), profiles.end(), [form](const Profile& p) { return p.form == form; });
}

std::vector<Band> bands(Form form) {
  switch (profile(form).clearance) {
    case Clearance::acme:
      return {acme_bands.begin(), acme_bands.end()};
    case Clearance::trapezoidal:
      return {trapezoidal_bands.begin(), trapezoidal_bands.end()};
    case Clearance::none:
      break;
  }
  return {};
}

double clearance(Form form, double pitch) {
  double on_diameter = 0;
  for (const Band& band : bands(form))
    if (pitch >= band.from * (1 - slack)) on_diameter = band.clearance;
  return on_diameter;
}

double tan_degrees(double angle) { return std::tan(angle * std::numbers::pi / 180); }

std::string millimetres(double length) { return fmt::format("{:.6g} mm", length * 1e3); }

[[noreturn]] void refuse(std::string problem, std::string reason, std::string fix) {
  throw engine::Refusal(engine::ExitCode::study, {"", 0, 0, std::move(problem), std::move(reason), std::move(fix)});
}

void check(Form form, double diameter, double pitch, int starts) {
  if (!(diameter > 0) || !std::isfinite(diameter))
    refuse("the thread diameter is " + millimetres(diameter), "A diameter is above zero", "give a diameter above zero");
  if (!(pitch > 0) || !std::isfinite(pitch))
    refuse("the thread pitch is " + millimetres(pitch), "A pitch is above zero", "give a pitch above zero");
  if (starts < 1) refuse(fmt::format("{} starts", starts), "A thread has one start or more", "use starts = 1 or more");
  if (pitch >= diameter)
    refuse("the pitch " + millimetres(pitch) + " is not below the diameter " + millimetres(diameter),
           "Such a thread has no core", "use a finer pitch or a larger diameter");
  if (form == Form::trapezoidal &&
      (pitch < least_trapezoidal_pitch * (1 - slack) || pitch > largest_trapezoidal_pitch * (1 + slack)))
    refuse("a trapezoidal pitch of " + millimetres(pitch),
           "ISO 2901 gives the clearance for pitches of 1.5 to 44 mm only", "use a pitch from 1.5 mm to 44 mm");
}

}  // namespace

std::string name(Form form) { return profile(form).name; }

std::string source(Form form) { return profile(form).source; }

std::optional<Form> form_named(std::string_view name) {
  for (const Profile& p : profiles)
    if (p.name == name) return p.form;
  return std::nullopt;
}

const std::vector<Form>& all_forms() {
  static const std::vector<Form> forms = [] {
    std::vector<Form> all;
    all.reserve(profiles.size());
    for (const Profile& p : profiles) all.push_back(p.form);
    return all;
  }();
  return forms;
}

Thread make_thread(Form form, double diameter, double pitch, int starts, Made made) {
  check(form, diameter, pitch, starts);
  const Profile& p = profile(form);
  const double deeper = clearance(form, pitch);
  Thread thread;
  thread.form = form;
  thread.made = made;
  thread.diameter = diameter;
  thread.pitch = pitch;
  thread.starts = starts;
  thread.pitch_diameter = diameter - p.pitch_diameter * pitch;
  thread.nut_minor = diameter - p.nut_minor * pitch;
  thread.root_diameter = diameter - p.root * pitch - deeper;
  thread.nut_major = diameter + p.nut_major * pitch + deeper;
  thread.tan_load_flank = tan_degrees(p.load_flank);
  thread.tan_other_flank = tan_degrees(p.other_flank);
  if (made == Made::rolled && form == Form::trapezoidal) thread.root_diameter -= rolled_root * pitch;
  if (thread.root_diameter <= 0 || thread.nut_minor <= 0)
    refuse(fmt::format("the {} thread {} x {} has no core", p.name, millimetres(diameter), millimetres(pitch)),
           "The thread is deeper than the radius", "use a finer pitch or a larger diameter");
  return thread;
}

std::vector<double> pitch_borders(Form form, double from, double to) {
  std::vector<double> borders;
  for (const Band& band : bands(form))
    if (band.from > from * (1 + slack) && band.from < to * (1 - slack)) borders.push_back(band.from);
  return borders;
}

}  // namespace models
