/// The friction map: which frictions hold, fall short, damage or wind back.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "studies/say/limits.hpp"
#include "studies/say/words.hpp"
#include "studies/sheet/figures.hpp"

namespace studies::sheet {
namespace {

using engine::Dimension;
using models::Input;
using models::Must;
using models::Output;

enum Outcome : std::size_t { held, fell_short, damaged, wound_back };
constexpr std::array<const char*, 4> outcome_names = {"holds", "short", "damaged", "winds back"};

/// What decides what becomes of a pass: rows of margins and what they must reach.
struct Judge {
  struct One {
    std::size_t row = 0;
    double least = 1;
    Outcome outcome = held;
    std::string label;
  };
  std::vector<One> ones;

  /// Of outputs that miss several, the gravest.
  template <class At>
  Outcome of(At at) const {
    Outcome worst = held;
    const auto gravity = [](Outcome o) { return o == damaged ? 3 : o == wound_back ? 2 : o == fell_short ? 1 : 0; };
    for (const One& it : ones)
      if (!(at(it.row) >= it.least) && gravity(it.outcome) > gravity(worst)) worst = it.outcome;
    return worst;
  }
};

/// The outcome that missing a limit is; none for limits of another kind.
std::optional<Outcome> outcome_of(Must must) {
  switch (must) {
    case Must::force:
    case Must::torque:
    case Must::hand_force:
      return fell_short;
    case Must::overload:
      return damaged;
    case Must::self_locking:
      return wound_back;
    default:
      return std::nullopt;
  }
}

Judge judge(const Scene& scene) {
  Judge all;
  for (std::size_t k = 0; k < scene.study.limits.size(); ++k) {
    const models::Limit& limit = scene.study.limits[k];
    if (const auto outcome = outcome_of(limit.must))
      all.ones.push_back({models::output_count + k, limit.least_margin(), *outcome, say::row_words(limit)});
  }
  const bool locks =
      std::any_of(all.ones.begin(), all.ones.end(), [](const auto& one) { return one.outcome == wound_back; });
  if (!locks) all.ones.push_back({static_cast<std::size_t>(Output::lock_margin), 1, wound_back, "winds back"});
  return all;
}

constexpr std::size_t cells_a_side = 36;

/// An input on an axis of the map.
struct MapAxis {
  Input input;
  std::string name;
  Unit unit;
  double from = 0, to = 0;  ///< SI

