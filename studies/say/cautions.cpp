#include "studies/say/cautions.hpp"

#include <algorithm>

namespace studies::say {
namespace {

void add_once(std::vector<Caution>& all, const Caution& caution) {
  const auto same = [&](const Caution& other) { return other.text == caution.text; };
  if (std::none_of(all.begin(), all.end(), same)) all.push_back(caution);
}

}  // namespace

Caution standing_caution() {
  return {Level::caution,
          "A calculation aid: local law, codes, the maker's instructions and licensed practice come first.", ""};
}

std::vector<Caution> all_cautions(const Answer& answer) {
  std::vector<Caution> all;
  for (const Caution& caution : answer.cautions) add_once(all, caution);
  for (const Caution& caution : answer.study->cautions) add_once(all, caution);
  std::erase_if(all, [](const Caution& caution) { return caution.text == standing_caution().text; });
  std::stable_sort(all.begin(), all.end(), [](const Caution& a, const Caution& b) { return a.level > b.level; });
  all.push_back(standing_caution());
  return all;
}

}  // namespace studies::say
