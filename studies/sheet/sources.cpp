/// Where it comes from: what the torque goes into, what matters, what other choices and other aims would give.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "studies/ask/aim.hpp"
#include "studies/ask/other_choices.hpp"
#include "studies/ask/worth.hpp"
#include "studies/say/aims.hpp"
#include "studies/say/details.hpp"
#include "studies/say/figures.hpp"
#include "studies/say/limits.hpp"
#include "studies/say/matters.hpp"
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

std::optional<Figure> matters(const Scene& scene) {
  if (!scene.answer.matter || !scene.answer.matter->reason.empty()) return std::nullopt;
  const Matter& matter = *scene.answer.matter;
  const auto hundred = [](const Bounded& b) {
    return say::said({100 * b.low, 100 * b.estimate, 100 * b.high}, 100).estimate;
  };
  const auto left = [&](const Bounded& after) {  // no pass fell short: a bound, not 0
    return after.estimate > 0 ? hundred(after)
                              : "at most " + say::said({100 * after.low, 0, 100 * after.high}, 100).high;
  };
  Json rows = Json::array();
  const bool halved = matter.before && matter.before->estimate > 0;
  Table numbers{{"Input", "Share of the variance, in 100", "Alone and with others"}, {}};
  if (halved) numbers.head.emplace_back("Short in 100, if halved");
  double most = 0;
  for (const MatterInput& it : matter.inputs) {
    if (!std::isfinite(it.total.estimate)) continue;
    const double value = std::clamp(100 * it.total.estimate, 0.0, 100.0);
    const std::string after = halved && it.after ? left(*it.after) : "";
    rows.push_back({{"label", say::inputs_words(it)},
                    {"value", value},
                    {"low", std::max(0.0, 100 * it.total.low)},
                    {"high", std::max(0.0, 100 * it.total.high)},
                    {"text", hundred(it.total)},
                    {"right", after.empty()            ? ""
                              : it.after->estimate > 0 ? hundred(*matter.before) + " to " + after
                                                       : after},
                    {"missed", false}});
    numbers.rows.push_back({say::inputs_words(it), hundred(it.share), hundred(it.total)});
    if (halved) numbers.rows.back().push_back(after.empty() ? "not judged" : after);
    most = std::max({most, value, std::min(100.0, 100 * it.total.high)});
  }
  if (rows.empty()) return std::nullopt;
  const std::string of = matter.must ? "margin of " + say::limit_words(*matter.must) : say::input_words(matter.judged);
  Figure figure{"matters", false, "", "", "", std::move(numbers), {}};
  const MatterInput& best = matter.inputs.front();
  figure.says = halved && best.change && best.change->high < 0
                    ? fmt::format("Halving the scatter of {} takes the shortfall from {} to {} in 100.",
                                  say::inputs_words(best), hundred(*matter.before), left(*best.after))
                : halved ? "Halving the scatter of any one input does not help."
                         : fmt::format("Whose scatter it is that the {} has.", of);
  figure.alt = fmt::format("What each input contributes to the scatter of the {}, in 100 parts.", of);
  figure.note = "Thin bars: 95 % bounds of the share.";
  figure.data = {{"kind", "bars"},
                 {"axis", axis("share of the variance, %", nullptr, 0, std::min(100.0, rounded_up(1.1 * most)))},
                 {"right_head", halved ? "short in 100\nif halved" : ""},
                 {"rows", std::move(rows)}};
  return figure;
}

