#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "engine/base/format.hpp"
#include "studies/read/choose.hpp"

namespace studies::read {
namespace {

using engine::Node;

/// "1.5" of "1.5 d"; none where the text is no multiple of the diameter.
std::optional<std::string> multiple(const std::string& text) {
  const std::size_t last = text.find_last_not_of(" \t");
  if (last == std::string::npos || last == 0 || text[last] != 'd') return std::nullopt;
  const unsigned char before = static_cast<unsigned char>(text[last - 1]);
  if (!std::isdigit(before) && before != ' ' && before != '.') return std::nullopt;
  return text.substr(0, last);
}

std::optional<Length> read_length(Page& page, const Node& node, const std::string& path) {
  const std::optional<std::string> times = node.kind == Node::Kind::text ? multiple(node.text) : std::nullopt;
  if (!times) {
    const std::optional<double> si = page.value(node, path, engine::Dimension::length, Bound::above_zero);
    return si ? std::optional<Length>({*si, false}) : std::nullopt;
  }
  Node number = node;
  number.text = *times;
  const std::optional<double> share = page.quantity(number, path, engine::Dimension::none);
  if (!share || !page.keeps(*share, node, path, Bound::above_zero)) return std::nullopt;
  const Range d = diameters(page.study.choices.thread);
  page.echo(path, node, d.to > 0 && d.fixed() ? std::optional<double>(*share * d.from) : std::nullopt,
            engine::Dimension::length);
  return Length{*share, true};
}

void read_length_step(Page& page, const View& range) {
  const Node* node = range.find("step");
  if (!node) return;
  for (const ThreadChoice::Free& free : page.study.choices.thread.free)
    for (const Range& each : {free.diameter, free.pitch})
      if (!each.fixed() && !(each.step > 0)) {
        page.refuse(node->place, "choose.nut_length has a step and the thread has none",
                    "Makeable values are tried one by one", "give diameter and pitch a step too, or take this one out");
        return;
      }
  page.study.choices.nut_length.step = read_length(page, *node, range.under("step"));
}

void read_length_range(Page& page, const View& range) {
  std::optional<Length> ends[2];
  for (const int i : {0, 1}) {
    const std::string key = i == 0 ? "from" : "to";
    const Node* node = range.find(key);
    if (node) ends[i] = read_length(page, *node, range.under(key));
    if (!node && !page.spoiled(range))
      page.refuse(range.node->place, fmt::format("'{}' is missing", range.under(key)), "A range has two ends",
                  fmt::format("write {} = \"…\"", key));
  }
  if (!ends[0] || !ends[1]) return;
  const Range d = diameters(page.study.choices.thread);
  for (const double diameter : {d.from, d.to})
    if (diameter > 0 && !(ends[0]->of(diameter) < ends[1]->of(diameter))) {
      page.refuse(range.node->place, "choose.nut_length: from is not below to",
                  fmt::format("On a screw of {} mm they are {} and {} mm", engine::three_figures(diameter * 1e3),
                              engine::three_figures(ends[0]->of(diameter) * 1e3),
                              engine::three_figures(ends[1]->of(diameter) * 1e3)),
                  "write the shorter as from, the longer as to");
      return;
    }
  page.study.choices.nut_length.range = {*ends[0], *ends[1]};
  read_length_step(page, range);
}

void read_nut_outside(Page& page, const View& choose) {
  constexpr double least = 1.5, usual = 1.6;
  page.study.choices.nut_outside = {usual, true};
  const Node* node = choose.find("nut_outside");
  if (!node) {
    page.echo_default("choose.nut_outside", std::nullopt);
    return;
  }
  const std::optional<Length> outside = read_length(page, *node, "choose.nut_outside");
  if (!outside) return;
  const double d = diameters(page.study.choices.thread).from;
  if (outside->times_diameter ? outside->value < least : d > 0 && outside->value < least * d * (1 - 1e-9)) {
    page.refuse(node->place, fmt::format("choose.nut_outside = {} is below 1.5 d", as_typed(*node)),
                "A thinner nut bursts",
                outside->times_diameter ? "use \"1.5 d\" or more"
                                        : fmt::format("use {} mm or more", engine::three_figures(least * d * 1e3)));
    return;
  }
  page.study.choices.nut_outside = *outside;
}

}  // namespace

void read_nut(Page& page, const View& choose) {
  if (const Node* node = choose.find("nut_length")) {
    if (node->kind == Node::Kind::table)
      read_length_range(page, page.table(choose, "nut_length"));
    else
      for (const Node* item : one_or_list(*node))
        if (const auto length = read_length(page, *item, "choose.nut_length"))
          page.study.choices.nut_length.values.push_back(*length);
  }
  read_nut_outside(page, choose);
}

}  // namespace studies::read
