#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/format.hpp"
#include "studies/say/compare_words.hpp"
#include "studies/say/figures.hpp"
#include "studies/say/limits.hpp"
#include "studies/say/reach.hpp"
#include "studies/say/sentences.hpp"
#include "studies/say/words.hpp"

namespace studies {
namespace say {
namespace {

using Kind = Measure::Kind;

constexpr std::size_t most_named = 3;
/// An alteration that did less than this share of what most did is not named.
constexpr double worth_naming = 0.02;

/// "99.1 of 100", "all but 0.31 of 100".
std::string share_of(const LimitVerdict& limit) {
  const double share = 100 * limit.odds.estimate;
  const double allowed = limit.limit.odds ? allowed_of_hundred(*limit.limit.odds) : 100;
  if (share <= 99) return number(beside(share, 100 - allowed, false)) + " of 100";
  const Said missed = said(shortfall(limit), allowed);
  return fmt::format("all but {} of 100",
                     limit.misses > 0 || limit.by_rare ? missed.estimate : "at most " + missed.high);
}

std::string lower(std::string words) {
  if (!words.empty() && words[0] >= 'A' && words[0] <= 'Z') words[0] = static_cast<char>(words[0] - 'A' + 'a');
  return words;
}

/// The measure that the first sentence is about: how often the task falls short, where both ask it; else its value.
const Moved& told_first(const Compared& it) {
  const LimitVerdict *a = task_limit(it.a), *b = task_limit(it.b);
  for (const Moved& moved : it.comparison.moved)
    if (a && b && a->limit.must == b->limit.must && moved.of.kind == Kind::shortfall &&
        moved.of.must == a->limit.must && (moved.from > 0 || moved.to > 0))
      return moved;
  return it.comparison.moved.front();
}

std::string opening(const Compared& it, const Moved& first) {
  const auto [a, b] = names_of(it);
  const HisUnits his(*it.a.study);
  if (first.of.kind == Kind::shortfall) {
    const LimitVerdict &was = *task_limit(it.a), &now = *task_limit(it.b);
    const std::string does = lower(demand_words(now, it.b.study->duty, his)),
                      did = lower(demand_words(was, it.a.study->duty, his));
    return fmt::format("{} {} in {} {} where {} {} in {}", b, does, share_of(now), hundred_of(it.b), a,
                       does == did ? "does" : did, share_of(was));
  }
  const engine::Dimension dimension = first.of.dimension();
  const bool clamp = it.a.study->duty.action == models::Action::clamp;
  return fmt::format("{} {} {} at nominal where {} {} {}", b, clamp ? "reaches" : "takes", his(first.to, dimension), a,
                     clamp ? "reaches" : "takes", his(first.from, dimension));
}

/// "saves 1.9", "costs 0.3", "adds 1.2 kN", "takes 0.4 kN".
std::string did(const Moved& moved, double by, const HisUnits& his) {
  if (moved.of.kind == Kind::shortfall) return (by < 0 ? "saves " : "costs ") + number(std::abs(by));
  return (by > 0 ? "adds " : "takes ") + his(std::abs(by), moved.of.dimension());
}

/// The alterations that did most to a measure: "lubrication oil instead of dry saves 1.9, nut length 40 mm instead of
/// 36 mm costs 0.1".
std::string by_whom(const Compared& it, const Moved& moved) {
  const HisUnits his(*it.a.study);
  std::vector<std::size_t> order;
  double most = 0;
  for (std::size_t i = 0; i < moved.by.size(); ++i) {
    order.push_back(i);
    most = std::max(most, std::abs(moved.by[i]));
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t i, std::size_t j) { return std::abs(moved.by[i]) > std::abs(moved.by[j]); });
  std::vector<std::string> words;
  for (const std::size_t i : order)
    if (words.size() < most_named && moved.by[i] != 0 && std::abs(moved.by[i]) >= worth_naming * most)
      words.push_back(instead_words(it.comparison.alterations[i], his) + " " + did(moved, moved.by[i], his));
  return joined(words, ", ");
}

/// Limits that one side holds and the other misses.
std::string standing(const Compared& it) {
  const auto [a, b] = names_of(it);
  std::vector<std::string> lost, won;
  for (const LimitVerdict& was : it.a.limits)
    for (const LimitVerdict& now : it.b.limits)
      if (was.limit.must == now.limit.must && was.holds != now.holds)
        (was.holds ? lost : won).push_back(limit_words(was.limit.must));
  std::string words;
  if (!lost.empty()) words += fmt::format(" {} misses {}, which {} holds.", b, list_of(lost), a);
  if (!won.empty()) words += fmt::format(" {} holds {}, which {} misses.", b, list_of(won), a);
  if (words.empty() && it.a.holds() && it.b.holds() && !it.a.limits.empty()) words = " Both hold all that they ask.";
  return words;
}

}  // namespace
}  // namespace say

std::string compare_sentence(const Compared& it) {
  using namespace say;
  const auto [a, b] = names_of(it);
  const Comparison& comparison = it.comparison;
  if (comparison.alterations.empty() && comparison.besides.empty())
    return fmt::format("Nothing changed between {} and {}.", a, b);
  const Moved& first = told_first(it);
  if (comparison.alterations.empty())
    return fmt::format("{} is the same screw under the same loads as {}: only what is asked of it, or how, changed.{}",
                       b, a, standing(it));
  const std::string whom = by_whom(it, first);
  const bool untold = first.of.kind == Measure::Kind::shortfall && !first.told();
  if (whom.empty() || untold)
    return fmt::format("{}: no change that these passes can tell.{}", opening(it, first), standing(it));
  const std::string of = first.of.kind == Measure::Kind::shortfall ? "of 100, " : "";
  return fmt::format("{}: {}{}.{}", opening(it, first), of, whom, standing(it));
}

}  // namespace studies
