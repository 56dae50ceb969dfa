/// The chance of reaching a force, or of turning a load.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include <numbers>

#include "studies/say/sentences.hpp"
#include "studies/say/words.hpp"
#include "studies/sheet/figures.hpp"
#include "studies/sheet/measure.hpp"

namespace studies::sheet {
namespace {

using models::Output;

constexpr std::size_t curve_points = 96;

/// In how many of 100 a value is reached (rising false) or is enough (rising true).
Points shares(std::vector<double> values, const Unit& unit, bool rising) {
  std::sort(values.begin(), values.end());
  Points points;
  for (std::size_t i = 0; i <= curve_points; ++i) {
    // Equal steps of probability, closer together in the tails.
    const double u = static_cast<double>(i) / curve_points, share = (1 - std::cos(u * std::numbers::pi)) / 2;
    const auto at = static_cast<std::size_t>(share * static_cast<double>(values.size() - 1));
    if (std::isfinite(values[at])) points.emplace_back(values[at] * unit.scale, 100 * (rising ? share : 1 - share));
  }
  return points;
}

Json histogram(const std::vector<double>& values, const Unit& unit, const char* pen, double from, double to) {
  constexpr std::size_t bins = 64;
  std::vector<std::size_t> counts(bins);
  for (const double value : values) {
    const double place = (value * unit.scale - from) / (to - from) * bins;
    if (place >= 0 && place < bins) ++counts[static_cast<std::size_t>(place)];
  }
  const auto most = static_cast<double>(std::max<std::size_t>(1, *std::max_element(counts.begin(), counts.end())));
  Json bars = Json::array();
  const double width = (to - from) / bins;
  for (std::size_t i = 0; i < bins; ++i)
    if (counts[i] > 0)
      bars.push_back({{"from", from + static_cast<double>(i) * width},
                      {"to", from + static_cast<double>(i + 1) * width},
                      {"share", static_cast<double>(counts[i]) / most},
                      {"pen", pen}});
  return bars;
}

/// Force at which the first part breaks, everything at nominal; none where none does.
std::optional<double> breaking_force(const Scene& scene) {
  const double net = scene.at_nominal(Output::torque) - scene.at_nominal(Output::drag_torque),
               force = scene.at_nominal(Output::force);
  if (scene.answer.reached.empty() || !(force > 0) || !(net > 0)) return std::nullopt;
  const double torque = scene.answer.reached.front().torque;
  if (!std::isfinite(torque)) return std::nullopt;
  return (torque - scene.at_nominal(Output::drag_torque)) / net * force;
}

std::string chance_sentence(const Scene& scene, const Measure& m) {
  const Spread3 it = spread3(scene.row(m.output));
  const std::string where = m.wall ? fmt::format(", where {} {}", scene.his(*m.wall, m.dimension), m.wall_verb) : "";
  if (scene.clamp()) return fmt::format("95 of 100 reach {} or more{}.", scene.his(it.low, m.dimension), where);
  return fmt::format("95 of 100 need no more than {}{}.", scene.his(it.high, m.dimension), where);
}

/// The pull there is, or the overload pull, on the chart.
struct Pull {
  std::string label;
  const char* pen;
  const std::vector<double>& values;
  Spread3 spread;
};

/// What the chart spans, in his unit.
struct Frame {
  double from = 0, to = 0;
};

/// The force at which something breaks, where that is near enough to be shown.
std::optional<double> near_breaking(const Scene& scene, double most) {
  const std::optional<double> breaks = breaking_force(scene);
  return breaks && *breaks < 1.6 * most ? breaks : std::nullopt;
}

Frame frame(const std::vector<Pull>& pulls, const Measure& m, const std::optional<double>& breaks, const Unit& unit) {
  double least = INFINITY, most = -INFINITY;
  for (const Pull& pull : pulls) {
    least = std::min(least, quantile(pull.values, 0.001));
    most = std::max(most, quantile(pull.values, 0.999));
  }
  for (const auto& wall : {m.wall, breaks})
    if (wall) least = std::min(least, *wall), most = std::max(most, *wall);
  const double room = most > least ? 0.06 * (most - least) : 0.1 * std::abs(most);
  return {std::max(0.0, least - room) * unit.scale, (most + room) * unit.scale};
}

/// Adds the curve of a pull, its spread at the foot and its three marks.
void add(const Pull& pull, const Unit& unit, const Frame& frame, bool rising, LinesData& data) {
  data.lines.push_back(line(pull.label, pull.pen, shares(pull.values, unit, rising)));
  for (Json& bar : histogram(pull.values, unit, pull.pen, frame.from, frame.to)) data.bars.push_back(std::move(bar));
  const Spread3& it = pull.spread;
  if (!(it.low < it.high)) return;
  for (const auto& [si, y] :
       {std::pair(it.low, rising ? 5.0 : 95.0), std::pair(it.middle, 50.0), std::pair(it.high, rising ? 95.0 : 5.0)})
    if (std::isfinite(si))
      data.marks.push_back({{"x", si * unit.scale}, {"y", y}, {"label", figures(si * unit.scale)}, {"pen", pull.pen}});
}

Table numbers_of(const std::vector<Pull>& pulls, const Measure& m, const say::HisUnits& his, bool rising) {
  Table table{{"In 100"}, {}};
  const std::string verb = rising ? " need no more than" : " reach";
  for (const int share : {95, 50, 5}) table.rows.push_back({std::to_string(share) + verb});
  for (const Pull& pull : pulls) {
    table.head.push_back(say::capital(pulls.size() > 1 ? pull.label : m.name));
    const Spread3& it = pull.spread;
    table.rows[0].push_back(both(his, rising ? it.high : it.low, m.dimension));
    table.rows[1].push_back(both(his, it.middle, m.dimension));
    table.rows[2].push_back(both(his, rising ? it.low : it.high, m.dimension));
  }
  return table;
}

}  // namespace

Figure chance(const Scene& scene) {
  const Measure m = measure(scene);
  const bool rising = !scene.clamp(), over = scene.clamp() && scene.study.duty.overload;
  const std::vector<double>&values = scene.row(m.output), &overload = scene.row(Output::overload_force);
  std::vector<Pull> pulls = {
      {over ? "working pull" : say::hundred_of(scene.answer), "working", values, spread3(values)}};
  if (over) pulls.push_back({"overload pull", "overload", overload, spread3(overload)});
  const Unit unit = unit_for(scene.his, pulls.front().spread.middle, m.dimension);
  const auto breaks = over ? near_breaking(scene, quantile(overload, 0.999)) : std::nullopt;
  const Frame spans = frame(pulls, m, breaks, unit);

  Figure figure{"chance",
                true,
                chance_sentence(scene, m),
                "",
                "At the foot, how the passes are spread.",
                numbers_of(pulls, m, scene.his, rising),
                {}};
  figure.alt =
      fmt::format("Share of 100 {} against {}: {} {}, 50 at {}.", say::hundred_of(scene.answer), m.name,
                  rising ? "95 need no more than" : "95 reach", figure.numbers.rows[0][1], figure.numbers.rows[1][1]);
  LinesData data{true, 270, axis(m.name, &unit, spans.from, spans.to),
                 axis(rising ? "in 100 at most" : "in 100 at least", nullptr, 0, 100)};
  for (const Pull& pull : pulls) add(pull, unit, spans, rising, data);
  if (m.wall) data.walls.push_back(wall("x", *m.wall * unit.scale, rising ? 1 : -1, m.wall_label));
  if (breaks)
    data.walls.push_back(
        wall("x", *breaks * unit.scale, 1, say::breaks_words(*models::must_named(scene.answer.reached.front().limit))));
  figure.data = data.json();
  return figure;
}

}  // namespace studies::sheet
