#include "studies/read/page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/format.hpp"
#include "engine/base/unit_scale.hpp"
#include "engine/base/utf8.hpp"
#include "studies/read/suggest.hpp"

namespace studies::read {

using engine::Dimension;
using engine::Node;
using engine::Place;

Place View::place(const std::string& key) const {
  if (!node) return {};
  for (const auto& [name, value] : node->entries)
    if (name.name == key) return name.place;
  return node->place;
}

Page::Page(std::string file, const Node& root, Study& study_, FileSource files)
    : study(study_), file_(std::move(file)), root_(root), files_(std::move(files)) {}

View Page::table(const View& in, const std::string& key) {
  const Node* node = in.find(key);
  if (node && node->kind != Node::Kind::table) {
    refuse_kind(*node, in.under(key), "a table");
    node = nullptr;
  }
  return {node, in.under(key)};
}

void Page::refuse(Place place, std::string problem, std::string reason, std::string fix) {
  refuse_in(file_, place, std::move(problem), std::move(reason), std::move(fix));
}

void Page::refuse_in(const std::string& file, Place place, std::string problem, std::string reason, std::string fix) {
  problems_.push_back(
      {file, place.line, place.column, std::move(problem), engine::capital(std::move(reason)), std::move(fix)});
}

void Page::caution(Level level, std::string words, std::string why) {
  study.cautions.push_back({level, std::move(words), std::move(why)});
}

void Page::refuse_kind(const Node& node, const std::string& path, const std::string& due) {
  const KeyRow* row = find_key(path);
  refuse(node.place, fmt::format("'{}' is {} where {} is due", path, node.kind_in_words(), due),
         row ? std::string(row->help) : "", fmt::format("write {}", due));
}

void Page::check_keys() { check_keys(root_, ""); }

void Page::check_keys(const Node& node, const std::string& path) {
  for (const auto& [key, value] : node.entries) {
    const std::string full = path.empty() ? key.name : path + "." + key.name;
    // A dot inside a quoted key would read as a path of its own.
    const KeyRow* row = key.name.find_first_of(".*[]") == std::string::npos ? find_key(full) : nullptr;
    if (!row) {
      spoiled_.insert(&node);
      refuse(key.place,
             fmt::format("unknown key '{}'{}", engine::excerpt(key.name), path.empty() ? "" : " in [" + path + "]"), "",
             fix_for_key(key.name, path));
    } else if (row->kind == Kind::not_built) {
      spoiled_.insert(&node);
      refuse(key.place, fmt::format("'{}' is not built yet", key.name),
             fmt::format("This version cannot reckon with {} ({})", full, row->help), "take it out");
    } else if (value.kind == Node::Kind::table && !names_below(full).empty()) {
      check_keys(value, full);
    } else if (value.kind == Node::Kind::list && !names_below(full).empty()) {
      for (const Node& item : value.items)
        if (item.kind == Node::Kind::table) check_keys(item, full);
    }
  }
}

std::optional<double> Page::quantity(const Node& node, const std::string& path, Dimension dimension) {
  if (node.kind == Node::Kind::number && dimension == Dimension::none) return node.number;
  if (node.kind != Node::Kind::number && node.kind != Node::Kind::text) {
    refuse_kind(node, path, dimension == Dimension::none ? "a number" : "a quantity with its unit");
    return std::nullopt;
  }
  try {
    const std::string typed = node.kind == Node::Kind::text ? node.text : engine::plain(node.number);
    const engine::Quantity q = engine::parse_quantity(typed, dimension);
    if (dimension == Dimension::none) return q.si;
    const bool reciprocal = dimension == Dimension::length && q.si > 0 &&
                            engine::in_unit(2 * q.si, q.unit, dimension) < engine::in_unit(q.si, q.unit, dimension);
    if (reciprocal && path.find(".pitch") == std::string::npos) {
      refuse(node.place, fmt::format("'{}' is given as threads in a length", path), "Only a pitch is",
             "write a length, like '1/2 in'");
      return std::nullopt;
    }
    if (!reciprocal) units_.push_back({node.place, dimension, q.unit});
    return q.si;
  } catch (const engine::QuantityError& error) {
    refuse(node.place, fmt::format("{}: {}", path, error.problem), error.reason, error.fix);
    return std::nullopt;
  }
}

bool Page::keeps(double number, const Node& node, const std::string& path, Bound bound) {
  std::string due;
  switch (bound) {
    case Bound::none:
      break;
    case Bound::above_zero:
      due = number > 0 ? "" : "above 0";
      break;
    case Bound::zero_or_more:
      due = number >= 0 ? "" : "0 or more";
      break;
    case Bound::one_or_more:
      due = number >= 1 ? "" : "1 or more";
      break;
    case Bound::zero_to_one:
      due = number >= 0 && number <= 1 ? "" : "from 0 to 1";
      break;
    case Bound::share:
      due = number > 0 && number <= 1 ? "" : "above 0 and at most 1 (100 %)";
      break;
    case Bound::odds:
      due = number > 0 && number < 1 ? "" : "between 0 and 1, like 0.95";
      break;
  }
  if (due.empty()) return true;
  const KeyRow* row = find_key(path);
  refuse(node.place, fmt::format("{} = {} is out of range", path, as_typed(node)), row ? std::string(row->help) : "",
         "use a value " + due);
  return false;
}

std::optional<double> Page::value(const Node& node, const std::string& path, Dimension dimension, Bound bound) {
  const std::optional<double> si = quantity(node, path, dimension);
  if (!si || !keeps(*si, node, path, bound)) return std::nullopt;
  echo(path, node, si, dimension);
  return si;
}

std::optional<double> Page::number(const View& in, const std::string& key) {
  const Node* node = in.find(key);
  const KeyRow* row = find_key(in.under(key));
  if (!node || !row) return std::nullopt;
  const std::optional<double> si = value(*node, in.under(key), row->dimension, row->bound);
  if (si && row->kind == Kind::whole && *si != std::floor(*si)) {
    refuse(node->place, fmt::format("{} = {} is not a whole number", in.under(key), as_typed(*node)),
           std::string(row->help), "write a whole number");
    return std::nullopt;
  }
  return si;
}

double Page::number_or_default(const View& in, const std::string& key) {
  const KeyRow* row = find_key(in.under(key));
  const double usual = engine::parse_quantity(row->usual, row->dimension).si;
  if (in.has(key)) return number(in, key).value_or(usual);
  echo_default(in.under(key), usual);
  return usual;
}

std::optional<std::string> Page::text(const View& in, const std::string& key) {
  const Node* node = in.find(key);
  if (!node) return std::nullopt;
  if (node->kind != Node::Kind::text) {
    refuse_kind(*node, in.under(key), "a text in quotes");
    return std::nullopt;
  }
  return node->text;
}

bool Page::known(const Node& node, const std::string& path, const std::vector<std::string>& words) {
  if (node.kind != Node::Kind::text) {
    refuse_kind(node, path, "a text in quotes");
    return false;
  }
  if (std::find(words.begin(), words.end(), node.text) != words.end()) return true;
  refuse(node.place, fmt::format("unknown word '{}' for {}", engine::excerpt(node.text), path), "",
         write_instead(node.text, words));
  return false;
}

std::optional<std::string> Page::word(const View& in, const std::string& key, const std::vector<std::string>& words) {
  const Node* node = in.find(key);
  if (!node || !known(*node, in.under(key), words)) return std::nullopt;
  echo(in.under(key), *node, std::nullopt, Dimension::none);
  return node->text;
}

std::string Page::word_or_default(const View& in, const std::string& key, const std::vector<std::string>& words) {
  const std::string usual(find_key(in.under(key))->usual);
  if (in.has(key)) return word(in, key, words).value_or(usual);
  echo_default(in.under(key), std::nullopt);
  return usual;
}

bool Page::truth_or_false(const View& in, const std::string& key) {
  const Node* node = in.find(key);
  if (!node) {
    echo_other(in.under(key), "false", std::nullopt, Dimension::none, "default: not stated");
    return false;
  }
  if (node->kind != Node::Kind::truth) {
    refuse_kind(*node, in.under(key), "true or false (without quotes)");
    return false;
  }
  echo(in.under(key), *node, std::nullopt, Dimension::none);
  return node->truth;
}

}  // namespace studies::read
