/// What must hold: the ladder of margins, the sizes that hold, and what the nut's length does.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "studies/ask/judge.hpp"
#include "studies/say/limits.hpp"
#include "studies/say/window.hpp"
#include "studies/say/words.hpp"
#include "studies/sheet/figures.hpp"

namespace studies::sheet {
namespace {

using engine::Dimension;
using models::Must;

/// What a limit has over what is asked, from its margin.
double over_asked(const models::Limit& limit, double margin) { return margin / limit.least_margin(); }

/// The margin that goes with what a verdict has.
double margin_of(const LimitVerdict& v) {
  if (v.limit.kind == models::Limit::Kind::margin) return v.has;
  return v.limit.kind == models::Limit::Kind::at_least ? v.has / v.limit.asked : v.limit.asked / v.has;
}

/// A part that both a limit and the overload pull judge.
std::optional<double models::Parts::*> part_of(Must must) {
  switch (must) {
    case Must::yield:
      return &models::Parts::yield;
    case Must::thread_root:
      return &models::Parts::thread_root;
    case Must::buckling:
      return &models::Parts::buckling;
    case Must::stripping:
      return &models::Parts::stripping;
    case Must::nut_body:
      return &models::Parts::nut_body;
    default:
      return std::nullopt;
  }
}

Json state(const char* pen, double nominal, double low, double high, std::optional<double> judged) {
  return {{"pen", pen},
          {"nominal", nominal},
          {"q05", low},
          {"q95", high},
          {"judged", judged ? Json(*judged) : Json(nullptr)}};
}

/// How a part stands at the overload pull, over a margin of 1.
std::optional<Json> at_overload(const Scene& scene, Must must) {
  const auto part = part_of(must);
  if (!part || !scene.study.duty.overload) return std::nullopt;
  const double torque = scene.study.duty.overload->torque;
  constexpr std::size_t stride = 8;  // enough for the ends of a whisker
  std::vector<double> margins;
  for (std::size_t i = 0; i < scene.passes(); i += stride)
    margins.push_back(scene.model.parts_at(torque, scene.pass(i)).*(*part));
  const double nominal = scene.model.parts_at(torque, scene.inputs.nominal).*(*part);
  const double low = quantile(margins, 0.05), high = quantile(margins, 0.95);
  if (!std::isfinite(nominal) || !std::isfinite(high)) return std::nullopt;
  return state("overload", nominal, low, high, std::nullopt);
}

std::string sub_words(const Scene& scene, const LimitVerdict& v) {
  const std::string asked = say::asked_words(v.limit, scene.his);
  const std::string what = v.limit.kind == models::Limit::Kind::margin    ? "margin " + asked
                           : v.limit.kind == models::Limit::Kind::at_most ? asked + " at most"
                                                                          : asked;
  return what + ", " + say::surely(v.limit);
}

std::string ladder_sentence(const Answer& answer) {
  std::vector<std::string> missed;
  for (const LimitVerdict* v : say::by_spare(answer))
    if (!v->holds) missed.push_back(say::row_words(v->limit));
  if (!missed.empty()) return fmt::format("Left of the line is what is missed: {}.", say::list_of(missed));
  const LimitVerdict& least = *say::by_spare(answer).front();
  return fmt::format("Everything lies right of the line; {} has least to spare, {}.", say::row_words(least.limit),
                     say::spare_words(least.spare));
}

}  // namespace

std::optional<Figure> ladder(const Scene& scene) {
  Json rungs = Json::array();
  Table numbers{{"Limit", "Pull", "5 % to 95 %, over what is asked", "Nominal", "Judged"}, {}};
  for (const LimitVerdict* v : say::by_spare(scene.answer)) {
    const OutputSummary& margin =
        scene.answer.outputs[models::output_count + static_cast<std::size_t>(v - scene.answer.limits.data())];
    const double nominal = over_asked(v->limit, margin.nominal), judged = over_asked(v->limit, margin_of(*v));
    double low = over_asked(v->limit, margin.quantiles[2].estimate),
           high = over_asked(v->limit, margin.quantiles[6].estimate);
    if (!std::isfinite(nominal) || !std::isfinite(judged)) continue;
    if (!std::isfinite(low)) low = nominal;
    if (!std::isfinite(high)) high = nominal;
    const bool overload = v->limit.must == Must::overload;
    Json states = Json::array({state(overload ? "overload" : "working", nominal, low, high, judged)});
    if (auto pulled = at_overload(scene, v->limit.must)) states.push_back(std::move(*pulled));
    for (const Json& it : states)
      numbers.rows.push_back({say::row_words(v->limit), it["pen"] == "working" ? "working" : "overload",
                              figures(it["q05"]) + " to " + figures(it["q95"]), figures(it["nominal"]),
                              it["judged"].is_null() ? "not judged" : figures(it["judged"])});
    rungs.push_back({{"label", say::row_words(v->limit)},
                     {"sub", sub_words(scene, *v)},
                     {"holds", v->holds},
                     {"spare", say::spare_words(v->spare)},
                     {"states", std::move(states)}});
  }
  if (rungs.empty()) return std::nullopt;
  Figure figure{"ladder", true, ladder_sentence(scene.answer), "", "", std::move(numbers), {}};
  figure.alt = fmt::format(
      "Every limit: what the screw has over what is asked, {} limits, {} of them missed.", rungs.size(),
      std::count_if(scene.answer.limits.begin(), scene.answer.limits.end(), [](const auto& v) { return !v.holds; }));
  figure.note =
      "Marks: nominal. Bars: 5 to 95 of 100. The triangle marks what is judged. An overload pull is held against 1.";
  figure.data = {{"kind", "ladder"}, {"rungs", std::move(rungs)}};
  return figure;
}

namespace {

/// The limits of a window that are worth a line: those that some size misses first, and the nearest of the others.
std::vector<std::size_t> lines_worth(const Scene& scene) {
  const std::vector<Neighbour>& sizes = scene.answer.window;
  std::vector<std::pair<double, std::size_t>> near;
  for (std::size_t k = 0; k < scene.study.limits.size(); ++k) {
    double least = INFINITY;
    for (const Neighbour& size : sizes)
      if (k < size.verdict.at_odds.size())
        least = std::min(least, over_asked(scene.study.limits[k], size.verdict.at_odds[k]));
    if (std::isfinite(least) && least < 6) near.emplace_back(least, k);
  }
  std::sort(near.begin(), near.end());
  if (near.size() > 7) near.resize(7);
  std::vector<std::size_t> lines;
  for (const auto& [least, k] : near) lines.push_back(k);
  return lines;
}

bool holds(const Neighbour& size) { return size.verdict.passes; }

/// The limits that bound the sizes that hold: missed by one beside them.
std::vector<Must> bounding(const std::vector<Neighbour>& sizes) {
  std::vector<Must> all;
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    const bool beside = (i > 0 && holds(sizes[i - 1])) || (i + 1 < sizes.size() && holds(sizes[i + 1]));
    if (beside && !holds(sizes[i])) all.insert(all.end(), sizes[i].misses.begin(), sizes[i].misses.end());
  }
  return all;
}

}  // namespace

