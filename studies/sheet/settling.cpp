/// How the shortfall settled as passes were added.
#include <fmt/format.h>

#include <algorithm>

#include "engine/base/format.hpp"
#include "engine/pass/survey.hpp"
#include "studies/ask/fresh.hpp"
#include "studies/ask/matter.hpp"
#include "studies/say/figures.hpp"
#include "studies/say/limits.hpp"
#include "studies/sheet/figures.hpp"

namespace studies::sheet {
namespace {

/// A shortfall [of 100] after so many passes.
struct Step {
  std::uint64_t passes = 0;
  Bounded missed;
};

/// The same limit on fewer passes of the same plan.
Step shorter(const Scene& scene, std::size_t limit, std::uint64_t count, const engine::Running& running) {
  Study few = scene.study;
  few.passes.settle.reset();
  few.passes.count = count;
  engine::Ask ask;
  ask.thresholds.push_back({models::output_count + limit, scene.study.limits[limit].least_margin()});
  const engine::Survey survey = engine::survey(fresh_plan(few, scene.inputs.law, std::nullopt), scene.inputs.law,
                                               scene.model, ask, scene.study.passes.key, running);
  const double hit = static_cast<double>(survey.hits[0]) / static_cast<double>(survey.passes);
  return {survey.passes, {100 * (1 - survey.odds[0].high), 100 * (1 - hit), 100 * (1 - survey.odds[0].low)}};
}

/// Ever more passes, the answer's own last; nothing where it made too few for a picture.
std::vector<Step> steps_of(const Scene& scene, const LimitVerdict& turning, const engine::Running& running) {
  constexpr std::uint64_t fewest = 1024, most = 262144;
  const auto limit = static_cast<std::size_t>(&turning - scene.answer.limits.data());
  std::vector<Step> steps;
  for (std::uint64_t count = fewest; count <= std::min(scene.answer.passes / 2, most); count *= 2)
    steps.push_back(shorter(scene, limit, count, running));
  if (!steps.empty()) steps.push_back({scene.answer.passes, say::shortfall(turning)});
  return steps;
}

}  // namespace

std::optional<Figure> settling(const Scene& scene, const engine::Running& running) {
  const LimitVerdict* const turning = turning_point(scene.answer);
  if (!turning || !turning->limit.odds || turning->misses == 0) return std::nullopt;
  const std::vector<Step> steps = steps_of(scene, *turning, running);
  if (steps.empty()) return std::nullopt;
  const double allowed = say::allowed_of_hundred(*turning->limit.odds);
  Points points;
  Json band = Json::array();
  Table numbers{{"Passes", "Short in 100", "95 % bounds"}, {}};
  double top = allowed;
  for (const Step& step : steps) {
    const auto n = static_cast<double>(step.passes);
    points.emplace_back(n, step.missed.estimate);
    band.push_back({n, step.missed.low, step.missed.high});
    const say::Said said = say::said(step.missed, allowed);
    numbers.rows.push_back({engine::count_in_full(step.passes), said.estimate, said.low + " to " + said.high});
    top = std::max(top, std::min(1.5 * std::max(allowed, step.missed.estimate), step.missed.high));
  }
  Json one = line("", "working", points);
  one["band"] = std::move(band);
  one["symbols"] = true;
  LinesData data{false, 190, axis("passes", nullptr, points.front().first, points.back().first, true),
                 axis("short, in 100", nullptr, 0, rounded_up(1.1 * top))};
  data.lines.push_back(std::move(one));
  data.walls.push_back(wall("y", allowed, 1, say::given_number(allowed) + " allowed"));
  const std::string says =
      fmt::format("Settled: the shortfall of {} is {} in 100, where {} are allowed.", say::row_words(turning->limit),
                  say::said(steps.back().missed, allowed).estimate, say::given_number(allowed));
  return Figure{"settling", false,
                says,       says + " The estimate and its 95 % bounds against the number of passes.",
                "",         std::move(numbers),
                data.json()};
}

}  // namespace studies::sheet
