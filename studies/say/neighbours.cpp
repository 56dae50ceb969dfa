#include "studies/say/neighbours.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/format.hpp"
#include "studies/ask/explain.hpp"
#include "studies/say/aims.hpp"
#include "studies/say/figures.hpp"
#include "studies/say/limits.hpp"
#include "studies/say/sentences.hpp"
#include "studies/say/units_of_his.hpp"
#include "studies/say/words.hpp"

namespace studies::say {
namespace {

constexpr std::size_t lighter_shown = 6;

std::string and_others(const Neighbour& neighbour) {
  std::vector<std::string> others;
  for (const models::Must must : neighbour.misses)
    if (must != neighbour.verdict.misses) others.push_back(limit_words(must));
  return others.empty() ? "" : "; it misses " + list_of(others) + " too";
}

std::string why(const Answer& answer, const Neighbour& neighbour) {
  const CandidateVerdict& it = neighbour.verdict;
  if (it.ruled_out) return it.why.empty() ? "cannot be used" : "cannot be used: " + it.why;
  if (it.over_cap) return over_cap_words(*answer.study, it);
  if (!it.misses) {
    if (!it.passes) return it.why.empty() ? "was not judged" : it.why;
    return answer.pick && it.mass > answer.pick->mass ? "passes too, and weighs more" : "passes too";
  }
  const std::string fresh = it.fresh_failed ? " on fresh passes" : "";
  const models::Limit* limit = find_limit(*answer.study, *it.misses);
  if (limit == nullptr || !std::isfinite(it.has))
    return missing_verb(*answer.study, *it.misses) + fresh + and_others(neighbour);
  return fmt::format("{}{}: {}{}", missing_verb(*answer.study, *it.misses), fresh,
                     missed_words(*limit, {it.has, it.needs}, HisUnits(*answer.study)), and_others(neighbour));
}

std::string neighbour_sentence(const Answer& answer, const std::optional<Neighbour>& neighbour, const char* where) {
  if (!answer.searched || !answer.pick) return "";
  if (!neighbour)
    return answer.search.continuous ? "" : fmt::format("No size {} is among those to choose from.", where);
  const std::string mass = HisUnits(*answer.study)(neighbour->verdict.mass, engine::Dimension::mass);
  const bool ruled_out = neighbour->verdict.ruled_out;
  return fmt::format("One size {}, {}{}, {}.", where, neighbour->verdict.designation,
                     ruled_out ? "" : " (" + mass + ")", why(answer, *neighbour));
}

}  // namespace

std::string missing_verb(const Study& study, models::Must must) {
  using models::Must;
  switch (must) {
    case Must::force:
      return "falls short of the force";
    case Must::torque:
      return "takes too much torque";
    case Must::hand_force:
      return "takes too much hand force";
    case Must::yield:
      return "is too weak in the body";
    case Must::thread_root:
      return "is too weak at the thread root";
    case Must::nut_body:
      return "is too weak in the nut body";
    case Must::buckling:
      return "buckles";
    case Must::slenderness:
      return "is too slender";
    case Must::bearing:
      return "presses its threads too hard";
    case Must::face_bearing:
      return "presses its face too hard";
    case Must::stripping:
      return "is too weak against stripping";
    case Must::self_locking:
      return "does not lock itself";
    case Must::overload:
      return "does not stand the overload pull";
    case Must::goes_first:
      return "lets another part go before " + breaks_words(find_limit(study, must)->part);
    case Must::mass:
      return "is too heavy";
  }
  return "misses";
}

namespace {

/// The next size down among the lighter ones, which know what would admit them; null where it is none of them.
const CandidateVerdict* next_lighter(const Answer& answer) {
  if (!answer.next_size_down) return nullptr;
  const CandidateVerdict& down = answer.next_size_down->verdict;
  const auto same = std::find_if(answer.lighter.begin(), answer.lighter.end(), [&](const CandidateVerdict& it) {
    return it.designation == down.designation && like(it, down);
  });
  return same == answer.lighter.end() ? nullptr : &*same;
}

}  // namespace

std::string size_down(const Answer& answer) {
  const std::string words = neighbour_sentence(answer, answer.next_size_down, "down");
  const CandidateVerdict* it = next_lighter(answer);
  return it ? words + " " + admitted_words(*answer.study, it->admit, "it") : words;
}

std::string size_up(const Answer& answer) { return neighbour_sentence(answer, answer.next_size_up, "up"); }

std::string lighter_ones(const Answer& answer) {
  const bool same = answer.lighter.size() == 1 && answer.next_size_down &&
                    answer.lighter.front().designation == answer.next_size_down->verdict.designation;
  if (answer.lighter.empty() || same) return "";
  const HisUnits his(*answer.study);
  std::vector<std::string> words;
  for (const CandidateVerdict& it : answer.lighter) {
    if (words.size() == lighter_shown) break;
    const std::string misses = it.over_cap ? "over the cap on " + quantity_words(answer.study->caps[*it.over_cap].of)
                               : it.misses ? limit_words(*it.misses)
                               : it.why.empty() ? "ruled out"
                                                : without_stop(it.why);
    const std::string mass = it.mass > 0 ? his(it.mass, engine::Dimension::mass) + ", " : "";
    words.push_back(fmt::format("{} ({}{})", it.designation, mass, misses));
  }
  const std::size_t more = answer.lighter.size() - words.size();
  const std::string rest = more == 0 ? "" : fmt::format(" and {} more", number_in_words(more));
  const bool by_mass = best_words(*answer.study) == "lightest";
  const std::string all = (by_mass ? "Lighter" : "Better by the aim") + std::string(", with the first limit missed: ") +
                          joined(words, ", ") + rest + ".";
  if (next_lighter(answer)) return all;
  const CandidateVerdict& nearest = answer.lighter.front();
  return all + " " + admitted_words(*answer.study, nearest.admit, nearest.designation);
}

std::string proof(const Answer& answer) {
  if (!answer.sized) return "";
  const SearchReport& search = answer.search;
  if (!answer.searched) return "Nothing to choose: one screw judged.";
  const std::string examined =
      fmt::format("{} of {} examined", engine::count_in_full(search.examined), counted(search.candidates, "screw"));
  if (!answer.pick && !search.proven) return examined + ": nothing found that passes, which proves nothing.";
  if (!answer.pick) return fmt::format("All {} judged or ruled out.", counted(search.candidates, "screw"));
  const std::string best = best_words(*answer.study);
  if (search.proven) return fmt::format("Proven {} of {}.", best, counted(search.candidates, "screw"));
  const bool local = search.continuous && search.starts > 0;
  const std::string how =
      local ? " from " + counted(static_cast<std::uint64_t>(search.starts), "start") : ": " + examined;
  if (!std::isfinite(search.gap) || search.gap <= 0) return "Best found" + how + ".";
  const bool by_mass = best == "lightest";
  return fmt::format("Best found{}; what is left could be {} % {} at most.", how,
                     number(to_three(100 * search.gap / (1 + search.gap), Toward::up)),
                     by_mass ? "lighter" : "better by the aim");
}

std::string unused_aim(const Answer& answer) {
  return answer.study->aim_typed && !answer.searched ? "The screw is given: [aim] is not used." : "";
}

std::string passes_words(const Answer& answer) {
  if (answer.passes == 0 && answer.search.shared_passes > 0)
    return fmt::format("{} shared passes, key {}.", engine::count_in_full(answer.search.shared_passes),
                       answer.study->passes.key);
  if (answer.passes == 0) return "";
  const std::string passes = fmt::format("{} {}passes, key {}", engine::count_in_full(answer.passes),
                                         answer.searched ? "fresh " : "", answer.study->passes.key);
  if (!answer.settling) return passes + ".";
  const SettlingReport& it = *answer.settling;
  return fmt::format("{}: {} to {} in {} of {}.", passes, it.settled ? "settled" : "not settled",
                     counted(static_cast<std::uint64_t>(it.digits), "digit"),
                     (it.batches == 1 ? std::string("one batch") : engine::count_in_full(it.batches) + " batches"),
                     engine::count_in_full(it.batch_passes));
}

}  // namespace studies::say
