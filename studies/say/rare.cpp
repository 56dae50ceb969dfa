#include "studies/say/rare.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/format.hpp"
#include "studies/ask/inputs.hpp"
#include "studies/say/figures.hpp"
#include "studies/say/limits.hpp"
#include "studies/say/sentences.hpp"
#include "studies/say/words.hpp"

namespace studies::say {
namespace {

constexpr double million = 1e6;
/// Odds below which no number is said: nobody knows the tails of friction and strength that far out.
constexpr double least_said = 1 / million;

const LimitVerdict& limit_of(const Answer& answer, const RareVerdict& it) {
  return *std::find_if(answer.limits.begin(), answer.limits.end(),
                       [&](const LimitVerdict& limit) { return limit.limit.must == it.must; });
}

double allowed_of_million(const LimitVerdict& limit) { return 1e4 * allowed_of_hundred(*limit.limit.odds); }

/// A share of a million in two figures: nobody knows a tail more finely.
std::string of_million(double share, Toward toward) {
  const double value = million * share;
  if (!(value > 0)) return "0";
  return number(to_place(value, static_cast<int>(std::floor(std::log10(value))) - 1, toward));
}

/// "3.6", "fewer than 1"; on the side of what is allowed that the share is on.
std::string few_words(double share, double allowed = HUGE_VAL) {
  if (share < least_said) return "fewer than 1";
  const std::string nearest = of_million(share, Toward::nearest);
  const double value = million * share;
  if (value <= allowed && std::stod(nearest) > allowed) return of_million(share, Toward::down);
  return value > allowed && std::stod(nearest) <= allowed ? of_million(share, Toward::up) : nearest;
}

/// "2.9 to 3.5", "at most 2.1"; nothing where all is below what is said.
std::string bounds_words(const Bounded& share) {
  if (share.high < least_said) return "";
  const std::string high = of_million(share.high, Toward::up);
  return share.estimate < least_said ? "at most " + high : of_million(share.low, Toward::down) + " to " + high;
}

/// The same with what is allowed, of a limit so judged; below one in a million in words alone.
std::string bounds_words(const RareVerdict& it, const LimitVerdict& limit) {
  const std::string bounds = bounds_words(it.shortfall), of = given_number(allowed_of_million(limit));
  if (it.shortfall.estimate < least_said && allowed_of_million(limit) < 1)
    return fmt::format("{} the {} allowed", limit.holds ? "no more than" : "but more than", of);
  return fmt::format("{}{}{} allowed", bounds, bounds.empty() ? "" : "; ", of);
}

/// How far it leans on the shape of the friction.
std::string other_words(const RareVerdict& it) {
  if (!it.other) return "";
  const OtherShape& other = *it.other;
  if (other.shape.empty()) return fmt::format("; no other shape of the friction was tried: {}", other.reason);
  const std::string with = fmt::format("with {} friction instead of {}", other.shape, other.from);
  if (!other.trusted) return fmt::format("; {} the odds could not be established", with);
  const std::string few = few_words(other.shortfall.estimate);
  return few == few_words(it.shortfall.estimate) ? fmt::format("; the same {}", with)
                                                 : fmt::format("; {} in {}", with, few);
}

std::string sentence(const Answer& answer, const RareVerdict& it) {
  const LimitVerdict& limit = limit_of(answer, it);
  const std::string bounds = it.judges ? bounds_words(it, limit) : bounds_words(it.shortfall);
  return fmt::format("{} falls short in {} of a million {}{}{}.", capital(limit_words(it.must)),
                     few_words(it.shortfall.estimate, allowed_of_million(limit)), hundred_of(answer),
                     bounds.empty() ? "" : " (" + bounds + ")", other_words(it));
}

/// Unknown bounds are no object at all.
Json method_json(const Bounded& it, const std::string& name, Notes& notes) {
  return std::isnan(it.estimate) ? Json(nullptr) : bounded(notes, it, name);
}

Json point_json(const FailurePoint& point, const Answer& answer, const std::string& name, Notes& notes) {
  Json inputs = Json::array();
  for (std::size_t k = 0; k < point.inputs.size(); ++k) {
    const std::string input = input_name(answer.study->duty, static_cast<models::Input>(k));
    const auto used = std::find_if(answer.scatter.begin(), answer.scatter.end(),
                                   [&](const ScatterUsed& each) { return each.name == input; });
    if (used == answer.scatter.end()) continue;
    inputs.push_back(
        Json{{"input", input}, {"value", notes.number(point.inputs[k], name)}, {"unit", unit(used->dimension)}});
  }
  return Json{{"distance", notes.number(point.distance, name)}, {"inputs", std::move(inputs)}};
}

Json first_order_json(const RareVerdict& it, const Answer& answer, const std::string& name, Notes& notes) {
  const std::string why = "no point of failure was found";
  Json points = Json::array();
  for (const FailurePoint& point : it.points) points.push_back(point_json(point, answer, name, notes));
  return Json{{"beta", notes.number(it.beta, name, why)},
              {"estimate", notes.number(it.first_order, name, why)},
              {"points", std::move(points)}};
}

Json other_json(const RareVerdict& it, const std::string& name, Notes& notes) {
  if (!it.other) return nullptr;
  const bool known = !it.other->shape.empty();
  const Json shape = known ? Json(it.other->shape) : Json(nullptr), from = known ? Json(it.other->from) : Json(nullptr);
  Json object{{"shape", shape}, {"instead_of", from}};
  object.update(bounded(notes, it.other->shortfall, name, it.other->reason));
  object["trusted"] = it.other->trusted;
  object["reason"] = it.other->reason;
  return object;
}

}  // namespace

std::vector<std::string> rare_words(const Answer& answer) {
  std::vector<std::string> sentences, never;
  for (const RareVerdict& it : answer.rare) {
    if (!it.trusted) continue;
    if (it.shortfall.estimate == 0 && !it.judges)
      never.push_back(limit_words(it.must));
    else
      sentences.push_back(sentence(answer, it));
  }
  if (!never.empty())
    sentences.push_back(fmt::format("{} {} short in fewer than 1 of a million {}.", capital(list_of(never)),
                                    never.size() == 1 ? "falls" : "fall", hundred_of(answer)));
  return sentences;
}

std::string rare_share_words(const Answer& answer, const LimitVerdict& limit) {
  const auto it = std::find_if(answer.rare.begin(), answer.rare.end(),
                               [&](const RareVerdict& each) { return each.must == limit.limit.must; });
  return fmt::format("in all but {} of a million {} ({})", few_words(it->shortfall.estimate, allowed_of_million(limit)),
                     hundred_of(answer), bounds_words(*it, limit));
}

Json rare_json(const Answer& answer, Notes& notes) {
  Json all = Json::array();
  if (!answer.pick) return all;
  for (const RareVerdict& it : answer.rare) {
    const std::string name = "rare." + it.name;
    all.push_back(Json{{"name", it.name},
                       {"judges", it.judges},
                       {"shortfall", bounded(notes, it.shortfall, name)},
                       {"trusted", it.trusted},
                       {"reason", it.reason},
                       {"first_order", first_order_json(it, answer, name, notes)},
                       {"importance", method_json(it.importance, name, notes)},
                       {"subset", method_json(it.subset, name, notes)},
                       {"calls", it.calls},
                       {"other_shape", other_json(it, name, notes)}});
  }
  return all;
}

}  // namespace studies::say
