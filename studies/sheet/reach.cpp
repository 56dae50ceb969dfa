/// The reach chart: the load that keeps the buckling margin against the free length.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "models/screw/strength.hpp"
#include "studies/say/limits.hpp"
#include "studies/say/words.hpp"
#include "studies/sheet/figures.hpp"
#include "studies/sheet/measure.hpp"

namespace studies::sheet {
namespace {

using engine::Dimension;
using models::Output;

/// Load that a screw of this root bears with the margin asked, everything at nominal.
double borne(const Scene& scene, double root, double length, double margin) {
  const double yield = scene.at_nominal(models::Input::screw_yield), modulus = scene.at_nominal(models::Input::modulus);
  return std::max(0.0,
                  models::buckling_load(root, length, models::end_constant(scene.study.duty.ends), modulus, yield)) /
         margin;
}

/// The free length [m] up to which a load is borne; none where no length bears it.
std::optional<double> borne_to(const Scene& scene, double root, double load, double margin) {
  double low = 1e-4, high = 100;
  if (borne(scene, root, low, margin) < load) return std::nullopt;
  for (int i = 0; i < 60; ++i) {
    const double middle = std::sqrt(low * high);
    (borne(scene, root, middle, margin) >= load ? low : high) = middle;
  }
  return low;
}

struct Named {
  std::string name;
  double root = 0;  ///< d3 [m]
};

/// The screw and the sizes beside it.
std::vector<Named> screws(const Scene& scene) {
  std::vector<Named> all = {{scene.answer.pick->designation, scene.design.thread.root_diameter}};
  for (const auto& next : {scene.answer.next_size_down, scene.answer.next_size_up})
    if (next) all.push_back({next->verdict.designation, next->verdict.design.thread.root_diameter});
  return all;
}

Points borne_line(const Scene& scene, double root, double margin, double from, double to, const Unit& x,
                  const Unit& y) {
  Points points;
  constexpr int steps = 48;
  for (int i = 0; i <= steps; ++i) {
    const double length = from + (to - from) * i / steps;
    points.emplace_back(length * x.scale, borne(scene, root, length, margin) * y.scale);
  }
  return points;
}

std::string reach_sentence(const Scene& scene, double load, double margin, const std::optional<double>& to) {
  const std::string with = margin == 1 ? "" : fmt::format(" with the margin of {}", figures(margin));
  const std::string at = scene.his(load, Dimension::force);
  if (!to) return fmt::format("At {} this screw bears no free length{}.", at, with);
  return fmt::format("At {} this screw may be {} long between nut and load{}; here it is {}.", at,
                     scene.his(*to, Dimension::length), with, scene.his(*scene.free_length(), Dimension::length));
}

}  // namespace

std::optional<Figure> reach(const Scene& scene) {
  const double load = scene.at_nominal(Output::force);
  if (!scene.free_length() || !(load > 0) || !std::isfinite(load)) return std::nullopt;
  const double length = *scene.free_length(), root = scene.design.thread.root_diameter;
  const LimitVerdict* const asked = verdict_on(scene.answer, {models::Must::buckling});
  const double margin = asked ? asked->limit.least_margin() : 1;
  const Unit x = unit_for(scene.his, length, Dimension::length), y = unit_for(scene.his, load, Dimension::force);
  const std::optional<double> to = borne_to(scene, root, load, margin);
  const double from = 0.5 * length, last = std::min(3 * length, std::max(1.7 * length, 1.2 * to.value_or(length)));
  const double highest = std::max(1.4 * load, std::min(3.2 * load, borne(scene, root, 0.6 * length, margin)));
  LinesData data{false, 234, axis("free length", &x, from * x.scale, last * x.scale),
                 axis("load", &y, 0, rounded_up(highest * y.scale))};
  Table numbers{{"Size", "Free length to"}, {}};
  std::vector<std::string> names;
  for (const Named& it : screws(scene)) {
    data.lines.push_back(
        line(it.name, names.empty() ? "working" : "soft", borne_line(scene, it.root, margin, from, last, x, y)));
    const auto until = borne_to(scene, it.root, load, margin);
    numbers.rows.push_back({it.name, until ? both(scene.his, *until, Dimension::length) : "none"});
    names.push_back(it.name);
  }
  data.walls.push_back(
      wall("y", load * y.scale, -1, scene.his(load, Dimension::force) + (scene.clamp() ? " nominal" : " load")));
  const double bears = borne(scene, root, length, margin);
  if (bears > load && bears < 0.95 * highest)
    data.spare = {{"x", length * x.scale},
                  {"from", load * y.scale},
                  {"to", bears * y.scale},
                  {"label", say::spare_words(bears / load - 1)}};
  data.here.push_back(here(length * x.scale, "here " + scene.his(length, Dimension::length)));
  return Figure{"reach",
                false,
                reach_sentence(scene, load, margin, to),
                fmt::format("Load that keeps the buckling margin against the free length, of {}.", say::list_of(names)),
                "",
                std::move(numbers),
                data.json()};
}

}  // namespace studies::sheet