  double step() const { return (to - from) / cells_a_side * unit.scale; }
  /// The middle of a cell, in his unit.
  double middle(std::size_t cell) const { return from * unit.scale + (static_cast<double>(cell) + 0.5) * step(); }
  Json json() const { return axis(name, unit.own.empty() ? nullptr : &unit, from * unit.scale, to * unit.scale); }
};

std::optional<MapAxis> map_axis(const Scene& scene, Input input, const std::string& name) {
  if (!scene.scatters(input)) return std::nullopt;
  const std::vector<double>& values = scene.row(input);
  const double low = quantile(values, 0.0005), high = quantile(values, 0.9995), room = 0.06 * (high - low);
  Dimension dimension = models::row(input).dimension;
  if (input == Input::drive)
    dimension = scene.study.duty.drive == models::Drive::hand_force ? Dimension::force : Dimension::torque;
  const Unit unit = dimension == Dimension::none ? Unit{} : unit_for(scene.his, high, dimension);
  return MapAxis{input, name, unit, std::max(0.0, low - room), high + room};
}

/// Where a margin crosses what it must reach, all else at nominal.
Points crossing(const Scene& scene, const MapAxis& x, const MapAxis& y, const Judge::One& one) {
  Points points;
  const auto margin = [&](double at_x, double at_y) {
    models::Inputs in = scene.inputs.nominal;
    in[static_cast<std::size_t>(x.input)] = at_x, in[static_cast<std::size_t>(y.input)] = at_y;
    return scene.model.evaluate_one(in)[one.row] - one.least;
  };
  constexpr int steps = 48;
  for (int i = 0; i <= steps; ++i) {
    const double at_y = y.from + (y.to - y.from) * i / steps;
    double low = x.from, high = x.to;
    const bool first = margin(low, at_y) >= 0;
    if (first == (margin(high, at_y) >= 0)) continue;
    for (int k = 0; k < 40; ++k) {
      const double middle = (low + high) / 2;
      ((margin(middle, at_y) >= 0) == first ? low : high) = middle;
    }
    points.emplace_back(low * x.unit.scale, at_y * y.unit.scale);
  }
  return points;
}

/// Whether more of the x input makes the margin worse: nothing may stand to the right of the crossing.
int bad_side(const Scene& scene, const MapAxis& x, const Judge::One& one) {
  models::Inputs in = scene.inputs.nominal;
  const auto at = [&](double value) {
    in[static_cast<std::size_t>(x.input)] = value;
    return scene.model.evaluate_one(in)[one.row];
  };
  return at(x.to) < at(x.from) ? 1 : -1;
}

std::string map_sentence(const std::array<std::size_t, 4>& counts, const Scene& scene) {
  const auto share = [&](Outcome o) {
    return 100.0 * static_cast<double>(counts[o]) / static_cast<double>(scene.passes());
  };
  std::vector<std::string> words;
  if (counts[fell_short] > 0) words.push_back(fmt::format("{} fall short", figures(share(fell_short))));
  if (counts[damaged] > 0) words.push_back(fmt::format("{} are damaged by the overload pull", figures(share(damaged))));
  if (counts[wound_back] > 0) words.push_back(fmt::format("{} wind back", figures(share(wound_back))));
  if (words.empty()) return "Every friction in the range holds.";
  return fmt::format("Of 100 {}: {}.", scene.answer.hundred.empty() ? "pulls" : scene.answer.hundred,
                     say::list_of(words));
}

/// Face friction, or the pull or load where the face hardly matters.
std::optional<MapAxis> other_axis(const Scene& scene) {
  const bool matters = !(scene.at_nominal(Output::face_torque) < 1e-3 * scene.at_nominal(Output::torque));
  if (auto face = matters ? map_axis(scene, Input::face_friction, "face friction") : std::nullopt) return face;
  return scene.clamp() ? map_axis(scene, Input::drive, "pull") : map_axis(scene, Input::load, "load");
}

using Counts = std::array<std::size_t, 4>;

/// What became of the passes, in all and cell by cell.
struct Map {
  std::map<std::pair<std::size_t, std::size_t>, Counts> cells;
  Counts all{};
};

Map counted(const Scene& scene, const Judge& judged, const MapAxis& x, const MapAxis& y) {
  Map map;
  const auto place = [](const MapAxis& axis, double value) { return (value - axis.from) / (axis.to - axis.from); };
  for (std::size_t i = 0; i < scene.passes(); ++i) {
    const Outcome outcome = judged.of([&](std::size_t row) { return scene.out[row][i]; });
    ++map.all[outcome];
    const double u = place(x, scene.row(x.input)[i]), v = place(y, scene.row(y.input)[i]);
    if (u < 0 || u >= 1 || v < 0 || v >= 1) continue;
    ++map.cells[{static_cast<std::size_t>(u * cells_a_side), static_cast<std::size_t>(v * cells_a_side)}][outcome];
  }
  return map;
}

Json cells_json(const Map& map, const MapAxis& x, const MapAxis& y) {
  Json drawn = Json::array();
  for (const auto& [place, n] : map.cells)
    drawn.push_back({x.middle(place.first), y.middle(place.second), n[held], n[fell_short], n[damaged], n[wound_back]});
  return drawn;
}

Json curves_json(const Scene& scene, const Judge& judged, const MapAxis& x, const MapAxis& y) {
  Json curves = Json::array();
  for (const Judge::One& one : judged.ones) {
    const Points points = crossing(scene, x, y, one);
    if (points.size() >= 2)
      curves.push_back({{"label", one.label}, {"points", points}, {"side", bad_side(scene, x, one)}});
  }
  return curves;
}

}  // namespace

std::optional<Figure> friction_map(const Scene& scene) {
  const auto x = map_axis(scene, Input::thread_friction, "thread friction"), y = other_axis(scene);
  if (!x || !y) return std::nullopt;
  const Judge judged = judge(scene);
  const Map map = counted(scene, judged, *x, *y);
  Figure figure{"map", false, map_sentence(map.all, scene), "", "", {{"Outcome", "In 100"}, {}}, {}};
  Json shares = Json::array();
  for (const Outcome o : {held, fell_short, damaged, wound_back}) {
    if (map.all[o] == 0) continue;
    const std::string share = figures(100.0 * static_cast<double>(map.all[o]) / static_cast<double>(scene.passes()));
    shares.push_back({{"outcome", outcome_names[o]}, {"label", std::string(outcome_names[o]) + " " + share}});
    figure.numbers.rows.push_back({outcome_names[o], share});
  }
  figure.alt = fmt::format("Thread friction against {}; what becomes of the passes: {}", y->name, figure.says);
  figure.note =
      "A mark a group of passes, its shape what became of most of them. Lines: where a limit lies, all else nominal.";
  figure.data = {{"kind", "map"},
                 {"x", x->json()},
                 {"y", y->json()},
                 {"step", {x->step(), y->step()}},
                 {"cells", cells_json(map, *x, *y)},
                 {"shares", std::move(shares)},
                 {"curves", curves_json(scene, judged, *x, *y)}};
  return figure;
}

}  // namespace studies::sheet
