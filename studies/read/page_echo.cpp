#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/format.hpp"
#include "engine/base/utf8.hpp"
#include "studies/read/page.hpp"

namespace studies::read {

using engine::Dimension;
using engine::Node;

void Page::echo(const std::string& path, const Node& node, std::optional<double> si, Dimension dimension) {
  study.echoes.push_back(
      {path, node.place.line, node.kind == Node::Kind::text ? node.text : as_typed(node), si, dimension, "typed"});
}

void Page::echo_other(const std::string& path, std::string given, std::optional<double> si, Dimension dimension,
                      std::string source) {
  study.echoes.push_back({path, 0, std::move(given), si, dimension, std::move(source)});
}

void Page::echo_default(const std::string& path, std::optional<double> si) {
  const KeyRow* row = find_key(path);
  echo_other(path, std::string(row->usual), si, row->dimension, fmt::format("default: {}", row->why));
}

void Page::settle_units() {
  std::stable_sort(units_.begin(), units_.end(), [](const UnitUsed& a, const UnitUsed& b) {
    return a.place.line != b.place.line ? a.place.line < b.place.line : a.place.column < b.place.column;
  });
  std::size_t inch = 0;
  for (const UnitUsed& used : units_) {
    inch += engine::is_inch_unit(used.unit) ? 1 : 0;
    const auto of_it = [&](const auto& one) { return one.first == used.dimension && one.second == used.unit; };
    if (std::none_of(study.units.begin(), study.units.end(), of_it))
      study.units.emplace_back(used.dimension, used.unit);
  }
  study.inch = 2 * inch > units_.size();
}

std::string as_typed(const Node& node) {
  std::string words;
  switch (node.kind) {
    case Node::Kind::text:
      return fmt::format("\"{}\"", engine::excerpt(node.text));
    case Node::Kind::number:
      return engine::plain(node.number);
    case Node::Kind::truth:
      return node.truth ? "true" : "false";
    case Node::Kind::list:
      for (const Node& item : node.items) words += (words.empty() ? "" : ", ") + as_typed(item);
      return "[" + words + "]";
    case Node::Kind::table:
      for (const auto& [key, value] : node.entries)
        words += (words.empty() ? "" : ", ") + key.name + " = " + as_typed(value);
      return "{ " + words + " }";
    case Node::Kind::other:
      return node.text;
  }
  return words;
}

bool same(double a, double b) { return std::abs(a - b) <= 1e-9 * std::max(std::abs(a), std::abs(b)); }

}  // namespace studies::read
