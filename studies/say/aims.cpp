#include "studies/say/aims.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "engine/base/format.hpp"
#include "studies/ask/aim.hpp"
#include "studies/say/figures.hpp"
#include "studies/say/units_of_his.hpp"
#include "studies/say/words.hpp"

namespace studies::say {
namespace {

using What = Quantity::What;

constexpr std::size_t most_lines = 12;

bool mass_alone(const Study& study) { return study.aims.size() == 1 && study.aims[0].of == Quantity{}; }

/// A quantity's value: with its unit, a bare number, or odds as so many of 100.
std::string value_words(const Study& study, const Quantity& quantity, double value) {
  const HisUnits his(study);
  if (quantity.what != What::odds) return his(value, dimension_of(quantity));
  if (value == 1) return "none falls short";
  const double misses = 100 * (1 - value);
  return misses < 1 ? fmt::format("all but {} of 100", number(to_three(misses, Toward::up)))
                    : fmt::format("{} of 100", number(to_three(100 * value, Toward::nearest)));
}

/// For which force a clamp's torque is meant.
std::string for_what(const Study& study, const Quantity& quantity) {
  const bool effort = quantity.what == What::output &&
                      (quantity.output == models::Output::torque || quantity.output == models::Output::hand_force);
  const std::optional<double> force = force_asked(study);
  if (!effort || study.duty.action == models::Action::lift || !force) return "";
  return " for " + HisUnits(study)(*force, engine::Dimension::force);
}

std::string superlative(const Aim& aim) {
  if (aim.of == Quantity{}) return aim.most ? "most mass" : "least mass";
  return (aim.most ? "most " : "least ") + quantity_words(aim.of);
}

/// The points that are shown: all, or evenly chosen ones with both ends.
std::vector<std::size_t> shown(std::size_t points) {
  std::vector<std::size_t> all;
  const std::size_t lines = std::min(points, most_lines);
  for (std::size_t i = 0; i < lines; ++i) all.push_back(lines == 1 ? 0 : i * (points - 1) / (lines - 1));
  return all;
}

/// What a screw of the curve is, in short: size, starts, lubrication, nut.
std::string screw_words(const Study& study, const CandidateVerdict& screw) {
  const models::Design& design = screw.design;
  std::vector<std::string> words = {screw.designation};
  if (study.choices.lubrication.size() > 1) words.push_back(lubricated(design.lubrication));
  if (study.choices.face.size() > 1) words.push_back(face_in_short(design.face));
  if (study.choices.nut.size() > 1) words.push_back(design.nut.name);
  words.push_back(HisUnits(study)(design.nut_length, engine::Dimension::length) + " nut");
  return joined(words, ", ");
}

}  // namespace

std::string quantity_words(const Quantity& quantity) {
  switch (quantity.what) {
    case What::nut_length:
      return "nut length";
    case What::margin:
      return "margin of " + limit_words(quantity.must);
    case What::odds:
      return "odds of " + limit_words(quantity.must);
    case What::output:
      break;
  }
  return std::string(row(quantity.output).words);
}

std::string best_words(const Study& study) {
  const Aim& aim = study.aims.front();
  if (aim.of == Quantity{} && !aim.most) return "lightest";
  if (aim.of.what == What::nut_length && !aim.most) return "shortest nut";
  return superlative(aim);
}

std::string aims_sentence(const Answer& answer) {
  const Study& study = *answer.study;
  if (!answer.searched || !answer.pick) return "";
  std::vector<std::string> words;
  for (std::size_t i = 0; i < study.aims.size() && !mass_alone(study); ++i) {
    const Aim& aim = study.aims[i];
    words.push_back(fmt::format("{}: {}{}.", capital(i == 0 ? superlative(aim) : quantity_words(aim.of)),
                                value_words(study, aim.of, answer.aimed_at[i]), for_what(study, aim.of)));
  }
  for (std::size_t i = 0; i < study.caps.size(); ++i)
    words.push_back(fmt::format("{}{}: {}, capped at {}.", capital(quantity_words(study.caps[i].of)),
                                for_what(study, study.caps[i].of),
                                value_words(study, study.caps[i].of, answer.under_caps[i]),
                                HisUnits(study).given(study.caps[i].at_most, dimension_of(study.caps[i].of))));
  return joined(words, " ");
}

std::vector<std::string> trade_off_table(const Answer& answer) {
  const std::vector<TradePoint>& points = answer.trade_off;
  if (points.empty()) return {};
  const Study& study = *answer.study;
  const Quantity &one = study.aims[0].of, &other = study.aims[1].of;
  std::vector<std::array<std::string, 3>> cells = {{quantity_words(one), quantity_words(other), "screw"}};
  for (const std::size_t i : shown(points.size()))
    cells.push_back({value_words(study, one, points[i].values[0]), value_words(study, other, points[i].values[1]),
                     screw_words(study, points[i].screw)});
  std::size_t wide[2] = {0, 0};
  for (const auto& row : cells)
    for (const int c : {0, 1}) wide[c] = std::max(wide[c], columns(row[c]));
  const auto padded = [](const std::string& text, std::size_t width) {
    return text + std::string(width - columns(text), ' ');
  };
  std::vector<std::string> lines = {
      fmt::format("{} against {}: {} of which none is better by one and as good by the other{}", capital(cells[0][0]),
                  cells[0][1], counted(points.size(), "screw"), points.size() > most_lines ? "; some of them" : "")};
  for (const auto& row : cells)
    lines.push_back("  " + padded(row[0], wide[0]) + "  " + padded(row[1], wide[1]) + "  " + row[2]);
  return lines;
}

std::string over_cap_words(const Study& study, const CandidateVerdict& verdict) {
  const Cap& cap = study.caps[*verdict.over_cap];
  const HisUnits his(study);
  return fmt::format("goes over the cap on {}, {} where {} is allowed", quantity_words(cap.of),
                     his.beside(verdict.has, cap.at_most, true, dimension_of(cap.of)),
                     his.given(cap.at_most, dimension_of(cap.of)));
}

}  // namespace studies::say