std::optional<Figure> window(const Scene& scene) {
  const std::vector<Neighbour>& sizes = scene.answer.window;
  if (sizes.size() < 2) return std::nullopt;
  Json names = Json::array(), lines = Json::array();
  Table numbers{{"Size", "Mass", "Misses"}, {}};
  const Unit mass = unit_for(scene.his, scene.answer.pick->mass, Dimension::mass);
  for (const Neighbour& size : sizes) {
    names.push_back({{"label", size.verdict.designation},
                     {"second", fmt::format("{} {}", figures(size.verdict.mass * mass.scale), mass.own)},
                     {"holds", holds(size)}});
    std::vector<std::string> missed = say::limit_words(size.misses);
    if (size.verdict.ruled_out) missed = {size.verdict.why};
    numbers.rows.push_back({size.verdict.designation, both(scene.his, size.verdict.mass, Dimension::mass),
                            missed.empty() ? "nothing" : say::list_of(missed)});
  }
  double least = 0.5, most = 2;
  const std::vector<Must> walls = bounding(sizes);
  for (const std::size_t k : lines_worth(scene)) {
    Points points;
    const bool bounds = std::find(walls.begin(), walls.end(), scene.study.limits[k].must) != walls.end();
    for (std::size_t i = 0; i < sizes.size(); ++i) {
      if (k >= sizes[i].verdict.at_odds.size()) continue;
      const double ratio = over_asked(scene.study.limits[k], sizes[i].verdict.at_odds[k]);
      if (!std::isfinite(ratio) || !(ratio > 0)) continue;
      points.emplace_back(static_cast<double>(i), std::clamp(ratio, 0.05, 50.0));
      least = std::min(least, ratio), most = std::max(most, ratio);
    }
    if (points.size() < 2) continue;
    Json one = line(say::row_words(scene.study.limits[k]), bounds ? "working" : "other", points);
    one["symbols"] = true;
    one["bold"] = bounds;
    lines.push_back(std::move(one));
  }
  if (lines.empty()) return std::nullopt;
  std::string says = say::window_words(scene.answer);
  if (says.rfind("Window: ", 0) == 0) says = say::capital(says.substr(8));
  Figure figure{"window", true, says, "", "", std::move(numbers), {}};
  if (figure.says.empty()) figure.says = "The sizes beside the pick.";
  figure.alt = fmt::format("What each of {} sizes has of every limit over what is asked. {}", sizes.size(),
                           say::window_words(scene.answer));
  figure.note = "Each size with its own best nut; the value judged over the value asked.";
  figure.data = {{"kind", "lines"},
                 {"wide", true},
                 {"height", 270},
                 {"x", axis("", nullptr, 0, static_cast<double>(sizes.size() - 1))},
                 {"names", std::move(names)},
                 {"y", axis("has ÷ asked", nullptr, std::max(0.1, 0.85 * least), std::min(12.0, 1.2 * most), true)},
                 {"lines", std::move(lines)},
                 {"walls", Json::array({wall("y", 1, -1, "asked")})}};
  return figure;
}