std::optional<Figure> worth(const Scene& scene) {
  const models::NameRow& compared = models::row(compared_output(scene.study.duty));
  Json rows = Json::array();
  Table numbers{{"Choice", "Change of " + std::string(compared.words), "Helps in 100", "Misses"}, {}};
  double least = 0, most = 0;
  const Worth* best = nullptr;
  for (const Worth& it : scene.answer.worth) {
    if (it.passes == 0 || !std::isfinite(it.mean)) continue;
    const std::vector<std::string> misses = say::limit_words(it.misses);
    const std::string standing = scene.study.limits.empty() ? ""
                                 : misses.empty()           ? "passes"
                                                  : "misses " + misses.front() + (misses.size() > 1 ? " …" : "");
    const double value = 100 * it.share;
    if (!best) best = &it;
    rows.push_back({{"label", say::changed_words(scene.answer, it)},
                    {"value", value},
                    {"low", nullptr},
                    {"high", nullptr},
                    {"text", (value > 0 ? "+" : "") + figures(value) + " %"},
                    {"right", standing},
                    {"missed", !misses.empty()}});
    numbers.rows.push_back({say::changed_words(scene.answer, it),
                            (it.mean > 0 ? "+" : "") + both(scene.his, it.mean, compared.dimension),
                            figures(100 * it.helps.estimate), misses.empty() ? "nothing" : say::list_of(misses)});
    least = std::min(least, value), most = std::max(most, value);
    if (rows.size() == 8) break;
  }
  if (rows.empty()) return std::nullopt;
  const bool clamp = scene.clamp(), helps = clamp ? best->mean > 0 : best->mean < 0;
  Figure figure{"worth", false, "", "", "", std::move(numbers), {}};
  const std::string amount = scene.his(std::abs(best->mean), compared.dimension);
  figure.says = helps ? fmt::format("What would help: {}, {} {} {}.", say::changed_words(scene.answer, *best), amount,
                                    clamp ? "more" : "less", compared.words)
                      : fmt::format("No other choice gives {} {}.", clamp ? "more" : "less", compared.words);
  figure.alt = fmt::format("Change of the {} by other choices, in percent.", compared.words);
  figure.note = "Same pull, and each friction at the same place of its range; means over the passes.";
  const double low = least < 0 ? -rounded_up(-1.15 * least) : 0, high = most > 0 ? rounded_up(1.15 * most) : 0;
  figure.data = {
      {"kind", "bars"},
      {"axis", axis("change of the " + std::string(compared.words) + ", %", nullptr, low, high > low ? high : 1)},
      {"right_head", ""},
      {"rows", std::move(rows)}};
  return figure;
}

std::optional<Figure> trade(const Scene& scene) {
  const std::vector<TradePoint>& points = scene.answer.trade_off;
  if (points.size() < 2) return std::nullopt;
  const Quantity quantities[] = {scene.study.aims[0].of, scene.study.aims[1].of};
  Unit units[2];
  Json axes[2];
  for (const int i : {0, 1}) {
    const Dimension dimension = dimension_of(quantities[i]);
    double least = INFINITY, most = -INFINITY;
    for (const TradePoint& point : points)
      least = std::min(least, point.values[i]), most = std::max(most, point.values[i]);
    const bool bare = dimension == Dimension::none;
    units[i] = bare ? Unit{} : unit_for(scene.his, most == 0 ? 1 : most, dimension);
    const double room = most > least ? 0.08 * (most - least) : 0.1 * std::abs(most) + 1e-9;
    axes[i] = axis(say::quantity_words(quantities[i]), bare ? nullptr : &units[i], (least - room) * units[i].scale,
                   (most + room) * units[i].scale);
  }
  Json drawn = Json::array();
  Table numbers{
      {"Screw", say::capital(say::quantity_words(quantities[0])), say::capital(say::quantity_words(quantities[1]))},
      {}};
  const auto said = [&](double value, int i) {
    const Dimension dimension = dimension_of(quantities[i]);
    return dimension == Dimension::none ? figures(value) : both(scene.his, value, dimension);
  };
  for (const TradePoint& point : points) {
    const bool pick = point.screw.designation == scene.answer.pick->designation &&
                      point.screw.design.nut_length == scene.design.nut_length;
    drawn.push_back({{"x", point.values[0] * units[0].scale},
                     {"y", point.values[1] * units[1].scale},
                     {"label", point.screw.designation},
                     {"pick", pick}});
    numbers.rows.push_back({point.screw.designation, said(point.values[0], 0), said(point.values[1], 1)});
  }
  Figure figure{"trade", true, "", "", "", std::move(numbers), {}};
  figure.says = fmt::format("{} screws of which none is better by {} and as good by {}.", points.size(),
                            say::quantity_words(quantities[0]), say::quantity_words(quantities[1]));
  figure.alt = fmt::format("{} against {} of {} screws that hold.", say::capital(say::quantity_words(quantities[1])),
                           say::quantity_words(quantities[0]), points.size());
  figure.data = {{"kind", "trade"}, {"x", axes[0]}, {"y", axes[1]}, {"points", std::move(drawn)}};
  return figure;
}

}  // namespace studies::sheet
