#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/base/format.hpp"
#include "models/screw/torque.hpp"
#include "studies/read/pairs.hpp"

namespace studies::read {
namespace {

using engine::Dimension;
using models::Face;

/// Sliding speed [m/s] of the slowest thread that may be chosen; 0 at hand speed.
double slowest(const Study& study) {
  const Choices& c = study.choices;
  double least = std::numeric_limits<double>::infinity();
  const auto take = [&](models::Form form, double diameter, double pitch, int starts) {
    try {
      const models::Thread thread = models::make_thread(form, diameter, pitch, starts, c.made);
      const double n = study.duty.screw_speed.value_or(study.duty.travel_speed.value_or(0) / thread.lead());
      least =
          std::min(least, sliding_speed(models::helix(thread.lead(), thread.pitch_diameter, thread.tan_load_flank), n));
    } catch (const engine::Refusal&) {
    }
  };
  for (const models::Designation& size : c.thread.sizes)
    for (const int starts : size.starts_said ? std::vector<int>{size.starts} : c.starts)
      take(size.form, size.diameter, size.pitch, starts);
  for (const ThreadChoice::Free& free : c.thread.free)
    for (const int starts : c.starts) take(free.form, free.diameter.from, free.pitch.from, starts);
  return std::isfinite(least) ? least : 0;
}

void check_thread_pressure(Page& page, const models::Limit& limit, engine::Place place) {
  if (limit.kind != models::Limit::Kind::margin) return;
  const double speed = slowest(page.study);
  const std::string at = speed > 0 ? fmt::format("{} m/s", engine::three_figures(speed)) : "hand speed";
  for (const models::Material& screw : page.study.choices.screw)
    for (const models::Material& nut : page.study.choices.nut) {
      const models::BearingPressure* row = find_bearing_pressure(page.study.tables, screw, nut, speed);
      if (row)
        page.echo_other("must.bearing.table",
                        fmt::format("safe pressure of {} on {} at {}", screw.family, nut.family, at), row->pressure,
                        Dimension::stress, "table: " + row->source);
      else
        page.refuse(place, fmt::format("no published bearing pressure of {} on {} at {}", screw.name, nut.name, at),
                    "A margin is taken against it", "write at_most = \"… MPa\" instead of a margin");
    }
}

void check_face_pressure(Page& page, const models::Limit& limit, engine::Place place) {
  const auto& faces = page.study.choices.face;
  if (std::any_of(faces.begin(), faces.end(), [](const Face& face) { return !face.outer; }))
    page.refuse(place, "a face_bearing limit needs the area of the face", "A mean_radius or a point has none",
                "give the face its outer and inner diameters");
  else if (limit.kind == models::Limit::Kind::margin)
    for (const Face& face : faces)
      for (const models::Material& screw : page.study.choices.screw) {
        models::Material other;
        other.family = face.on;
        if (face.kind == Face::Kind::rolling || !find_bearing_pressure(page.study.tables, screw, other, 0))
          page.refuse(place, fmt::format("no published pressure of the face {}", describe(face)),
                      "A margin is taken against it", "write at_most = \"… MPa\" instead of a margin");
      }
}

}  // namespace

void check_pressure(Page& page) {
  const View must = page.table(page.top(), "must");
  for (const models::Limit& limit : page.study.limits) {
    if (limit.must == models::Must::bearing) check_thread_pressure(page, limit, must.place("bearing"));
    if (limit.must == models::Must::face_bearing) check_face_pressure(page, limit, must.place("face_bearing"));
  }
}

}  // namespace studies::read
