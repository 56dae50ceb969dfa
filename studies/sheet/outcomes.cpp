/// What may happen: the frictions that hold or not, what goes first, and how the odds settled.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <map>

#include "engine/base/format.hpp"
#include "engine/pass/survey.hpp"
#include "studies/ask/fresh.hpp"
#include "studies/ask/matter.hpp"
#include "studies/say/details.hpp"
#include "studies/say/figures.hpp"
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

/// An input on an axis of the map.
struct MapAxis {
  Input input;
  std::string name;
  Unit unit;
  double from = 0, to = 0;  ///< SI
};

constexpr std::size_t cells_a_side = 36;

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

}  // namespace

std::optional<Figure> friction_map(const Scene& scene) {
  const auto x = map_axis(scene, Input::thread_friction, "thread friction");
  auto y = map_axis(scene, Input::face_friction, "face friction");
  if (!y || scene.at_nominal(Output::face_torque) < 1e-3 * scene.at_nominal(Output::torque)) {
    const Input other = scene.clamp() ? Input::drive : Input::load;
    y = map_axis(scene, other, scene.clamp() ? "pull" : "load");
  }
  if (!x || !y) return std::nullopt;
  const Judge judged = judge(scene);
  std::map<std::pair<std::size_t, std::size_t>, std::array<std::size_t, 4>> cells;
  std::array<std::size_t, 4> counts{};
  for (std::size_t i = 0; i < scene.passes(); ++i) {
    const Outcome outcome = judged.of([&](std::size_t row) { return scene.out[row][i]; });
    ++counts[outcome];
    const double u = (scene.row(x->input)[i] - x->from) / (x->to - x->from),
                 v = (scene.row(y->input)[i] - y->from) / (y->to - y->from);
    if (u < 0 || u >= 1 || v < 0 || v >= 1) continue;
    ++cells[{static_cast<std::size_t>(u * cells_a_side), static_cast<std::size_t>(v * cells_a_side)}][outcome];
  }
  const double dx = (x->to - x->from) / cells_a_side * x->unit.scale,
               dy = (y->to - y->from) / cells_a_side * y->unit.scale;
  Json drawn = Json::array(), shares = Json::array(), curves = Json::array();
  for (const auto& [place, n] : cells)
    drawn.push_back({x->from * x->unit.scale + (static_cast<double>(place.first) + 0.5) * dx,
                     y->from * y->unit.scale + (static_cast<double>(place.second) + 0.5) * dy, n[held], n[fell_short],
                     n[damaged], n[wound_back]});
  Figure figure{"map", false, map_sentence(counts, scene), "", "", {{"Outcome", "In 100"}, {}}, {}};
  for (const Outcome o : {held, fell_short, damaged, wound_back}) {
    if (counts[o] == 0) continue;
    const std::string share = figures(100.0 * static_cast<double>(counts[o]) / static_cast<double>(scene.passes()));
    shares.push_back({{"outcome", outcome_names[o]}, {"label", std::string(outcome_names[o]) + " " + share}});
    figure.numbers.rows.push_back({outcome_names[o], share});
  }
  for (const Judge::One& one : judged.ones) {
    const Points points = crossing(scene, *x, *y, one);
    if (points.size() < 2) continue;
    Json curve = Json::array();
    for (const auto& [a, b] : points) curve.push_back({a, b});
    curves.push_back({{"label", one.label}, {"points", std::move(curve)}, {"side", bad_side(scene, *x, one)}});
  }
  figure.alt =
      fmt::format("Thread friction against {}; what becomes of the passes: {}", y->name, map_sentence(counts, scene));
  figure.note =
      "A mark a group of passes, its shape what became of most of them. Lines: where a limit lies, all else nominal.";
  figure.data = {
      {"kind", "map"},
      {"x", axis(x->name, nullptr, x->from, x->to)},
      {"y", axis(y->name, y->unit.own.empty() ? nullptr : &y->unit, y->from * y->unit.scale, y->to * y->unit.scale)},
      {"step", {dx, dy}},
      {"cells", std::move(drawn)},
      {"shares", std::move(shares)},
      {"curves", std::move(curves)}};
  return figure;
}

