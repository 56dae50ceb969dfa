#include "studies/say/limits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/format.hpp"
#include "studies/say/figures.hpp"
#include "studies/say/words.hpp"
#include "studies/say/wrap.hpp"

namespace studies::say {

using Kind = models::Limit::Kind;

engine::Dimension said_in(const models::Limit& limit) {
  return limit.kind == Kind::margin ? engine::Dimension::none : models::row(limit.must).dimension;
}

const models::Limit* find_limit(const Study& study, models::Must must) {
  for (const models::Limit& limit : study.limits)
    if (limit.must == must) return &limit;
  return nullptr;
}

std::string row_words(const models::Limit& limit) {
  return limit.must == models::Must::goes_first ? limit_words(limit.part) + " goes first" : limit_words(limit.must);
}

std::string asked_words(const models::Limit& limit, const HisUnits& his) {
  return his.given(limit.asked, said_in(limit));
}

std::string has_words(const models::Limit& limit, Judged it, const HisUnits& his) {
  return his.beside(it.has, it.asked, limit.kind == Kind::at_most, said_in(limit));
}

std::string missed_words(const models::Limit& limit, Judged it, const HisUnits& his) {
  const std::string share = limit.odds ? " in " + surely(limit) : "";
  return fmt::format("{}{}{} where {} is {}", limit.kind == Kind::margin ? "margin " : "", has_words(limit, it, his),
                     share, his.given(it.asked, said_in(limit)), limit.kind == Kind::at_most ? "allowed" : "asked");
}

double allowed_of_hundred(double odds) { return std::round(100 * (1 - odds) * 1e9) / 1e9; }

std::string surely(const models::Limit& limit) {
  if (!limit.odds) return "nominal";
  if (*limit.odds > 0.999) return "all but " + engine::plain(allowed_of_hundred(*limit.odds)) + " of 100";
  return engine::plain(100 - allowed_of_hundred(*limit.odds)) + " of 100";
}

std::string spare_words(double spare) {
  constexpr double rounding = 1e-9;  // a nut that is just long enough
  if (std::abs(spare) < rounding) return "0 %";
  return std::isfinite(spare) ? number(100 * spare) + " %" : number(spare);
}

Bounded shortfall(const LimitVerdict& limit) {
  return {100 * (1 - limit.odds.high), 100 * (1 - limit.odds.estimate), 100 * (1 - limit.odds.low)};
}

std::string shortfall_words(const LimitVerdict& limit, std::uint64_t passes) {
  const auto& odds = limit.limit.odds;
  const double allowed = odds ? allowed_of_hundred(*odds) : 100;
  const Said it = said(shortfall(limit), allowed);
  const std::string of = odds ? fmt::format("; {} allowed", given_number(allowed)) : "";
  if (limit.misses == 0)
    return fmt::format("none of {} fell short, at most {} in 100{}", engine::count_in_full(passes), it.high, of);
  if (odds && shortfall(limit).estimate < 1) return fmt::format("{} to {}{}", it.low, it.high, of);
  return fmt::format("{} fall short, {} to {}{}", it.estimate, it.low, it.high, of);
}

std::vector<const LimitVerdict*> by_spare(const Answer& answer) {
  std::vector<const LimitVerdict*> limits;
  for (const LimitVerdict& limit : answer.limits) limits.push_back(&limit);
  const auto spare = [](const LimitVerdict* limit) { return std::isnan(limit->spare) ? HUGE_VAL : limit->spare; };
  std::stable_sort(limits.begin(), limits.end(), [&](const auto* a, const auto* b) { return spare(a) < spare(b); });
  return limits;
}

std::vector<std::string> limit_table(const Answer& answer) {
  const HisUnits his(*answer.study);
  std::vector<std::vector<std::string>> rows = {{"what must hold", "in", "asked", "has", "to spare"}};
  std::vector<std::string> sentences;
  for (const LimitVerdict* it : by_spare(answer)) {
    const std::string has = has_words(it->limit, {it->has, it->asked_value}, his);
    const std::string asked = his.given(it->asked_value, said_in(it->limit));
    const std::string spare = spare_words(it->spare);
    const std::string missed = it->holds ? "" : "missed";
    rows.push_back({row_words(it->limit), surely(it->limit), asked, has, spare, missed});
    const std::string words = fmt::format("  {}{}: {}, asked {}, has {}, to spare {}", missed.empty() ? "" : "missed ",
                                          row_words(it->limit), surely(it->limit), asked, has, spare);
    for (const std::string& line : wrapped(words, 4)) sentences.push_back(line);
  }
  const std::vector<std::string> table = aligned(rows, 2);
  return fits(table) ? table : sentences;
}

}  // namespace studies::say
