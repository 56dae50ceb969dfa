#include "studies/say/sentences.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/format.hpp"
#include "studies/say/figures.hpp"
#include "studies/say/limits.hpp"
#include "studies/say/reach.hpp"
#include "studies/say/words.hpp"

namespace studies {
namespace say {
namespace {

using Kind = models::Limit::Kind;

/// "Every margin holds.", "One limit missed: buckling, margin 2.47 where 3 is asked.", "Two limits missed: force,
/// buckling."
std::string limits_sentence(const Answer& answer) {
  if (answer.limits.empty()) return "No limit was asked.";
  std::vector<const LimitVerdict*> missed;
  for (const LimitVerdict& limit : answer.limits)
    if (!limit.holds) missed.push_back(&limit);
  if (missed.empty()) return "Every margin holds.";
  if (missed.size() == 1) {
    const LimitVerdict& it = *missed.front();
    const HisUnits his(*answer.study);
    return fmt::format("One limit missed: {}, {}.", row_words(it.limit),
                       missed_words(it.limit, {it.has, it.asked_value}, his));
  }
  std::vector<std::string> words;
  for (const LimitVerdict* limit : missed) words.push_back(row_words(limit->limit));
  return fmt::format("{} limits missed: {}.", capital(number_in_words(missed.size())), joined(words, ", "));
}

/// The changed value, rounded to the side that still passes.
std::string changed_to(const Relaxation& relaxation, const HisUnits& his) {
  if (!std::isfinite(relaxation.to)) return number(relaxation.to);
  const engine::Dimension dimension = relaxation.of_margin ? engine::Dimension::none : relaxation.dimension;
  const engine::Shown shown = his.shown(relaxation.to, dimension);
  const std::string value = number(to_three(shown.value, relaxation.to > relaxation.was ? Toward::up : Toward::down));
  return shown.unit.empty() ? value : value + " " + shown.unit;
}

std::string nothing_passes(const Answer& answer) {
  const std::uint64_t tried = answer.search.candidates;
  std::string words = answer.search.continuous ? "No screw was found that passes."
                      : tried == 1             ? "The one screw there is does not pass."
                                   : fmt::format("No screw of the {} passes.", engine::count_in_full(tried));
  if (!answer.relax.empty()) {
    const Relaxation& first = answer.relax.front();
    words += fmt::format(" Nearest: {}; {}.", first.admits, relaxed_words(*answer.study, first));
  } else if (!answer.no_single_change.empty()) {
    words += fmt::format(" No single change helps: {} would have to give way together.",
                         list_of(limit_words(answer.no_single_change)));
  }
  return words;
}

}  // namespace

std::string hundred_of(const Answer& answer) { return answer.hundred.empty() ? "pulls" : answer.hundred; }

std::string relaxed_words(const Study& study, const Relaxation& relaxation) {
  const HisUnits his(study);
  if (relaxation.must == models::Must::goes_first)
    return fmt::format("it would pass if another part might go at {} of the torque at which {}",
                       changed_to(relaxation, his), breaks_words(find_limit(study, relaxation.must)->part));
  const engine::Dimension dimension = relaxation.of_margin ? engine::Dimension::none : relaxation.dimension;
  return fmt::format("it would pass if {}{} were {} instead of {}", relaxation.of_margin ? "the margin of " : "",
                     limit_words(relaxation.must), changed_to(relaxation, his), his.given(relaxation.was, dimension));
}

std::string share_words(const LimitVerdict& limit, const std::string& hundred) {
  const double share = 100 * limit.odds.estimate;
  const double short_of = 100 - share;
  const double allowed = limit.limit.odds ? allowed_of_hundred(*limit.limit.odds) : 100;
  if (short_of < 1) {
    const std::string few = said(shortfall(limit), allowed).estimate;
    return fmt::format("in all but {} of 100 {}", few, hundred);
  }
  const double nearest = std::round(share);
  const bool contradicts = (nearest >= 100 - allowed) != (share >= 100 - allowed);
  const double shown = contradicts   ? beside(share, 100 - allowed, false)
                       : nearest < 1 ? to_three(share, Toward::nearest)
                                     : nearest;
  return fmt::format("in {} of 100 {}", number(shown), hundred);
}

}  // namespace say

std::string verdict_sentence(const Answer& answer) {
  if (!answer.pick) return say::nothing_passes(answer);
  std::vector<std::string> parts = {say::reach_sentence(answer), say::limits_sentence(answer)};
  if (answer.governs) parts.push_back(say::capital(say::limit_words(*answer.governs)) + " governs.");
  if (!answer.settled()) parts.push_back("Not settled: the passes reached their most first.");
  std::erase(parts, "");
  return say::joined(parts, " ");
}

}  // namespace studies
