/// What each other choice is worth.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "studies/ask/worth.hpp"
#include "studies/say/words.hpp"
#include "studies/say/worth.hpp"
#include "studies/sheet/figures.hpp"

namespace studies::sheet {

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

}  // namespace studies::sheet
