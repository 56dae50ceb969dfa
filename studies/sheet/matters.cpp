/// What matters: whose scatter it is, and what halving it would do.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "studies/say/figures.hpp"
#include "studies/say/matters.hpp"
#include "studies/say/words.hpp"
#include "studies/sheet/figures.hpp"

namespace studies::sheet {

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

}  // namespace studies::sheet
