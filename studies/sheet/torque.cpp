/// Where the torque goes: lift, thread, face and drag, of the pick and of other choices.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "studies/ask/other_choices.hpp"
#include "studies/say/words.hpp"
#include "studies/say/worth.hpp"
#include "studies/sheet/figures.hpp"

namespace studies::sheet {
namespace {

using engine::Dimension;
using models::Output;

/// What a torque goes into [N·m].
struct Split {
  std::string label;
  double lifts = 0, thread = 0, face = 0, drag = 0;
  double total() const { return lifts + thread + face + drag; }
};

/// The torque of one force, from the nominal outputs of a screw at the force it makes or lifts.
std::optional<Split> split(const std::string& label, const std::vector<double>& nominal, double force) {
  const auto at = [&](Output output) { return nominal[static_cast<std::size_t>(output)]; };
  const double times = force / at(Output::force);
  Split it{label, at(Output::useful_torque) * times, at(Output::thread_torque) * times, at(Output::face_torque) * times,
           at(Output::drag_torque)};
  if (!std::isfinite(it.total()) || !(it.lifts > 0)) return std::nullopt;
  return it;
}

constexpr std::size_t most_bars = 4;

/// The pick and other choices, at one force.
std::vector<Split> splits(const Scene& scene, double force) {
  std::vector<Split> all;
  if (auto pick = split("the pick", scene.nominal, force)) all.push_back(std::move(*pick));
  const std::vector<OtherChoice> choices = other_choices(scene.study, scene.design);
  for (const Worth& worth : scene.answer.worth) {
    if (all.size() >= most_bars || worth.passes == 0 || !(std::abs(worth.share) > 1e-9)) continue;
    const auto choice = std::find_if(choices.begin(), choices.end(), [&](const OtherChoice& c) {
      return c.design && c.change == worth.change && c.to == worth.to && c.from == worth.from;
    });
    if (choice == choices.end()) continue;
    const models::Design& design = *choice->design;
    const InputLaw inputs = input_law(scene.study, candidate_of(design).surface);
    const models::ScrewModel model(
        scene.study.duty, design,
        models::allowances(scene.study.tables, scene.study.duty, design, inputs.face_from_table), scene.study.limits);
    if (auto bar = split(say::changed_words(scene.answer, worth), model.evaluate_one(inputs.nominal), force))
      all.push_back(std::move(*bar));
  }
  return all;
}

std::string in_hundred(double part, double whole) { return figures(std::round(100 * part / whole)); }

}  // namespace

std::optional<Figure> torque(const Scene& scene) {
  const models::Duty& duty = scene.study.duty;
  const double force = duty.force.value_or(scene.at_nominal(Output::force));
  if (!(force > 0) || !std::isfinite(force)) return std::nullopt;
  const std::vector<Split> all = splits(scene, force);
  if (all.empty()) return std::nullopt;
  const Split& pick = all.front();
  const Unit unit = unit_for(scene.his, pick.total(), Dimension::torque);
  const std::string said = scene.his(force, Dimension::force);
  Figure figure{"torque", false, "", "", "", {{"Screw", "Lifts", "Thread", "Face", "Drag", "Needs"}, {}}, {}};
  figure.says = fmt::format("Of every 100 parts of the torque {} do the work, {} rub in the thread{}.",
                            in_hundred(pick.lifts, pick.total()), in_hundred(pick.thread, pick.total()),
                            pick.face > 0 ? fmt::format(", {} in the face", in_hundred(pick.face, pick.total())) : "");
  figure.alt = fmt::format("Torque that {} takes, split into work, thread and face: {} for the pick{}.", said,
                           scene.his(pick.total(), Dimension::torque),
                           all.size() > 1 ? fmt::format(", and for {} other choices", all.size() - 1) : "");
  figure.note = fmt::format("At nominal, for {}. In the bars, of 100. Solid: work; slanted: thread; dots: face.", said);
  Json bars = Json::array();
  double most = 0;
  for (const Split& it : all) {
    bars.push_back({{"label", it.label},
                    {"lifts", it.lifts * unit.scale},
                    {"thread", it.thread * unit.scale},
                    {"face", it.face * unit.scale},
                    {"drag", it.drag * unit.scale}});
    const auto cell = [&](double si) { return si > 0 ? scene.his(si, Dimension::torque) : "none"; };
    figure.numbers.rows.push_back({it.label, cell(it.lifts), cell(it.thread), cell(it.face), cell(it.drag),
                                   both(scene.his, it.total(), Dimension::torque)});
    most = std::max(most, it.total());
  }
  const bool driven = duty.drive != models::Drive::none;
  const double available = driven ? duty.drive_torque() : 0;
  if (driven) most = std::max(most, available);
  figure.data = {{"kind", "torque"},
                 {"axis", axis("torque for " + said, &unit, 0, 1.12 * most * unit.scale)},
                 {"available", driven ? Json(available * unit.scale) : Json(nullptr)},
                 {"available_says", driven ? "the pull gives " + scene.his(available, Dimension::torque) : ""},
                 {"bars", std::move(bars)}};
  return figure;
}

}  // namespace studies::sheet
