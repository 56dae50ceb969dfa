/// First to go: in how many of a hundred each part has broken as the torque rises.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "studies/say/words.hpp"
#include "studies/sheet/figures.hpp"

namespace studies::sheet {
namespace {

using engine::Dimension;
using models::Output;

struct BreakingPart {
  const char* name;
  double models::Parts::*part;
};
constexpr BreakingPart parts[] = {{"yield", &models::Parts::yield},
                                  {"thread_root", &models::Parts::thread_root},
                                  {"nut_body", &models::Parts::nut_body},
                                  {"buckling", &models::Parts::buckling},
                                  {"stripping", &models::Parts::stripping}};

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

/// The torque up to which the chart goes [N·m]: past the working and the overload pull and the first parts to go.
double last_torque(const Scene& scene, double working) {
  const std::vector<Reached>& reached = scene.answer.reached;
  double top = std::max(1.6 * reached.front().torque, 1.15 * working);
  if (scene.study.duty.overload) top = std::max(top, 1.15 * scene.study.duty.overload->torque);
  for (const Reached& it : reached)
    if (it.torque < 2.5 * reached.front().torque) top = std::max(top, 1.35 * it.torque);
  return top;
}

std::vector<double> torques_to(double top) {
  constexpr int steps = 60;
  std::vector<double> torques;
  for (int i = 0; i <= steps; ++i) torques.push_back(top * i / steps);
  return torques;
}

}  // namespace

std::optional<Figure> first_to_go(const Scene& scene) {
  const double working = scene.at_nominal(Output::torque);
  const std::vector<Reached>& reached = scene.answer.reached;
  if (reached.empty() || !std::isfinite(reached.front().torque) || !std::isfinite(working)) return std::nullopt;
  const double top = last_torque(scene, working);
  const std::vector<double> torques = torques_to(top);
  const Unit unit = unit_for(scene.his, reached.front().torque, Dimension::torque);
  LinesData data{false, 234, axis("torque on the screw", &unit, 0, top * unit.scale), axis("in 100", nullptr, 0, 100)};
  Table numbers{{"What", "In half of them at"}, {}};
  const char* const pens[] = {"working", "overload", "other", "other", "other"};
  for (const Reached& it : reached) {
    const auto part =
        std::find_if(std::begin(parts), std::end(parts), [&](const BreakingPart& p) { return p.name == it.limit; });
    const std::vector<double> shares = broken(scene, part->part, torques);
    if (shares.back() <= 0) continue;
    Points points;
    for (std::size_t i = 0; i < torques.size(); ++i) points.emplace_back(torques[i] * unit.scale, shares[i]);
    const double half = half_at(torques, shares);
    const std::string words = say::breaks_words(*models::must_named(it.limit));
    data.lines.push_back(line(words, pens[data.lines.size()], points));
    numbers.rows.push_back({words, std::isfinite(half) ? both(scene.his, half, Dimension::torque)
                                                       : "beyond " + scene.his(top, Dimension::torque)});
  }
  if (data.lines.empty()) return std::nullopt;
  const auto stands = [&](const char* what, double torque) {
    data.here.push_back(here(torque * unit.scale, what + scene.his(torque, Dimension::torque)));
  };
  stands("working ", working);
  if (scene.study.duty.overload) stands("overload ", scene.study.duty.overload->torque);
  return Figure{"first",
                false,
                fmt::format("As the pull grows, {} first: at {} with everything nominal.",
                            say::breaks_words(*models::must_named(reached.front().limit)),
                            scene.his(reached.front().torque, Dimension::torque)),
                "In how many of 100 each part has broken, against the torque on the screw.",
                "",
                std::move(numbers),
                data.json()};
}

}  // namespace studies::sheet
