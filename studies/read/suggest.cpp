#include "studies/read/suggest.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "engine/base/nearest.hpp"
#include "studies/read/keys.hpp"

namespace studies::read {

std::string one_of(const std::vector<std::string>& words) {
  std::string all;
  for (std::size_t i = 0; i < words.size(); ++i)
    all += (i == 0 ? "" : i + 1 == words.size() ? " or " : ", ") + words[i];
  return all;
}

std::string write_instead(const std::string& word, const std::vector<std::string>& words) {
  const std::string near = engine::nearest(word, words);
  if (!near.empty()) return fmt::format("write '{}'", near);
  return words.size() == 1 ? fmt::format("write '{}'", words.front()) : "use one of: " + one_of(words);
}

std::string fix_for_key(const std::string& key, const std::string& path) {
  if (path == "must" && (key == "goes_first" || key == "first"))
    return "write first = true on the part that is to break first, like stripping = { first = true }";
  const std::vector<std::string> here = names_below(path);
  const std::string near = engine::nearest(key, here);
  if (!near.empty()) return fmt::format("did you mean '{}'?", near);
  for (const char* section : {"duty", "choose", "scatter", "must", "aim", "passes"}) {
    const std::vector<std::string> there = names_below(section);
    if (std::find(there.begin(), there.end(), key) != there.end()) return fmt::format("move it into [{}]", section);
  }
  std::vector<std::string> built;
  for (const std::string& name : here) {
    const KeyRow* row = find_key(path.empty() ? name : path + "." + name);
    if (row && row->kind != Kind::not_built) built.push_back(name);
  }
  return "take it out; the keys here are " + one_of(built);
}

}  // namespace studies::read
