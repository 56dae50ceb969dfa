#include "studies/say/sentences.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/format.hpp"
#include "studies/say/aims.hpp"
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

/// What a column's length is typed as.
std::string length_words(const Study& study) { return study.duty.free_length ? "free length" : "travel"; }

/// "20.1 kN instead of 22 kN".
std::string instead_words(const Study& study, const Relaxation& it) {
  const HisUnits his(study);
  const engine::Dimension dimension = it.of_margin ? engine::Dimension::none : it.dimension;
  return his(it.to, dimension) + " instead of " + his.given(it.was, dimension);
}

/// "force were 20.1 kN instead of 22 kN", "the margin of buckling were 2.47 instead of 3".
std::string limit_changed(const Study& study, const Relaxation& it) {
  if (it.must == models::Must::goes_first)
    return fmt::format("another part might go at {} of the torque at which {}", number(it.to),
                       breaks_words(find_limit(study, it.must)->part));
  return fmt::format("{}{} were {}", it.of_margin ? "the margin of " : "", limit_words(it.must),
                     instead_words(study, it));
}

}  // namespace

std::string hundred_of(const Answer& answer) { return answer.hundred.empty() ? "pulls" : answer.hundred; }

std::string relaxed_words(const Study& study, const Relaxation& it) {
  switch (it.kind) {
    case Change::Kind::limit:
      return "it would pass if " + limit_changed(study, it);
    case Change::Kind::free_length:
      return fmt::format("it would pass if the {} were {}", length_words(study), instead_words(study, it));
    case Change::Kind::screw_strength:
      return fmt::format("it would pass if the screw were {} times as strong", number(it.to));
    case Change::Kind::cap:
      return fmt::format("it would pass if the cap on {} were {}", quantity_words(study.caps[it.cap].of),
                         instead_words(study, it));
    case Change::Kind::nut_strength:
      break;
  }
  return fmt::format("it would pass if the nut were {} times as strong", number(it.to));
}

std::string admitted_words(const Study& study, const std::optional<Relaxation>& admit, const std::string& whom) {
  if (!admit) return fmt::format("No single change admits {}.", whom);
  const auto would_do = [&](const std::string& words) { return capital(whom) + " would do " + words + "."; };
  switch (admit->kind) {
    case Change::Kind::limit:
      return would_do("if " + limit_changed(study, *admit));
    case Change::Kind::free_length:
      return would_do(fmt::format("with a {} of {}", length_words(study), instead_words(study, *admit)));
    case Change::Kind::screw_strength:
      return would_do(fmt::format("with a screw {} times as strong", number(admit->to)));
    case Change::Kind::cap:
      return would_do(fmt::format("with a cap on {} of {}", quantity_words(study.caps[admit->cap].of),
                                  instead_words(study, *admit)));
    case Change::Kind::nut_strength:
      break;
  }
  return would_do(fmt::format("with a nut {} times as strong", number(admit->to)));
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
