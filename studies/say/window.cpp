#include "studies/say/window.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "studies/ask/aim.hpp"
#include "studies/say/neighbours.hpp"
#include "studies/say/units_of_his.hpp"
#include "studies/say/words.hpp"

namespace studies::say {
namespace {

using Entry = std::vector<Neighbour>::const_iterator;

/// Sizes named one by one at most.
constexpr std::size_t named = 6;

bool holds(const Neighbour& it) { return it.verdict.passes; }

/// What a size is called: its designation, or its diameter where that is free.
std::string size_name(const Answer& answer, const Neighbour& it) {
  if (!answer.search.continuous) return it.verdict.designation;
  return HisUnits(*answer.study)(it.verdict.design.thread.diameter, engine::Dimension::length);
}

/// "a smaller one buckles or is too slender"; empty where there is none.
std::string outside(const Answer& answer, const char* which, Entry from, Entry to) {
  std::vector<std::string> verbs;
  for (Entry it = from; it != to; ++it) {
    const std::string verb = it->verdict.over_cap ? "goes over a cap"
                             : it->verdict.misses ? missing_verb(*answer.study, *it->verdict.misses)
                                                  : "cannot be used";
    if (std::find(verbs.begin(), verbs.end(), verb) == verbs.end()) verbs.push_back(verb);
  }
  return verbs.empty() ? "" : fmt::format("a {} one {}", which, joined(verbs, " or "));
}

std::string one_run(const Answer& answer, Entry first, Entry end) {
  const std::vector<Neighbour>& window = answer.window;
  const std::string from = size_name(answer, *first);
  std::string words = end - first == 1 ? fmt::format("Window: only {} holds", from)
                                       : fmt::format("Window: {} to {} hold", from, size_name(answer, *(end - 1)));
  std::vector<std::string> rest = {outside(answer, "smaller", window.begin(), first),
                                   outside(answer, "bigger", end, window.end())};
  std::erase(rest, "");
  return rest.empty() ? words + ", all there are." : words + "; " + joined(rest, ", ") + ".";
}

std::string with_holes(const Answer& answer) {
  std::vector<std::string> names;
  for (const Neighbour& it : answer.window)
    if (holds(it)) names.push_back(size_name(answer, it));
  const std::size_t count = names.size();
  const std::string more = count > named ? fmt::format(" and {} more", number_in_words(count - named)) : "";
  if (count > named) names.resize(named);
  return fmt::format("Of {} sizes from {} to {} {} {}: {}.", number_in_words(answer.window.size()),
                     size_name(answer, answer.window.front()), size_name(answer, answer.window.back()),
                     number_in_words(count), count == 1 ? "holds" : "hold",
                     more.empty() ? list_of(names) : joined(names, ", ") + more);
}

}  // namespace

std::string window_words(const Answer& answer) {
  const std::vector<Neighbour>& window = answer.window;
  if (window.size() < 2) return "";
  const Entry first = std::find_if(window.begin(), window.end(), holds);
  const Entry end = std::find_if_not(first, window.end(), holds);
  return std::none_of(end, window.end(), holds) && first != end ? one_run(answer, first, end) : with_holes(answer);
}

Json window_json(const Answer& answer, Notes& notes) {
  Json window = Json::array();
  for (const Neighbour& it : answer.window) {
    const CandidateVerdict& v = it.verdict;
    const std::string name = "window." + v.designation;
    Json misses = Json::array();
    for (const models::Must must : it.misses) misses.push_back(models::row(must).name);
    if (v.over_cap) misses.push_back(missed_name(*answer.study, v));
    window.push_back(Json{{"designation", v.designation.empty() ? Json(nullptr) : Json(v.designation)},
                          {"diameter", quantity(notes, v.design.thread.diameter, engine::Dimension::length, name)},
                          {"mass", quantity(notes, v.mass > 0 ? v.mass : NAN, engine::Dimension::mass, name)},
                          {"holds", holds(it)},
                          {"misses", std::move(misses)},
                          {"why", v.why.empty() ? Json(nullptr) : Json(v.why)}});
  }
  return window;
}

}  // namespace studies::say
