/// What the limits have at other lengths of the nut.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "studies/ask/judge.hpp"
#include "studies/say/limits.hpp"
#include "studies/say/words.hpp"
#include "studies/sheet/figures.hpp"

namespace studies::sheet {
namespace {

using engine::Dimension;
using models::Must;

bool of_nut_length(Must must) {
  return must == Must::bearing || must == Must::stripping || must == Must::nut_body || must == Must::thread_root ||
         must == Must::mass;
}

/// The limits that go by the length of the nut, as places among the study's.
std::vector<std::size_t> limits_of_nut(const Study& study) {
  std::vector<std::size_t> all;
  for (std::size_t k = 0; k < study.limits.size(); ++k)
    if (of_nut_length(study.limits[k].must)) all.push_back(k);
  return all;
}

/// One nut: its mass, and what each of the limits has over what is asked.
struct Nut {
  double length = 0, mass = 0;
  std::vector<double> ratios;
};

std::vector<Nut> nuts(const Scene& scene, const std::vector<std::size_t>& limits, double from, double to,
                      const engine::Running& running) {
  constexpr std::uint64_t passes = 16384;
  constexpr int steps = 14;
  const SharedPasses shared(scene.study, engine::Plan::Kind::sobol, passes, engine::Stream::search,
                            running.interrupted);
  std::vector<Nut> all;
  for (int i = 0; i <= steps; ++i) {
    models::Design design = scene.design;
    design.nut_length = from + (to - from) * i / steps;
    const Candidate candidate = candidate_of(design);
    const Judgement judged = shared.judge(candidate, design, asked_odds(scene.study));
    const auto nominal = shared.nominal(candidate, shared.model(candidate, design));
    Nut nut{design.nut_length, nominal[static_cast<std::size_t>(models::Output::mass)], {}};
    for (const std::size_t k : limits) nut.ratios.push_back(over_asked(scene.study.limits[k], judged.judged[k]));
    all.push_back(std::move(nut));
  }
  return all;
}

Table numbers_of(const Scene& scene, const std::vector<std::size_t>& limits, const std::vector<Nut>& all) {
  Table table{{"Nut", "Mass"}, {}};
  for (const std::size_t k : limits) table.head.push_back(say::capital(say::row_words(scene.study.limits[k])));
  for (std::size_t i = 0; i < all.size(); i += 2) {
    std::vector<std::string> row = {both(scene.his, all[i].length, Dimension::length),
                                    both(scene.his, all[i].mass, Dimension::mass)};
    for (const double ratio : all[i].ratios) row.push_back(figures(ratio));
    table.rows.push_back(std::move(row));
  }
  return table;
}

/// What the shortest nut misses first, or that it holds.
std::string nut_sentence(const Scene& scene, const std::vector<std::size_t>& limits, const Nut& shortest) {
  const auto least = std::min_element(shortest.ratios.begin(), shortest.ratios.end());
  const std::string now = scene.his(scene.design.nut_length, Dimension::length);
  if (!(*least < 1))
    return fmt::format("Even a nut of {} holds; here it is {} long.", scene.his(shortest.length, Dimension::length),
                       now);
  const models::Limit& limit = scene.study.limits[limits[static_cast<std::size_t>(least - shortest.ratios.begin())]];
  return fmt::format("A shorter nut gives out by {} first; here it is {} long.", say::row_words(limit), now);
}

}  // namespace

std::optional<Figure> nut_length(const Scene& scene, const engine::Running& running) {
  const std::vector<std::size_t> limits = limits_of_nut(scene.study);
  if (limits.empty()) return std::nullopt;
  const double now = scene.design.nut_length, from = std::max(scene.design.thread.pitch, 0.4 * now), to = 1.8 * now;
  const Unit x = unit_for(scene.his, now, Dimension::length);
  const std::vector<Nut> all = nuts(scene, limits, from, to, running);
  LinesData data{false, 234, axis("length of the nut", &x, from * x.scale, to * x.scale)};
  double least = 1, most = 1;
  const char* const pens[] = {"working", "overload"};
  for (std::size_t l = 0; l < limits.size(); ++l) {
    Points points;
    for (const Nut& nut : all)
      if (std::isfinite(nut.ratios[l]) && nut.ratios[l] > 0) points.emplace_back(nut.length * x.scale, nut.ratios[l]);
    if (points.size() < 2) continue;
    for (const auto& [length, ratio] : points) least = std::min(least, ratio), most = std::max(most, ratio);
    const char* const pen = data.lines.size() < 2 ? pens[data.lines.size()] : "other";
    data.lines.push_back(line(say::row_words(scene.study.limits[limits[l]]), pen, points));
  }
  if (data.lines.empty()) return std::nullopt;
  data.y = axis("has ÷ asked", nullptr, std::max(0.05, 0.8 * least), std::min(40.0, 1.3 * most), true);
  data.walls.push_back(wall("y", 1, -1, "asked"));
  data.here.push_back(here(now * x.scale, "here " + scene.his(now, Dimension::length)));
  return Figure{"nut",
                false,
                nut_sentence(scene, limits, all.front()),
                "What the limits of the nut have over what is asked, against its length.",
                "Coulomb friction knows no nut length: force and torque stay as they are.",
                numbers_of(scene, limits, all),
                data.json()};
}

}  // namespace studies::sheet
