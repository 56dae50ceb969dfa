/// The ladder of margins: every limit, working and overload pull side by side.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "studies/say/limits.hpp"
#include "studies/say/words.hpp"
#include "studies/sheet/figures.hpp"

namespace studies::sheet {
namespace {

using engine::Dimension;
using models::Must;

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
  if (!scene.clamp()) figure.data["pens"] = {{"working", "working load"}, {"overload", "overload pull"}};
  return figure;
}

}  // namespace studies::sheet
