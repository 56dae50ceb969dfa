#include "studies/read/part_reading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

namespace studies::read {

using engine::Node;
using engine::Shape;

std::string Reading::typed(const char* key) const {
  const Node* node = view.find(key);
  return node->kind == Node::Kind::text ? node->text : as_typed(*node);
}

std::optional<double> Reading::value(const char* key, Bound bound) const {
  const Node* node = view.find(key);
  return node ? page.value(*node, view.under(key), of.dimension, bound) : std::nullopt;
}

std::optional<Deviation> Reading::deviation(const char* key) const {
  const Node& node = *view.find(key);
  const std::size_t last = node.text.find_last_not_of(" \t");
  const bool relative = node.kind == Node::Kind::text && last != std::string::npos && node.text[last] == '%';
  if (relative && of.input == models::Input::diameters) {
    page.refuse(node.place, fmt::format("{} is a share", view.under(key)),
                "Pitch and root diameter stray by one length alike", "write a length, like \"0.02 mm\"");
    return std::nullopt;
  }
  const auto size =
      page.value(node, view.under(key), relative ? engine::Dimension::none : of.dimension, Bound::zero_or_more);
  return size ? std::optional<Deviation>({*size, relative}) : std::nullopt;
}

Varies Reading::varies() const {
  if (!view.has("varies")) {
    page.echo_other(view.under("varies"),
                    of.varies == Varies::every_pull    ? "every pull"
                    : of.varies == Varies::every_screw ? "every screw"
                                                       : "fixed",
                    std::nullopt, engine::Dimension::none, "default: usual of " + of.name);
    return of.varies;
  }
  const auto word = page.word(view, "varies", {"every pull", "every screw", "fixed"});
  return word == "every screw" ? Varies::every_screw : word == "fixed" ? Varies::fixed : Varies::every_pull;
}

std::optional<Shape> Reading::shape(Shape usual) const {
  if (!view.has("shape")) {
    page.echo_other(view.under("shape"), name(usual), std::nullopt, engine::Dimension::none,
                    "default: usual of " + of.name);
    return usual;
  }
  static const std::vector<Shape> shapes = {Shape::normal, Shape::lognormal, Shape::uniform, Shape::triangular,
                                            Shape::beta,   Shape::weibull,   Shape::gumbel,  Shape::student};
  std::vector<std::string> words;
  for (const Shape one : shapes) words.push_back(name(one));
  const auto word = page.word(view, "shape", words);
  if (!word) return std::nullopt;
  return *std::find_if(shapes.begin(), shapes.end(), [&](Shape one) { return name(one) == *word; });
}

std::optional<Kept> Reading::kept(Bound bound) const {
  constexpr double all = std::numeric_limits<double>::infinity();
  Kept kept{-all, all, ""};
  for (const auto& [key, end] : {std::pair("above", &kept.least), std::pair("below", &kept.most)}) {
    if (!view.has(key)) continue;
    const auto typed_end = value(key, bound);
    if (!typed_end) return std::nullopt;
    *end = *typed_end;
    kept.said += fmt::format(", {} {}", key, typed(key));
  }
  return kept;
}

bool Reading::alone(const char* key, const std::vector<std::string>& others) const {
  bool fits = true;
  for (const std::string& other : others)
    if (view.has(other)) {
      refuse(other.c_str(), fmt::format("{} has both '{}' and '{}'", view.path, key, other),
             "Each says by itself how it scatters", fmt::format("take '{}' or '{}' out", key, other));
      fits = false;
    }
  return fits;
}

void Reading::refuse(const char* key, std::string problem, std::string reason, std::string fix) const {
  page.refuse(view.place(key), std::move(problem), std::move(reason), std::move(fix));
}

}  // namespace studies::read
