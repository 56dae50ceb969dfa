/// The sizes that hold, and what every size has of every limit.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "studies/say/limits.hpp"
#include "studies/say/window.hpp"
#include "studies/say/words.hpp"
#include "studies/sheet/figures.hpp"

namespace studies::sheet {
namespace {

using engine::Dimension;
using models::Must;

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

/// One limit over all sizes: what is judged over what is asked.
Points ratios(const Scene& scene, std::size_t limit) {
  const std::vector<Neighbour>& sizes = scene.answer.window;
  Points points;
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    if (limit >= sizes[i].verdict.at_odds.size()) continue;
    const double ratio = over_asked(scene.study.limits[limit], sizes[i].verdict.at_odds[limit]);
    if (std::isfinite(ratio) && ratio > 0) points.emplace_back(static_cast<double>(i), std::clamp(ratio, 0.05, 50.0));
  }
  return points;
}

Json size_names(const Scene& scene) {
  const Unit mass = unit_for(scene.his, scene.answer.pick->mass, Dimension::mass);
  Json names = Json::array();
  for (const Neighbour& size : scene.answer.window)
    names.push_back({{"label", size.verdict.designation},
                     {"second", fmt::format("{} {}", figures(size.verdict.mass * mass.scale), mass.own)},
                     {"holds", holds(size)}});
  return names;
}

Table size_numbers(const Scene& scene) {
  Table numbers{{"Size", "Mass", "Misses"}, {}};
  for (const Neighbour& size : scene.answer.window) {
    std::vector<std::string> missed = say::limit_words(size.misses);
    if (size.verdict.ruled_out) missed = {size.verdict.why};
    numbers.rows.push_back({size.verdict.designation, both(scene.his, size.verdict.mass, Dimension::mass),
                            missed.empty() ? "nothing" : say::list_of(missed)});
  }
  return numbers;
}

std::string window_sentence(const Answer& answer) {
  const std::string words = say::window_words(answer), opening = "Window: ";
  if (words.empty()) return "The sizes beside the pick.";
  return words.rfind(opening, 0) == 0 ? say::capital(words.substr(opening.size())) : words;
}

}  // namespace

std::optional<Figure> window(const Scene& scene) {
  const std::vector<Neighbour>& sizes = scene.answer.window;
  if (sizes.size() < 2) return std::nullopt;
  double least = 0.5, most = 2;
  const std::vector<Must> walls = bounding(sizes);
  LinesData data{true, 270, axis("", nullptr, 0, static_cast<double>(sizes.size() - 1))};
  for (const std::size_t k : lines_worth(scene)) {
    const Points points = ratios(scene, k);
    if (points.size() < 2) continue;
    const bool bounds = std::find(walls.begin(), walls.end(), scene.study.limits[k].must) != walls.end();
    Json one = line(say::row_words(scene.study.limits[k]), bounds ? "working" : "other", points);
    one["symbols"] = true;
    one["bold"] = bounds;
    data.lines.push_back(std::move(one));
    for (const auto& [i, ratio] : points) least = std::min(least, ratio), most = std::max(most, ratio);
  }
  if (data.lines.empty()) return std::nullopt;
  data.names = size_names(scene);
  data.y = axis("has ÷ asked", nullptr, std::max(0.1, 0.85 * least), std::min(12.0, 1.2 * most), true);
  data.walls.push_back(wall("y", 1, -1, "asked"));
  const std::string says = window_sentence(scene.answer);
  return Figure{"window",
                true,
                says,
                fmt::format("What each of {} sizes has of every limit over what is asked. {}", sizes.size(), says),
                "Each size with its own best nut; the value judged over the value asked.",
                size_numbers(scene),
                data.json()};
}

}  // namespace studies::sheet
