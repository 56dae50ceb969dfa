#include "studies/say/worth.hpp"

#include <fmt/format.h>

#include <cmath>

#include "studies/ask/worth.hpp"
#include "studies/say/figures.hpp"
#include "studies/say/units_of_his.hpp"
#include "studies/say/words.hpp"
#include "studies/say/wrap.hpp"

namespace studies::say {
namespace {

using engine::Dimension;

constexpr std::size_t most_lines = 5;
/// Changes of less than this share of what there is are rounding.
constexpr double rounding = 1e-9;

}  // namespace

std::string changed_words(const Answer& answer, const Worth& it) {
  if (it.change == "lubrication") return lubricated(it.to) + " instead of " + lubricated(it.from);
  if (it.change == "starts") {
    const auto to = std::stoul(it.to), from = std::stoul(it.from);
    return fmt::format("{} start{} instead of {}", number_in_words(to), to == 1 ? "" : "s", number_in_words(from));
  }
  if (it.change == "pitch") return it.designation + " instead of " + answer.pick->designation;
  const std::string face = it.offered ? it.to : "a rolling bearing of the same radius";
  if (it.change == "face") return face + " instead of the " + face_in_short(answer.pick->design.face);
  return fmt::format("{} of {}", it.change, it.to);
}

namespace {

/// "6.1 kN more force, helps in 100 of 100"; what jams now and then has no mean.
std::string effect(const Answer& answer, const Worth& it) {
  const models::NameRow& row = models::row(compared_output(answer.study->duty));
  if (std::abs(it.share) < rounding) return fmt::format("the same {}", row.words);
  const Said helps = said({100 * it.helps.low, 100 * it.helps.estimate, 100 * it.helps.high}, 100);
  const std::string amount = HisUnits(*answer.study)(std::abs(it.mean), row.dimension);
  const std::string change = std::isfinite(it.mean)
                                 ? fmt::format("{} {} {}", amount, it.mean > 0 ? "more" : "less", row.words)
                                 : "jams on some passes";
  return fmt::format("{}, helps in {} of 100", change, helps.estimate);
}

std::string heavier(const Answer& answer, const Worth& it) {
  if (std::abs(it.mass) < rounding * answer.pick->mass) return "";
  const HisUnits his(*answer.study);
  return ", " + his(std::abs(it.mass), Dimension::mass) + (it.mass > 0 ? " heavier" : " lighter");
}

std::string standing(const Answer& answer, const Worth& it) {
  if (answer.study->limits.empty()) return "";
  if (!it.misses.empty()) return ", misses " + list_of(limit_words(it.misses));
  return it.why.empty() ? ", passes" : "";
}

std::string words_of(const Answer& answer, const Worth& it) {
  return changed_words(answer, it) + ": " + effect(answer, it) + heavier(answer, it) + standing(answer, it);
}

bool does_anything(const Answer& answer, const Worth& it) {
  return it.passes > 0 && (!(std::abs(it.share) < rounding) || !(std::abs(it.mass) < rounding * answer.pick->mass));
}

}  // namespace

std::string other_choices(const Answer& answer) {
  std::vector<const Worth*> all;
  for (const Worth& it : answer.worth)
    if (does_anything(answer, it)) all.push_back(&it);
  const std::string same = answer.study->duty.action == models::Action::clamp ? "pull" : "load";
  std::string words = fmt::format(
      "What another choice would do, at the same {} and each friction at the same place of its range: ", same);
  std::string shown;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const std::string next = words + words_of(answer, *all[i]);
    const std::size_t more = all.size() - i - 1;
    const std::string whole =
        more == 0 ? next + "." : fmt::format("{}; {} more with --json.", next, number_in_words(more));
    if (i > 0 && wrapped(whole).size() > most_lines) break;
    shown = whole;
    words = next + "; ";
  }
  return shown;
}

Json worth_json(const Answer& answer, Notes& notes) {
  Json all = Json::array();
  for (const Worth& it : answer.worth) {
    const models::Output of = compared_output(answer.study->duty);
    const std::string name = "worth." + it.change + " " + it.to;
    const auto value = [&](double x, Dimension dimension) {
      if (it.passes == 0) return Json{{"value", nullptr}, {"unit", unit(dimension)}};  // its `why` says why
      return quantity(notes, x, dimension, name);
    };
    Json helps = nullptr;
    if (it.passes > 0) helps = bounded(notes, it.helps, name), helps["passes"] = it.passes;
    Json misses = Json::array();
    for (const models::Must must : it.misses) misses.push_back(models::row(must).name);
    const Dimension dimension = models::row(of).dimension;
    all.push_back(Json{{"change", it.change},
                       {"from", it.from},
                       {"to", it.to},
                       {"designation", it.designation.empty() ? Json(nullptr) : Json(it.designation)},
                       {"offered", it.offered},
                       {"of", models::row(of).name},
                       {"change_nominal", value(it.nominal, dimension)},
                       {"change_mean", value(it.mean, dimension)},
                       {"share", it.passes == 0 ? Json(nullptr) : notes.number(it.share, name)},
                       {"mass", value(it.mass, Dimension::mass)},
                       {"helps", std::move(helps)},
                       {"misses", std::move(misses)},
                       {"why", it.why.empty() ? Json(nullptr) : Json(it.why)}});
  }
  return all;
}

}  // namespace studies::say
