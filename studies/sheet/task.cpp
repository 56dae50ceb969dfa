/// What the screw does of its task: the chance of reaching a force or of turning a load, the handle, the free length.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "models/screw/strength.hpp"
#include "studies/say/limits.hpp"
#include "studies/say/sentences.hpp"
#include "studies/say/words.hpp"
#include "studies/sheet/figures.hpp"

namespace studies::sheet {
namespace {

using engine::Dimension;
using models::Output;

/// What the task is measured by: the force of a clamp; the hand force of a lift by hand, else its torque.
struct Measure {
  Output output = Output::force;
  Dimension dimension = Dimension::force;
  std::string name;            ///< "force at the pad"
  std::optional<double> wall;  ///< what is needed, or what there is
  std::string wall_label;      ///< "22 kN asked", "200 N allowed"
  std::string wall_verb;       ///< "are asked"
};

const LimitVerdict* verdict_on(const Answer& answer, std::initializer_list<models::Must> musts) {
  for (const models::Must must : musts)
    for (const LimitVerdict& v : answer.limits)
      if (v.limit.must == must) return &v;
  return nullptr;
}

Measure of_clamp(const Scene& scene) {
  Measure m{Output::force, Dimension::force, "force", scene.study.duty.force, "", "are asked"};
  const LimitVerdict* v = verdict_on(scene.answer, {models::Must::force});
  if (v && v->limit.kind == models::Limit::Kind::at_least) m.wall = v->limit.asked;
  if (m.wall) m.wall_label = scene.his.given(*m.wall, m.dimension) + " asked";
  return m;
}

Measure of_lift(const Scene& scene) {
  const models::Duty& duty = scene.study.duty;
  const bool by_hand = duty.handle.has_value();
  Measure m{Output::torque, Dimension::torque, "torque", {}, "", "are allowed"};
  if (by_hand) m.output = Output::hand_force, m.dimension = Dimension::force, m.name = "force of each hand";
  const LimitVerdict* v = verdict_on(scene.answer, {by_hand ? models::Must::hand_force : models::Must::torque});
  if (v && v->limit.kind == models::Limit::Kind::at_most) {
    m.wall = v->limit.asked;
    m.wall_label = scene.his.given(*m.wall, m.dimension) + " allowed";
  } else if (duty.drive != models::Drive::none) {
    m.wall = by_hand ? duty.drive_torque() / (*duty.handle * duty.hands) : duty.drive_torque();
    m.wall_label = "there are " + scene.his(*m.wall, m.dimension);
    m.wall_verb = "are there";
  }
  return m;
}

Measure measure(const Scene& scene) { return scene.clamp() ? of_clamp(scene) : of_lift(scene); }

constexpr std::size_t curve_points = 96;

/// In how many of 100 a value is reached (rising false) or is enough (rising true).
Points shares(std::vector<double> values, const Unit& unit, bool rising) {
  std::sort(values.begin(), values.end());
  Points points;
  for (std::size_t i = 0; i <= curve_points; ++i) {
    // Equal steps of probability, closer together in the tails.
    const double u = static_cast<double>(i) / curve_points, share = (1 - std::cos(u * M_PI)) / 2;
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

struct Reach3 {
  double low, middle, high;
};

Reach3 three(const std::vector<double>& values) {
  return {quantile(values, 0.05), quantile(values, 0.5), quantile(values, 0.95)};
}

bool has_overload(const Scene& scene) { return scene.study.duty.overload.has_value(); }

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
  const Reach3 it = three(scene.row(m.output));
  const std::string where = m.wall ? fmt::format(", where {} {}", scene.his(*m.wall, m.dimension), m.wall_verb) : "";
  if (scene.clamp()) return fmt::format("95 of 100 reach {} or more{}.", scene.his(it.low, m.dimension), where);
  return fmt::format("95 of 100 need no more than {}{}.", scene.his(it.high, m.dimension), where);
}

}  // namespace

Figure chance(const Scene& scene) {
  const Measure m = measure(scene);
  const std::vector<double>& values = scene.row(m.output);
  const bool rising = !scene.clamp(), over = scene.clamp() && has_overload(scene);
  const Reach3 it = three(values);
  const Unit unit = unit_for(scene.his, it.middle, m.dimension);
  double least = quantile(values, 0.001), most = quantile(values, 0.999);
  const std::vector<double>& overload = scene.row(Output::overload_force);
  const std::optional<double> breaks = over ? breaking_force(scene) : std::nullopt;
  if (over) most = std::max(most, quantile(overload, 0.999));
  if (m.wall) least = std::min(least, *m.wall), most = std::max(most, *m.wall);
  if (breaks && *breaks < 1.6 * most) most = std::max(most, *breaks);
  const double room = most > least ? 0.06 * (most - least) : 0.1 * std::abs(most);
  const double from = std::max(0.0, least - room) * unit.scale, to = (most + room) * unit.scale;

  Figure figure{"chance", true, chance_sentence(scene, m), "", "", {}, {}};
  figure.alt = fmt::format("Share of 100 {} against {}: 95 at {}, 50 at {}, 5 at {}.", say::hundred_of(scene.answer),
                           m.name, scene.his(rising ? it.high : it.low, m.dimension), scene.his(it.middle, m.dimension),
                           scene.his(rising ? it.low : it.high, m.dimension));
  figure.note = "At the foot, how the passes are spread.";
  Json lines = Json::array(
      {line(over ? "working pull" : say::hundred_of(scene.answer), "working", shares(values, unit, rising))});
  Json bars = histogram(values, unit, "working", from, to);
  Json marks = Json::array();
  const auto mark = [&](double si, double y, const char* pen) {
    if (std::isfinite(si))
      marks.push_back({{"x", si * unit.scale}, {"y", y}, {"label", figures(si * unit.scale)}, {"pen", pen}});
  };
  if (it.low < it.high)
    mark(it.low, rising ? 5 : 95, "working"), mark(it.middle, 50, "working"), mark(it.high, rising ? 95 : 5, "working");
  figure.numbers.head = {"In 100", over ? "Working pull" : say::capital(m.name)};
  figure.numbers.rows = {
      {rising ? "95 need no more than" : "95 reach", both(scene.his, rising ? it.high : it.low, m.dimension)},
      {rising ? "50 need no more than" : "50 reach", both(scene.his, it.middle, m.dimension)},
      {rising ? "5 need no more than" : "5 reach", both(scene.his, rising ? it.low : it.high, m.dimension)}};
  if (over) {
    const Reach3 pulled = three(overload);
    lines.push_back(line("overload pull", "overload", shares(overload, unit, rising)));
    for (Json& bar : histogram(overload, unit, "overload", from, to)) bars.push_back(std::move(bar));
    mark(pulled.low, 95, "overload"), mark(pulled.middle, 50, "overload"), mark(pulled.high, 5, "overload");
    figure.numbers.head.emplace_back("Overload pull");
    const double levels[] = {pulled.low, pulled.middle, pulled.high};
    for (std::size_t i = 0; i < 3; ++i) figure.numbers.rows[i].push_back(both(scene.his, levels[i], m.dimension));
  }
  Json walls = Json::array();
  if (m.wall) walls.push_back(wall("x", *m.wall * unit.scale, rising ? 1 : -1, m.wall_label));
  if (breaks && *breaks * unit.scale < to)
    walls.push_back(
        wall("x", *breaks * unit.scale, 1, say::breaks_words(*models::must_named(scene.answer.reached.front().limit))));
  figure.data = {{"kind", "lines"},
                 {"wide", true},
                 {"height", 270},
                 {"x", axis(m.name, &unit, from, to)},
                 {"y", axis(rising ? "in 100 at most" : "in 100 at least", nullptr, 0, 100)},
                 {"lines", lines},
                 {"walls", walls},
                 {"bars", bars},
                 {"marks", marks}};
  return figure;
}

namespace {

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

std::string handle_sentence(const Scene& scene, const Measure& m, const Swept& s, double now) {
  if (!m.wall || !(now > 0)) return fmt::format("What a change of the {} does.", s.name);
  const std::vector<double> at = scaled(scene, m.output, 1);
  if (scene.clamp() || s.dimension == Dimension::length) {
    // The times at which 95 of 100 just do.
    double low = 0.02, high = 50;
    const auto enough = [&](double times) {
      const std::vector<double> v = scaled(scene, m.output, times);
      return scene.clamp() ? quantile(v, 0.05) >= *m.wall : quantile(v, 0.95) <= *m.wall;
    };
    if (!enough(high)) return fmt::format("No {} would do.", s.name);
    for (int i = 0; i < 40; ++i) {
      const double middle = std::sqrt(low * high);
      (enough(middle) ? high : low) = middle;
    }
    return fmt::format("A {} of {} would do in 95 of 100; here it is {}.", s.name, scene.his(high * s.now, s.dimension),
                       scene.his(s.now, s.dimension));
  }
  return fmt::format("What another {} would take.", s.name);
}

}  // namespace

std::optional<Figure> handle(const Scene& scene) {
  const Measure m = measure(scene);
  const std::optional<Swept> s = swept(scene);
  if (!s || !(s->now > 0) || !std::isfinite(s->now)) return std::nullopt;
  const Unit x = unit_for(scene.his, s->now, s->dimension),
             y = unit_for(scene.his, three(scene.row(m.output)).middle, m.dimension);
  Points low, middle, high;
  Table numbers{{say::capital(s->name), "95 of 100", "50 of 100", "5 of 100"}, {}};
  double top = m.wall.value_or(0);
  constexpr int steps = 24;
  for (int i = 0; i <= steps; ++i) {
    const double times = 0.5 + 1.25 * i / steps;
    const Reach3 it = three(scaled(scene, m.output, times));
    if (!std::isfinite(it.high)) return std::nullopt;
    const double at = times * s->now * x.scale;
    low.emplace_back(at, it.low * y.scale), middle.emplace_back(at, it.middle * y.scale),
        high.emplace_back(at, it.high * y.scale);
    top = std::max(top, it.high);
    const double first = scene.clamp() ? it.low : it.high, last = scene.clamp() ? it.high : it.low;
    if (i % 6 == 0)
      numbers.rows.push_back({both(scene.his, times * s->now, s->dimension), both(scene.his, first, m.dimension),
                              both(scene.his, it.middle, m.dimension), both(scene.his, last, m.dimension)});
  }
  Figure figure{"handle", false, handle_sentence(scene, m, *s, s->now), "", "", std::move(numbers), {}};
  figure.alt = fmt::format("{} against the {}, for 95, 50 and 5 of 100.", say::capital(m.name), s->name);
  const bool falls = scene.clamp();
  Json lines = Json::array({line(falls ? "95 of 100" : "5 of 100", falls ? "working" : "soft", low),
                            line("50 of 100", "soft", middle),
                            line(falls ? "5 of 100" : "95 of 100", falls ? "soft" : "working", high)});
  Json walls = Json::array();
  if (m.wall) walls.push_back(wall("y", *m.wall * y.scale, falls ? -1 : 1, m.wall_label));
  figure.data = {
      {"kind", "lines"},
      {"wide", false},
      {"height", 234},
      {"x", axis(s->name, &x, 0.5 * s->now * x.scale, 1.75 * s->now * x.scale)},
      {"y", axis(m.name, &y, 0, rounded_up(1.02 * top * y.scale))},
      {"lines", lines},
      {"walls", walls},
      {"here",
       Json::array({{{"on", "x"}, {"at", s->now * x.scale}, {"label", "here " + scene.his(s->now, s->dimension)}}})}};
  return figure;
}

namespace {

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

}  // namespace

std::optional<Figure> reach(const Scene& scene) {
  if (!scene.free_length()) return std::nullopt;
  const double root = scene.design.thread.root_diameter, length = *scene.free_length(),
               load = scene.at_nominal(Output::force);
  if (!(load > 0) || !std::isfinite(load)) return std::nullopt;
  double margin = 1;
  if (const LimitVerdict* v = verdict_on(scene.answer, {models::Must::buckling})) margin = v->limit.least_margin();
  std::vector<std::pair<std::string, double>> screws = {{scene.answer.pick->designation, root}};
  for (const auto& next : {scene.answer.next_size_down, scene.answer.next_size_up})
    if (next) screws.emplace_back(next->verdict.designation, next->verdict.design.thread.root_diameter);
  const Unit x = unit_for(scene.his, length, Dimension::length), y = unit_for(scene.his, load, Dimension::force);
  const std::optional<double> to = borne_to(scene, root, load, margin);
  const double last = std::min(3 * length, std::max(1.7 * length, 1.2 * to.value_or(length)));
  const double top =
      rounded_up(std::max(1.4 * load, std::min(3.2 * load, borne(scene, root, 0.6 * length, margin))) * y.scale);
  Json lines = Json::array();
  Table numbers{{"Size", "Free length to"}, {}};
  for (std::size_t k = 0; k < screws.size(); ++k) {
    Points points;
    for (int i = 0; i <= 48; ++i) {
      const double l = 0.5 * length + (last - 0.5 * length) * i / 48;
      points.emplace_back(l * x.scale, borne(scene, screws[k].second, l, margin) * y.scale);
    }
    lines.push_back(line(screws[k].first, k == 0 ? "working" : "soft", points));
    const auto until = borne_to(scene, screws[k].second, load, margin);
    numbers.rows.push_back({screws[k].first, until ? both(scene.his, *until, Dimension::length) : "none"});
  }
  Figure figure{"reach", false, "", "", "", std::move(numbers), {}};
  const std::string with = margin == 1 ? "" : fmt::format(" with the margin of {}", figures(margin));
  figure.says = to ? fmt::format("At {} this screw may be {} long between nut and load{}; here it is {}.",
                                 scene.his(load, Dimension::force), scene.his(*to, Dimension::length), with,
                                 scene.his(length, Dimension::length))
                   : fmt::format("At {} this screw bears no free length{}.", scene.his(load, Dimension::force), with);
  figure.alt = fmt::format("Load that keeps the buckling margin against the free length, of {}.", say::list_of([&] {
                             std::vector<std::string> names;
                             for (const auto& [name, d3] : screws) names.push_back(name);
                             return names;
                           }()));
  figure.data = {
      {"kind", "lines"},
      {"wide", false},
      {"height", 234},
      {"x", axis("free length", &x, 0.5 * length * x.scale, last * x.scale)},
      {"y", axis("load", &y, 0, top)},
      {"lines", lines},
      {"walls", Json::array({wall("y", load * y.scale, -1,
                                  scene.his(load, Dimension::force) + (scene.clamp() ? " nominal" : " load"))})},
      {"here",
       Json::array(
           {{{"on", "x"}, {"at", length * x.scale}, {"label", "here " + scene.his(length, Dimension::length)}}})}};
  return figure;
}

}  // namespace studies::sheet
