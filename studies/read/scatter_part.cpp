#include <fmt/format.h>

#include <cmath>
#include <stdexcept>

#include "engine/base/format.hpp"
#include "studies/read/part_reading.hpp"

namespace studies::read {
namespace {

using engine::Marginal;
using engine::Node;
using engine::Shape;
using Role = ScatterPart::Role;

bool may_be_range(Shape shape) {
  return shape == Shape::normal || shape == Shape::lognormal || shape == Shape::uniform || shape == Shape::triangular;
}

/// Reads a part by its form.
struct Forms : Reading {
  std::optional<PartRead> by_range() const {
    if (!alone("low and high", {"mean", "dof"})) return std::nullopt;
    for (const char* end : {"low", "high"})
      if (!view.has(end)) {
        if (!page.spoiled(view))
          page.refuse(view.node->place, fmt::format("'{}' is missing", view.under(end)), "A range has two ends",
                      fmt::format("write {} = …", end));
        return std::nullopt;
      }
    const auto low = value("low", of.bound), high = value("high", of.bound);
    const bool limits = !view.has("inside") && view.has("shape") &&
                        (view.find("shape")->text == "uniform" || view.find("shape")->text == "triangular");
    const auto form = shape(of.shape);
    const Varies how = varies();
    if (form && !may_be_range(*form)) {
      refuse("shape", fmt::format("{}: low and high alone make no {}", view.path, name(*form)),
             "A range is normal, lognormal, uniform or triangular",
             "type mean and spread too, or use one of these four");
      return std::nullopt;
    }
    if (view.has("mode") && (!limits || form != Shape::triangular)) {
      refuse("mode", fmt::format("'{}' has no say here", view.under("mode")),
             "Only limits of a triangular shape have a mode", "write shape = \"triangular\" without inside");
      return std::nullopt;
    }
    if (limits && form == Shape::triangular && !view.has("mode")) {
      refuse("shape", fmt::format("'{}' is missing", view.under("mode")),
             "A triangular shape needs its most likely value", "write mode = …");
      return std::nullopt;
    }
    const auto mode = value("mode", of.bound);
    const double inside = limits ? 0 : page.number_or_default(view, "inside");
    const auto ends = kept(end_bound());
    if (!low || !high || !form || !ends || (view.has("mode") && !mode)) return std::nullopt;
    const std::string range = fmt::format("{} to {}", typed("low"), typed("high"));
    const Marginal marginal = !limits                   ? engine::range_of_practice(*low, *high, inside, *form)
                              : *form == Shape::uniform ? engine::uniform(*low, *high)
                                                        : engine::triangular(*low, *mode, *high);
    const std::string said =
        limits ? fmt::format("{}, {}", range, name(*form))
               : fmt::format("{} inside {} of 100, {}", range, engine::plain(inside * 100), name(*form));
    return PartRead{ScatterPart{ends->of(marginal), Role::value, how, said + ends->said, "typed"}, std::nullopt, true,
                    false};
  }

  std::optional<PartRead> by_readings() const {
    if (!alone("readings", {"mean", "shape", "spread", "within", "low", "high", "mode", "inside", "dof"}))
      return std::nullopt;
    const Node& list = *view.find("readings");
    if (list.kind != Node::Kind::list) {
      page.refuse_kind(list, view.under("readings"), "a list of readings");
      return std::nullopt;
    }
    std::vector<double> all;
    for (const Node& item : list.items)
      if (const auto reading = page.value(item, view.under("readings"), of.dimension, of.bound))
        all.push_back(*reading);
    if (all.size() < list.items.size()) return std::nullopt;
    if (all.size() < 2) {
      page.refuse(list.place, fmt::format("{} holds {} readings", view.under("readings"), all.size()),
                  "One reading says nothing of the scatter", "type two readings or more, better four");
      return std::nullopt;
    }
    return from_readings(all);
  }

  /// Student's distribution of the next value, or of an unknown constant where it varies "fixed".
  /// @source JCGM 101:2008, 6.4.9
  std::optional<PartRead> from_readings(const std::vector<double>& all) const {
    const double n = static_cast<double>(all.size());
    double mean = 0, squares = 0;
    for (const double reading : all) mean += reading / n;
    for (const double reading : all) squares += (reading - mean) * (reading - mean);
    const double s = std::sqrt(squares / (n - 1));
    const Varies how = varies();
    const auto ends = kept(end_bound());
    if (!ends) return std::nullopt;
    PartRead read{std::nullopt, std::nullopt, true, false};
    if (n < 4)
      page.caution(
          Level::warning,
          fmt::format("Only {} readings of {}: fewer than four leave its spread without bound.", all.size(), of.name),
          view.under("readings"));
    if (s <= 1e-12 * std::abs(mean)) {
      page.caution(Level::caution, fmt::format("All readings of {} are alike: it is held fixed.", of.name),
                   view.under("readings"));
      read.mean = mean;
      return read;
    }
    const double scale = how == Varies::fixed ? s / std::sqrt(n) : s * std::sqrt(1 + 1 / n);
    read.part = ScatterPart{
        ends->of(engine::student(mean, scale, n - 1)), Role::value, how,
        fmt::format("{} readings, student with {} degrees of freedom{}", all.size(), all.size() - 1, ends->said),
        fmt::format("readings ({})", all.size())};
    return read;
  }

  std::optional<PartRead> read() const {
    if (view.has("draws") || view.has("column")) return read_draws(*this);
    if (view.has("readings")) return by_readings();
    if (view.has("within") || view.has("spread")) return read_spread(*this);
    if (view.has("low") || view.has("high")) return by_range();
    if (view.has("mean") && alone("mean", {"shape", "mode", "inside", "dof", "above", "below"})) {
      varies();
      const auto mean = value("mean", of.bound);
      return mean ? std::optional<PartRead>({std::nullopt, mean, true, false}) : std::nullopt;
    }
    if (!page.spoiled(view) && !view.has("mean"))
      page.refuse(view.node->place, fmt::format("{} does not say how it scatters", view.path), "",
                  "write { mean, spread }, { within }, { low, high }, { readings } or { draws, column }");
    return std::nullopt;
  }
};

}  // namespace

std::optional<PartRead> read_part(Page& page, const Node& node, const std::string& path, const Scattered& of,
                                  bool first) {
  if (node.kind == Node::Kind::text && node.text == "handbook") {
    if (of.friction()) {
      page.echo(path, node, std::nullopt, engine::Dimension::none);
      return PartRead{std::nullopt, std::nullopt, true, true};
    }
    page.refuse(node.place, fmt::format("the handbook has no scatter of {}", of.name),
                "Only the two frictions have a table", "type how it scatters");
    return std::nullopt;
  }
  if (node.kind != Node::Kind::table) {
    const std::optional<double> fixed = page.value(node, path, of.dimension, of.bound);
    return fixed ? std::optional<PartRead>({std::nullopt, fixed, true, false}) : std::nullopt;
  }
  const Forms forms{{page, {&node, path}, of, first}};
  try {
    return forms.read();
  } catch (const std::invalid_argument& sentence) {
    page.refuse(node.place, fmt::format("{}: {}", path, sentence.what()), "", "check its numbers");
    return std::nullopt;
  }
}

}  // namespace studies::read
