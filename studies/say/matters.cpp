#include "studies/say/matters.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "studies/say/figures.hpp"
#include "studies/say/limits.hpp"
#include "studies/say/words.hpp"

namespace studies::say {
namespace {}  // namespace

std::string inputs_words(const MatterInput& it) {
  std::vector<std::string> words;
  for (const std::string& input : it.inputs) words.push_back(input_words(input));
  if (words == std::vector<std::string>{"thread friction", "face friction"}) return "thread and face friction";
  return list_of(words);
}

namespace {

/// A share between 0 and 1 in 100, as fine as its bounds.
Said in_hundred(const Bounded& share) { return said({100 * share.low, 100 * share.estimate, 100 * share.high}, 100); }

std::string left(const Bounded& after) {
  const Said it = in_hundred(after);
  return after.estimate > 0 ? it.estimate : "at most " + it.high;
}

bool helps(const MatterInput& it) { return it.change && it.change->high < 0; }

/// What no halving changes: whose scatter it is all the same.
std::string whose(const Matter& matter) {
  std::vector<const MatterInput*> most;
  for (const MatterInput& it : matter.inputs)
    if (it.total.low > 0.01) most.push_back(&it);
  if (!matter.reason.empty() || most.empty()) return "";
  std::stable_sort(most.begin(), most.end(), [](auto* a, auto* b) { return a->share.estimate > b->share.estimate; });
  const std::string of = matter.must ? "margin of " + limit_words(*matter.must) : input_words(matter.judged);
  const std::string second =
      most.size() < 2 ? "" : fmt::format(", {} from {}", in_hundred(most[1]->share).estimate, inputs_words(*most[1]));
  return fmt::format("Of every 100 parts of the variance of the {}, {} come from {}{}.", of,
                     in_hundred(most[0]->share).estimate, inputs_words(*most[0]), second);
}

std::string task_of(const Answer& answer) {
  const bool clamp = answer.study->duty.action == models::Action::clamp;
  const models::Must must = *answer.matter->must;
  const bool task = clamp ? must == models::Must::force : must == models::Must::torque;
  return task ? "the shortfall" : "the shortfall of " + limit_words(must);
}

}  // namespace

std::string what_helps(const Answer& answer) {
  if (!answer.matter) return "";
  const Matter& matter = *answer.matter;
  if (!matter.before || matter.before->estimate == 0 || matter.inputs.empty()) return whose(matter);
  const MatterInput& best = matter.inputs.front();
  if (!helps(best))
    return fmt::format(
        "A steadier input would not help: halving the scatter of {} does not make {} smaller, as far as "
        "these passes can tell.",
        matter.inputs.size() == 1 ? inputs_words(best) : "any one", task_of(answer));
  const bool other = matter.inputs.size() > 1 && helps(matter.inputs[1]);
  const std::string from =
      fmt::format("takes {} from {} to {}", task_of(answer), in_hundred(*matter.before).estimate, left(*best.after));
  if (!other)
    return fmt::format("What would help most: knowing {} better. Halving that scatter {} in 100.", inputs_words(best),
                       from);
  const MatterInput& next = matter.inputs[1];
  if (!(best.change->high < next.change->low))
    return fmt::format(
        "What would help most: knowing {} or {} better, about alike. Halving the scatter of the first {} "
        "in 100, of the second to {}.",
        inputs_words(best), inputs_words(next), from, left(*next.after));
  return fmt::format(
      "What would help most: knowing {} better. Halving that scatter {} in 100; halving that of {} leaves "
      "{}.",
      inputs_words(best), from, inputs_words(next), left(*next.after));
}

namespace {

Json swing_json(const InputSwing& it, const std::string& judged, Notes& notes) {
  const auto input = [&](double value) { return quantity(notes, value, it.dimension, "matters." + it.name); };
  return Json{{"input", it.name},
              {"from", input(it.from)},
              {"to", input(it.to)},
              {"at_from", notes.number(it.at_from, judged)},
              {"at_to", notes.number(it.at_to, judged)}};
}

Json halved_json(const MatterInput& it, const std::string& name, Notes& notes) {
  if (!it.after) return nullptr;
  return Json{{"shortfall", bounded(notes, *it.after, name)}, {"change", bounded(notes, *it.change, name)}};
}

Json input_json(const MatterInput& it, const Matter& matter, Notes& notes) {
  const std::string name = "matters." + joined(it.inputs, "+");
  Json swings = Json::array();
  for (const InputSwing& swing : matter.swings)
    if (std::find(it.inputs.begin(), it.inputs.end(), swing.name) != it.inputs.end())
      swings.push_back(swing_json(swing, "matters." + matter.judged, notes));
  return Json{{"inputs", it.inputs},
              {"share", bounded(notes, it.share, name, matter.reason)},
              {"total", bounded(notes, it.total, name, matter.reason)},
              {"swing", std::move(swings)},
              {"halved", halved_json(it, name, notes)}};
}

}  // namespace

Json matters_json(const Answer& answer, Notes& notes) {
  if (!answer.matter) return nullptr;
  const Matter& matter = *answer.matter;
  Json object{{"judged", matter.judged},
              {"limit", matter.must ? Json(models::row(*matter.must).name) : Json(nullptr)},
              {"shortfall", matter.before ? bounded(notes, *matter.before, "matters") : Json(nullptr)},
              {"by_input", Json::array()},
              {"by_class", Json::array()}};
  for (const MatterInput& it : matter.inputs) object["by_input"].push_back(input_json(it, matter, notes));
  for (const MatterClass& it : matter.classes) {
    const std::string name = "matters." + joined(it.varies, "+");
    object["by_class"].push_back(Json{{"varies", it.varies},
                                      {"share", bounded(notes, it.share, name, matter.reason)},
                                      {"total", bounded(notes, it.total, name, matter.reason)}});
  }
  return object;
}

}  // namespace studies::say
