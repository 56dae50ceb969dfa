/// The drawings to scale: side view, engaged profile, one turn unrolled. Geometry is the model's own.
#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "engine/base/format.hpp"
#include "models/screw/torque.hpp"
#include "models/thread/designation.hpp"
#include "studies/say/words.hpp"
#include "studies/sheet/figures.hpp"

namespace studies::sheet {
namespace {

using engine::Dimension;
using models::Output;

constexpr double degree = std::numbers::pi / 180;

double in_degrees(double tangent) { return std::atan(tangent) / degree; }

/// A number or null.
Json perhaps(const std::optional<double>& si, const Unit& unit) { return si ? Json(*si * unit.scale) : Json(nullptr); }

Unit length_unit(const Scene& scene) { return unit_for(scene.his, scene.design.thread.diameter, Dimension::length); }

/// Where the column is judged: how its two ends are held.
std::pair<const char*, const char*> ends(models::Ends ends) {
  switch (ends) {
    case models::Ends::fixed_free:
      return {"fixed", "free"};
    case models::Ends::rounded_rounded:
      return {"rounded", "rounded"};
    case models::Ends::fixed_rounded:
      return {"fixed", "rounded"};
    case models::Ends::fixed_fixed:
      break;
  }
  return {"fixed", "fixed"};
}

std::optional<double> shown_force(const Scene& scene) {
  if (scene.study.duty.force) return scene.study.duty.force;
  const double made = scene.at_nominal(Output::force);
  return std::isfinite(made) && made > 0 ? std::optional(made) : std::nullopt;
}

bool is_column(const Scene& scene) {
  return scene.study.duty.screw_in_compression && std::isfinite(scene.at_nominal(Output::buckling_load));
}

/// From the nut to the load: the column's, else what was typed.
std::optional<double> shown_length(const Scene& scene) {
  return scene.free_length() ? scene.free_length() : scene.study.duty.free_length;
}

std::string view_sentence(const Scene& scene) {
  const auto force = shown_force(scene);
  if (!is_column(scene) || !force) return "The screw in its nut, to scale.";
  return fmt::format("The screw in its nut at full reach, to scale; it bows at {} times {}.",
                     figures(scene.at_nominal(Output::buckling_load) / *force),
                     scene.clamp() && !scene.study.duty.force ? "the force it makes"
                     : scene.clamp()                          ? "the force asked"
                                                              : "the load");
}

std::vector<std::pair<std::string, double>> dimensions(const Scene& scene) {
  const models::Design& design = scene.design;
  std::vector<std::pair<std::string, double>> all = {{"major diameter", design.thread.diameter},
                                                     {"pitch diameter", design.thread.pitch_diameter},
                                                     {"root diameter, screw", design.thread.root_diameter},
                                                     {"minor diameter, nut", design.thread.nut_minor},
                                                     {"major diameter, nut", design.thread.nut_major},
                                                     {"pitch", design.thread.pitch},
                                                     {"lead", design.thread.lead()},
                                                     {"nut, length", design.nut_length},
                                                     {"nut, outside", design.nut_outside}};
  if (const auto length = shown_length(scene)) all.emplace_back("free length", *length);
  return all;
}

Table of_lengths(const Scene& scene, const std::vector<std::pair<std::string, double>>& lengths) {
  Table table{{"Dimension", "Value"}, {}};
  for (const auto& [name, length] : lengths) table.rows.push_back({name, both(scene.his, length, Dimension::length)});
  return table;
}

Json corners(const models::Thread& t, double side, const Unit& unit, bool nut) {
  const auto half = [&](double diameter, double tan_flank) {
    return t.pitch / 4 + (t.pitch_diameter - diameter) / 2 * tan_flank;
  };
  const double crest = nut ? t.nut_major : t.diameter, root = nut ? t.nut_minor : t.root_diameter;
  const double left = side < 0 ? t.tan_load_flank : t.tan_other_flank,
               right = side < 0 ? t.tan_other_flank : t.tan_load_flank;
  Json points = Json::array();
  const auto add = [&](double axial, double diameter) {
    points.push_back({axial * unit.scale, diameter / 2 * unit.scale});
  };
  add(-half(root, left), root);
  add(-half(crest, left), crest);
  add(half(crest, right), crest);
  add(half(root, right), root);
  return points;
}

/// The stretch of flank that both threads share and that carries.
Json carrying(const models::Thread& t, double side, const Unit& unit) {
  Json points = Json::array();
  for (const double diameter : {t.nut_minor, t.diameter})
    points.push_back({side * (t.pitch / 4 + (t.pitch_diameter - diameter) / 2 * t.tan_load_flank) * unit.scale,
                      diameter / 2 * unit.scale});
  return points;
}

std::string flank_words(const models::Thread& t) {
  const double load = in_degrees(t.tan_load_flank), other = in_degrees(t.tan_other_flank);
  if (load == 0 && other == 0) return "";
  if (std::abs(load - other) < 1e-9) return engine::plain(std::round((load + other) * 1e6) / 1e6) + "°";
  return engine::plain(std::round(load * 1e6) / 1e6) + "°/" + engine::plain(std::round(other * 1e6) / 1e6) + "°";
}

double flank_share(const Scene& scene, double friction) {
  const models::Thread& t = scene.design.thread;
  return in_degrees(friction * models::helix(t.lead(), t.pitch_diameter, t.tan_load_flank).s);
}

}  // namespace

Figure view(const Scene& scene) {
  const models::Design& design = scene.design;
  const models::Duty& duty = scene.study.duty;
  const Unit unit = length_unit(scene);
  const auto [far, loaded] = ends(duty.ends);
  const auto force = shown_force(scene);
  const bool column = is_column(scene);
  const std::optional<double> free_length = shown_length(scene);
  Figure figure{"view", true, view_sentence(scene), "", "", of_lengths(scene, dimensions(scene)), {}};
  figure.alt =
      fmt::format("Side view to scale of {}, one end in a nut cut open, {} long{}, and a section through the nut.",
                  models::designation(design.thread), both(scene.his, design.nut_length, Dimension::length),
                  free_length ? ", with a free length of " + both(scene.his, *free_length, Dimension::length) : "");
  const char* const kind = design.face.kind == models::Face::Kind::pad       ? "pad"
                           : design.face.kind == models::Face::Kind::rolling ? "rolling"
                                                                             : "point";
  figure.data = {
      {"kind", "view"},
      {"length", unit.json()},
      {"mm", 1e3 / unit.scale},
      {"designation", models::designation(design.thread)},
      {"lead", design.thread.lead() * unit.scale},
      {"starts", design.thread.starts},
      {"d", design.thread.diameter * unit.scale},
      {"root", design.thread.root_diameter * unit.scale},
      {"nut_length", design.nut_length * unit.scale},
      {"nut_outside", design.nut_outside * unit.scale},
      {"free_length", perhaps(free_length, unit)},
      {"travel", perhaps(duty.travel, unit)},
      {"compression", duty.screw_in_compression},
      {"end", loaded},
      {"far_end", far},
      {"face",
       {{"kind", kind},
        {"outer", perhaps(design.face.outer, unit)},
        {"radius", design.face.friction_radius() * unit.scale}}},
      {"lift", !scene.clamp()},
      {"force", force ? both(scene.his, *force, Dimension::force) : ""},
      {"bows",
       column ? "bows so at " + both(scene.his, scene.at_nominal(Output::buckling_load), Dimension::force) : ""}};
  return figure;
}

Figure profile(const Scene& scene) {
  const models::Thread& t = scene.design.thread;
  const Unit unit = length_unit(scene);
  const double side = scene.study.duty.screw_in_compression ? -1 : 1;
  Figure figure{"profile", false, "", "", "", {}, {}};
  const double turns = scene.design.engaged_turns();
  figure.says = turns == 1 ? "One turn of the thread bears the load on one flank."
                           : fmt::format("{} turns of the thread share the load on one flank.", figures(turns));
  figure.alt = fmt::format(
      "The engaged {} profile with its diameters: major {}, pitch {}, root {}; pitch {}.", models::name(t.form),
      both(scene.his, t.diameter, Dimension::length), both(scene.his, t.pitch_diameter, Dimension::length),
      both(scene.his, t.root_diameter, Dimension::length), both(scene.his, t.pitch, Dimension::length));
  figure.note = "Basic sizes of " + models::source(t.form) + ".";
  figure.numbers = of_lengths(scene, dimensions(scene));
  Json levels = Json::array();
  const auto level = [&](const char* name, const char* sub, double diameter) {
    levels.push_back({{"name", name}, {"sub", sub}, {"diameter", diameter * unit.scale}});
  };
  level("D", "4", t.nut_major);
  level("d", "", t.diameter);
  level("d", "2", t.pitch_diameter);
  level("D", "1", t.nut_minor);
  level("d", "3", t.root_diameter);
  figure.data = {{"kind", "profile"},
                 {"length", unit.json()},
                 {"mm", 1e3 / unit.scale},
                 {"pitch", t.pitch * unit.scale},
                 {"screw", corners(t, side, unit, false)},
                 {"nut", corners(t, side, unit, true)},
                 {"load_flank", carrying(t, side, unit)},
                 {"levels", std::move(levels)},
                 {"depth", t.working_depth() * unit.scale},
                 {"angle", flank_words(t)}};
  return figure;
}

Figure ramp(const Scene& scene) {
  const models::Thread& t = scene.design.thread;
  const Unit unit = length_unit(scene);
  const double turn = std::numbers::pi * t.pitch_diameter, slope = in_degrees(t.lead() / turn);
  const double nominal = flank_share(scene, scene.at_nominal(models::Input::thread_friction));
  const std::vector<double>& friction = scene.row(models::Input::thread_friction);
  const double low = flank_share(scene, quantile(friction, 0.05)), high = flank_share(scene, quantile(friction, 0.95));
  const bool overhauls = scene.at_nominal(Output::lock_margin_thread) < 1;
  Figure figure{"ramp", false, "", "", "", {}, {}};
  figure.says =
      overhauls
          ? fmt::format("The thread alone winds back: its slope of {}° is steeper than the {}° that friction holds.",
                        figures(slope), figures(nominal))
      : low < slope
          ? fmt::format("The thread holds at nominal; on slippery days friction holds {}° where the slope is {}°.",
                        figures(low), figures(slope))
          : fmt::format("The thread holds by itself: friction holds slopes steeper than its {}°.", figures(slope));
  figure.alt = fmt::format(
      "One turn of the thread unrolled at the pitch diameter: a slope of {} degrees; friction holds slopes up to {} "
      "degrees at nominal, {} to {} degrees in 90 of 100.",
      figures(slope), figures(nominal), figures(low), figures(high));
  figure.numbers = {{"Angle", "Degrees"},
                    {{"slope of the thread", figures(slope)},
                     {"slope that friction holds, nominal", figures(nominal)},
                     {"5 of 100 hold no more than", figures(low)},
                     {"95 of 100 hold no more than", figures(high)}}};
  figure.data = {{"kind", "ramp"},
                 {"length", unit.json()},
                 {"turn", turn * unit.scale},
                 {"lead", t.lead() * unit.scale},
                 {"lead_angle", slope},
                 {"starts", t.starts},
                 {"holds", {{"q05", low}, {"nominal", nominal}, {"q95", high}}},
                 {"overhauls", overhauls}};
  return figure;
}

}  // namespace studies::sheet
