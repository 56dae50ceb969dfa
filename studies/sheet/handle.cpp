/// The handle chart: how force or effort go with the length of the handle, the torque or the load.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "studies/say/words.hpp"
#include "studies/sheet/figures.hpp"
#include "studies/sheet/measure.hpp"

namespace studies::sheet {
namespace {

using engine::Dimension;
using models::Output;

/// The force or effort on every pass when the drive, or the load, is so many times what it is.
std::vector<double> scaled(const Scene& scene, Output output, double times) {
  std::vector<double> values(scene.passes());
  const std::vector<double>&force = scene.row(Output::force), &torque = scene.row(Output::torque),
        &drag = scene.row(Output::drag_torque), &hand = scene.row(Output::hand_force);
  for (std::size_t i = 0; i < values.size(); ++i) {
    const double net = torque[i] - drag[i];
    if (output == Output::force)
      values[i] = net > 0 ? force[i] / net * std::max(0.0, times * torque[i] - drag[i]) : 0;
    else if (output == Output::hand_force)
      values[i] = hand[i] / times;
    else
      values[i] = drag[i] + net * times;
  }
  return values;
}

/// What the handle chart is drawn over.
struct Swept {
  std::string name;  ///< "length of the handle"
  double now = 0;
  Dimension dimension = Dimension::torque;
};

std::optional<Swept> swept(const Scene& scene) {
  const models::Duty& duty = scene.study.duty;
  if (duty.handle && (!scene.clamp() || duty.drive == models::Drive::hand_force))
    return Swept{"radius of the handle", *duty.handle, Dimension::length};
  if (scene.clamp()) return Swept{"torque on the screw", scene.at_nominal(Output::torque), Dimension::torque};
  if (duty.force) return Swept{"load", *duty.force, Dimension::force};
  return std::nullopt;
}

/// How many times what there is would just do in 95 of 100; none where nothing would.
std::optional<double> enough_at(const Scene& scene, const Measure& m) {
  double low = 0.02, high = 50;
  const auto enough = [&](double times) {
    const std::vector<double> values = scaled(scene, m.output, times);
    return scene.clamp() ? quantile(values, 0.05) >= *m.wall : quantile(values, 0.95) <= *m.wall;
  };
  if (!enough(high)) return std::nullopt;
  for (int i = 0; i < 40; ++i) {
    const double middle = std::sqrt(low * high);
    (enough(middle) ? high : low) = middle;
  }
  return high;
}

std::string handle_sentence(const Scene& scene, const Measure& m, const Swept& s) {
  const bool solvable = scene.clamp() || s.dimension == Dimension::length;
  if (!m.wall || !solvable) return fmt::format("What another {} would do.", s.name);
  const std::optional<double> times = enough_at(scene, m);
  if (!times) return fmt::format("No {} would do in 95 of 100.", s.name);
  return fmt::format("A {} of {} would do in 95 of 100; here it is {}.", s.name, scene.his(*times * s.now, s.dimension),
                     scene.his(s.now, s.dimension));
}

/// Force or effort over what is swept: what 95, 50 and 5 of 100 reach, or need at most.
struct Sweep {
  Points surely, middle, rarely;
  Table numbers;
  double top = 0;  ///< SI
};

std::optional<Sweep> sweep(const Scene& scene, const Measure& m, const Swept& s, const Unit& x, const Unit& y) {
  Sweep it;
  it.numbers.head = {say::capital(s.name), "95 of 100", "50 of 100", "5 of 100"};
  constexpr int steps = 24, told = 6;
  for (int i = 0; i <= steps; ++i) {
    const double times = 0.5 + 1.25 * i / steps, at = times * s.now * x.scale;
    const Spread3 values = spread3(scaled(scene, m.output, times));
    if (!std::isfinite(values.high)) return std::nullopt;
    const double surely = scene.clamp() ? values.low : values.high, rarely = scene.clamp() ? values.high : values.low;
    it.surely.emplace_back(at, surely * y.scale);
    it.middle.emplace_back(at, values.middle * y.scale);
    it.rarely.emplace_back(at, rarely * y.scale);
    it.top = std::max(it.top, values.high);
    if (i % told == 0)
      it.numbers.rows.push_back({both(scene.his, times * s.now, s.dimension), both(scene.his, surely, m.dimension),
                                 both(scene.his, values.middle, m.dimension), both(scene.his, rarely, m.dimension)});
  }
  return it;
}

}  // namespace

std::optional<Figure> handle(const Scene& scene) {
  const Measure m = measure(scene);
  const std::optional<Swept> s = swept(scene);
  if (!s || !(s->now > 0) || !std::isfinite(s->now)) return std::nullopt;
  const Unit x = unit_for(scene.his, s->now, s->dimension),
             y = unit_for(scene.his, spread3(scene.row(m.output)).middle, m.dimension);
  std::optional<Sweep> it = sweep(scene, m, *s, x, y);
  if (!it) return std::nullopt;
  const double top = std::max(it->top, m.wall.value_or(0)) * y.scale;
  LinesData data{false, 234, axis(s->name, &x, 0.5 * s->now * x.scale, 1.75 * s->now * x.scale),
                 axis(m.name, &y, 0, rounded_up(1.02 * top))};
  data.lines = {line("95 of 100", "working", it->surely), line("50 of 100", "soft", it->middle),
                line("5 of 100", "soft", it->rarely)};
  if (m.wall) data.walls.push_back(wall("y", *m.wall * y.scale, scene.clamp() ? -1 : 1, m.wall_label));
  data.here.push_back(here(s->now * x.scale, "here " + scene.his(s->now, s->dimension)));
  return Figure{"handle",
                false,
                handle_sentence(scene, m, *s),
                fmt::format("{} against the {}, for 95, 50 and 5 of 100.", say::capital(m.name), s->name),
                "",
                std::move(it->numbers),
                data.json()};
}

}  // namespace studies::sheet
