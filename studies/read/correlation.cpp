#include <fmt/format.h>

#include <algorithm>

#include "engine/base/utf8.hpp"
#include "studies/ask/inputs.hpp"
#include "studies/read/scatter.hpp"
#include "studies/read/suggest.hpp"

namespace studies::read {
namespace {

using engine::Node;
using models::Input;

constexpr const char* form = "write [\"drag\", \"torque\", 0.3]: two inputs and their correlation";

/// What may be correlated: every input that scatters, by the name to type.
std::vector<std::pair<std::string, Input>> scattered(const Study& study) {
  std::vector<std::pair<std::string, Input>> names;
  for (const Scatter& scatter : study.scatter)
    if (scatter.handbook || !scatter.parts.empty())
      names.emplace_back(input_name(study.duty, scatter.input), scatter.input);
  return names;
}

std::optional<Input> input_of(Page& page, const Node& node, const std::vector<std::pair<std::string, Input>>& names) {
  const auto found = std::find_if(names.begin(), names.end(), [&](const auto& one) { return one.first == node.text; });
  if (found != names.end()) return found->second;
  const KeyRow* row = find_key("scatter." + node.text);
  if (row && row->kind == Kind::mixed && node.text != "correlation") {
    page.refuse(node.place, fmt::format("{} does not scatter", node.text), "Only what scatters can be correlated",
                fmt::format("say in [scatter] how {} scatters, or take the pair out", node.text));
    return std::nullopt;
  }
  std::vector<std::string> words;
  for (const auto& [name, input] : names) words.push_back(name);
  page.refuse(node.place, fmt::format("unknown input '{}' in scatter.correlation", engine::excerpt(node.text)), "",
              words.empty() ? "say in [scatter] what scatters" : write_instead(node.text, words));
  return std::nullopt;
}

bool same_pair(const Correlated& a, const Correlated& b) {
  return (a.one == b.one && a.other == b.other) || (a.one == b.other && a.other == b.one);
}

/// One pair; none where it was refused.
std::optional<Correlated> read_pair(Page& page, const Node& node, const std::string& path) {
  const bool formed = node.kind == Node::Kind::list && node.items.size() == 3 &&
                      node.items[0].kind == Node::Kind::text && node.items[1].kind == Node::Kind::text;
  if (!formed) {
    page.refuse(node.place, fmt::format("{} is no pair of inputs with their correlation", path), "", form);
    return std::nullopt;
  }
  const auto names = scattered(page.study);
  const auto one = input_of(page, node.items[0], names), other = input_of(page, node.items[1], names);
  const auto correlation = page.quantity(node.items[2], path, engine::Dimension::none);
  if (!one || !other || !correlation) return std::nullopt;
  if (*one == *other) {
    page.refuse(node.items[1].place, fmt::format("{} pairs {} with itself", path, node.items[0].text),
                "That correlation is 1 whatever is typed", "name two inputs");
    return std::nullopt;
  }
  if (!(*correlation > -1 && *correlation < 1)) {
    page.refuse(node.items[2].place, fmt::format("{} = {} is out of range", path, as_typed(node.items[2])),
                "It is a correlation", "use a value between -1 and 1, both left out");
    return std::nullopt;
  }
  return Correlated{*one, *other, node.items[0].text, node.items[1].text, *correlation, node.place};
}

}  // namespace

void read_correlation(Page& page, const View& scatter) {
  const Node* list = scatter.find("correlation");
  if (!list) return;
  if (list->kind != Node::Kind::list || list->items.empty() || list->items.front().kind != Node::Kind::list) {
    page.refuse(list->place, "scatter.correlation is no list of pairs", "", "write [[\"drag\", \"torque\", 0.3]]");
    return;
  }
  std::vector<Correlated>& pairs = page.study.correlations;
  std::size_t index = 0;
  for (const Node& node : list->items) {
    const std::string path = fmt::format("scatter.correlation[{}]", index++);
    const std::optional<Correlated> pair = read_pair(page, node, path);
    if (!pair) continue;
    if (std::any_of(pairs.begin(), pairs.end(), [&](const Correlated& earlier) { return same_pair(earlier, *pair); })) {
      page.refuse(node.place, fmt::format("{} and {} are paired twice", pair->name, pair->other_name), "",
                  "keep one of the two");
      continue;
    }
    const bool frictions = same_pair(*pair, {Input::thread_friction, Input::face_friction, "", "", 0, {}});
    if (frictions && scatter.has("shared_friction")) {
      page.refuse(node.place, "the correlation of the two frictions is given twice",
                  "shared_friction is that of their underlying normals", "keep this pair or shared_friction");
      continue;
    }
    page.echo(path, node, pair->correlation, engine::Dimension::none);
    pairs.push_back(*pair);
  }
}

}  // namespace studies::read