namespace {

struct BreakingPart {
  const char* name;
  double models::Parts::*part;
};
constexpr std::array<BreakingPart, 5> parts = {{{"yield", &models::Parts::yield},
                                                {"thread_root", &models::Parts::thread_root},
                                                {"nut_body", &models::Parts::nut_body},
                                                {"buckling", &models::Parts::buckling},
                                                {"stripping", &models::Parts::stripping}}};

/// In how many of 100 a part has broken at each torque [N·m].
std::vector<double> broken(const Scene& scene, double models::Parts::*part, const std::vector<double>& torques) {
  constexpr std::size_t stride = 16;
  std::vector<double> shares;
  for (const double torque : torques) {
    std::size_t count = 0, all = 0;
    for (std::size_t i = 0; i < scene.passes(); i += stride, ++all)
      count += scene.model.parts_at(torque, scene.pass(i)).*part < 1;
    shares.push_back(100.0 * static_cast<double>(count) / static_cast<double>(all));
  }
  return shares;
}

double half_at(const std::vector<double>& torques, const std::vector<double>& shares) {
  for (std::size_t i = 1; i < shares.size(); ++i)
    if (shares[i] >= 50) return torques[i];
  return INFINITY;
}

}  // namespace

std::optional<Figure> first_to_go(const Scene& scene) {
  const double working = scene.at_nominal(Output::torque);
  const auto& reached = scene.answer.reached;
  if (reached.empty() || !std::isfinite(reached.front().torque) || !std::isfinite(working)) return std::nullopt;
  double top = std::max(1.6 * reached.front().torque, 1.15 * working);
  if (scene.study.duty.overload) top = std::max(top, 1.15 * scene.study.duty.overload->torque);
  for (const Reached& it : reached)
    if (it.torque < 2.5 * reached.front().torque) top = std::max(top, 1.35 * it.torque);
  std::vector<double> torques;
  for (int i = 0; i <= 60; ++i) torques.push_back(top * i / 60);
  const Unit unit = unit_for(scene.his, reached.front().torque, Dimension::torque);
  Json lines = Json::array();
  Table numbers{{"What", "In half of them at"}, {}};
  const char* pens[] = {"working", "overload", "other", "other", "other"};
  for (const Reached& it : reached) {
    const auto part =
        std::find_if(parts.begin(), parts.end(), [&](const BreakingPart& p) { return p.name == it.limit; });
    const std::vector<double> shares = broken(scene, part->part, torques);
    if (shares.back() <= 0) continue;
    Points points;
    for (std::size_t i = 0; i < torques.size(); ++i) points.emplace_back(torques[i] * unit.scale, shares[i]);
    const double half = half_at(torques, shares);
    const std::string words = say::breaks_words(*models::must_named(it.limit));
    lines.push_back(line(words, pens[lines.size()], points));
    numbers.rows.push_back({words, std::isfinite(half) ? both(scene.his, half, Dimension::torque)
                                                       : "beyond " + scene.his(top, Dimension::torque)});
  }
  if (lines.empty()) return std::nullopt;
  Figure figure{"first", false, "", "", "", std::move(numbers), {}};
  figure.says = fmt::format("As the pull grows, {} first: at {} with everything nominal.",
                            say::breaks_words(*models::must_named(reached.front().limit)),
                            scene.his(reached.front().torque, Dimension::torque));
  figure.alt = "In how many of 100 each part has broken, against the torque on the screw.";
  Json here = Json::array(
      {{{"on", "x"}, {"at", working * unit.scale}, {"label", "working " + scene.his(working, Dimension::torque)}}});
  if (scene.study.duty.overload)
    here.push_back({{"on", "x"},
                    {"at", scene.study.duty.overload->torque * unit.scale},
                    {"label", "overload " + scene.his(scene.study.duty.overload->torque, Dimension::torque)}});
  figure.data = {{"kind", "lines"},
                 {"wide", false},
                 {"height", 234},
                 {"x", axis("torque on the screw", &unit, 0, top * unit.scale)},
                 {"y", axis("in 100", nullptr, 0, 100)},
                 {"lines", std::move(lines)},
                 {"walls", Json::array()},
                 {"here", std::move(here)}};
  return figure;
}