namespace {

bool of_nut_length(Must must) {
  return must == Must::bearing || must == Must::stripping || must == Must::nut_body || must == Must::thread_root ||
         must == Must::mass;
}

}  // namespace

std::optional<Figure> nut_length(const Scene& scene, const engine::Running& running) {
  std::vector<std::size_t> which;
  for (std::size_t k = 0; k < scene.study.limits.size(); ++k)
    if (of_nut_length(scene.study.limits[k].must)) which.push_back(k);
  if (which.empty()) return std::nullopt;
  const SharedPasses shared(scene.study, engine::Plan::Kind::sobol, 16384, engine::Stream::search, running.interrupted);
  const double now = scene.design.nut_length, pitch = scene.design.thread.pitch;
  const Unit x = unit_for(scene.his, now, Dimension::length);
  const double from = std::max(pitch, 0.4 * now), to = 1.8 * now;
  constexpr int steps = 14;
  std::vector<Points> lines(which.size());
  Table numbers{{"Nut", "Mass"}, {}};
  for (const std::size_t k : which) numbers.head.push_back(say::capital(say::row_words(scene.study.limits[k])));
  double least = 1, most = 1;
  for (int i = 0; i <= steps; ++i) {
    models::Design design = scene.design;
    design.nut_length = from + (to - from) * i / steps;
    const Candidate candidate = candidate_of(design);
    const Judgement judged = shared.judge(candidate, design, asked_odds(scene.study));
    const double mass =
        shared.nominal(candidate, shared.model(candidate, design))[static_cast<std::size_t>(models::Output::mass)];
    std::vector<std::string> row = {both(scene.his, design.nut_length, Dimension::length),
                                    both(scene.his, mass, Dimension::mass)};
    for (std::size_t l = 0; l < which.size(); ++l) {
      const double ratio = over_asked(scene.study.limits[which[l]], judged.judged[which[l]]);
      row.push_back(figures(ratio));
      if (!std::isfinite(ratio) || !(ratio > 0)) continue;
      lines[l].emplace_back(design.nut_length * x.scale, ratio);
      least = std::min(least, ratio), most = std::max(most, ratio);
    }
    if (i % 2 == 0) numbers.rows.push_back(std::move(row));
  }
  Json drawn = Json::array();
  std::optional<std::pair<double, std::size_t>> tightest;
  for (std::size_t l = 0; l < which.size(); ++l) {
    if (lines[l].size() < 2) continue;
    Json one = line(say::row_words(scene.study.limits[which[l]]), "working", lines[l]);
    if (l > 0) one["pen"] = l == 1 ? "overload" : "other";
    drawn.push_back(std::move(one));
    const double at_short = lines[l].front().second;
    if (!tightest || at_short < tightest->first) tightest = {at_short, which[l]};
  }
  if (drawn.empty()) return std::nullopt;
  Figure figure{"nut", false, "", "", "", std::move(numbers), {}};
  figure.says =
      tightest->first < 1
          ? fmt::format("A shorter nut gives out by {} first; here it is {} long.",
                        say::row_words(scene.study.limits[tightest->second]), scene.his(now, Dimension::length))
          : fmt::format("Even a nut of {} holds; here it is {} long.", scene.his(from, Dimension::length),
                        scene.his(now, Dimension::length));
  figure.alt = "What the limits of the nut have over what is asked, against its length.";
  figure.note = "Coulomb friction knows no nut length: force and torque stay as they are.";
  figure.data = {
      {"kind", "lines"},
      {"wide", false},
      {"height", 234},
      {"x", axis("length of the nut", &x, from * x.scale, to * x.scale)},
      {"y", axis("has ÷ asked", nullptr, std::max(0.05, 0.8 * least), std::min(40.0, 1.3 * most), true)},
      {"lines", std::move(drawn)},
      {"walls", Json::array({wall("y", 1, -1, "asked")})},
      {"here",
       Json::array({{{"on", "x"}, {"at", now * x.scale}, {"label", "here " + scene.his(now, Dimension::length)}}})}};
  return figure;
}

}  // namespace studies::sheet