std::optional<Figure> settling(const Scene& scene, const engine::Running& running) {
  const LimitVerdict* turning = turning_point(scene.answer);
  if (!turning || !turning->limit.odds || turning->misses == 0) return std::nullopt;
  const auto k = static_cast<std::size_t>(turning - scene.answer.limits.data());
  Points points;
  Json band = Json::array();
  Table numbers{{"Passes", "Short in 100", "95 % bounds"}, {}};
  double top = 100 * (1 - *turning->limit.odds);
  const double allowed = top;
  const auto add = [&](std::uint64_t passes, const Bounded& missed) {
    const auto n = static_cast<double>(passes);
    points.emplace_back(n, 100 * missed.estimate);
    band.push_back({n, 100 * missed.low, 100 * missed.high});
    const say::Said said = say::said({100 * missed.low, 100 * missed.estimate, 100 * missed.high}, allowed);
    numbers.rows.push_back({engine::count_in_full(passes), said.estimate, said.low + " to " + said.high});
    top = std::max(top, std::min(1.5 * std::max(allowed, 100 * missed.estimate), 100 * missed.high));
  };
  for (std::uint64_t count = 1024; count <= std::min<std::uint64_t>(scene.answer.passes / 2, 262144); count *= 2) {
    Study few = scene.study;
    few.passes.settle.reset();
    few.passes.count = count;
    engine::Ask ask;
    ask.thresholds.push_back({models::output_count + k, turning->limit.least_margin()});
    const engine::Survey survey = engine::survey(fresh_plan(few, scene.inputs.law, std::nullopt), scene.inputs.law,
                                                 scene.model, ask, scene.study.passes.key, running);
    const double hit = static_cast<double>(survey.hits[0]) / static_cast<double>(survey.passes);
    add(survey.passes, {1 - survey.odds[0].high, 1 - hit, 1 - survey.odds[0].low});
  }
  if (points.empty()) return std::nullopt;
  const Bounded last = say::shortfall(*turning);
  add(scene.answer.passes, {last.low / 100, last.estimate / 100, last.high / 100});
  Figure figure{"settling", false, "", "", "", std::move(numbers), {}};
  figure.says =
      fmt::format("Settled: the shortfall of {} is {} in 100, where {} are allowed.", say::row_words(turning->limit),
                  say::said(last, allowed).estimate, say::given_number(allowed));
  figure.alt = figure.says + " The estimate and its 95 % bounds against the number of passes.";
  Json one = line("", "working", points);
  one["band"] = std::move(band);
  one["symbols"] = true;
  figure.data = {{"kind", "lines"},
                 {"wide", false},
                 {"height", 190},
                 {"x", axis("passes", nullptr, points.front().first, points.back().first, true)},
                 {"y", axis("short, in 100", nullptr, 0, rounded_up(1.1 * top))},
                 {"lines", Json::array({std::move(one)})},
                 {"walls", Json::array({wall("y", allowed, 1, say::given_number(allowed) + " allowed")})}};
  return figure;
}

std::vector<Figure> all_figures(const Scene& scene, const engine::Running& running) {
  std::vector<Figure> all = {view(scene), profile(scene), ramp(scene)};
  const auto add = [&](std::optional<Figure> figure) {
    if (figure) all.push_back(std::move(*figure));
  };
  add(torque(scene));
  add(ladder(scene));
  add(chance(scene));
  add(first_to_go(scene));
  add(window(scene));
  add(reach(scene));
  add(friction_map(scene));
  add(matters(scene));
  add(handle(scene));
  add(nut_length(scene, running));
  add(worth(scene));
  add(trade(scene));
  add(settling(scene, running));
  return all;
}

}  // namespace studies::sheet
