#include <fmt/format.h>

#include <cmath>

#include "studies/read/part_reading.hpp"

namespace studies::read {
namespace {

using engine::Marginal;
using engine::Shape;
using Role = ScatterPart::Role;

/// What a shape needs beside mean and spread; a weibull's low end is 0 where it is not typed.
struct Needs {
  double low = 0, high = 0, dof = 0;
};

/// A distribution by its mean and standard deviation.
Marginal about(Shape shape, double mean, double spread, const Needs& needs) {
  switch (shape) {
    case Shape::lognormal:
      return engine::lognormal(mean, spread);
    case Shape::uniform:
      return engine::uniform(mean - std::sqrt(3.0) * spread, mean + std::sqrt(3.0) * spread);
    case Shape::triangular:
      return engine::triangular(mean - std::sqrt(6.0) * spread, mean, mean + std::sqrt(6.0) * spread);
    case Shape::beta:
      return engine::beta(mean, spread, needs.low, needs.high);
    case Shape::weibull:
      return engine::weibull(mean, spread, needs.low);
    case Shape::gumbel:
      return engine::gumbel(mean, spread);
    case Shape::student:
      return engine::student(mean, spread * std::sqrt((needs.dof - 2) / needs.dof), needs.dof);
    default:
      return engine::normal(mean, spread);
  }
}

/// A part by its spread, or by a tolerance, which is one of a rectangle.
struct Spread {
  const Reading& part;
  Shape form;
  Deviation spread;
  std::string said;
  const char* key;  ///< under which the spread was typed

  bool has(const char* other) const { return part.view.has(other); }

  /// Low, high and dof stand where the shape has them, and only there.
  bool fits() const {
    bool fit = true;
    const auto needs = [&](const char* need, const char* why) {
      if (has(need)) return;
      part.refuse(has("shape") ? "shape" : key, fmt::format("'{}' is missing", part.view.under(need)), why,
                  fmt::format("write {} = …", need));
      fit = false;
    };
    const auto idle = [&](const char* need, const char* why) {
      if (!has(need)) return;
      part.refuse(need, fmt::format("'{}' has no say here", part.view.under(need)), why,
                  "take it out, or name another shape");
      fit = false;
    };
    if (form == Shape::beta) {
      needs("low", "A beta has two ends");
      needs("high", "A beta has two ends");
    } else {
      idle("high", "Beside a spread only a beta has a high end; 'below' cuts others");
      if (form != Shape::weibull)
        idle("low", "Beside a spread only a beta and a weibull have a low end; 'above' cuts others");
    }
    if (form == Shape::student) needs("dof", "A student needs its degrees of freedom");
    if (form != Shape::student) idle("dof", "Only a student has degrees of freedom");
    return fit;
  }

  /// Low, high, above or below: values, or deviations in a part that is one.
  bool has_ends() const { return has("low") || has("high") || has("above") || has("below"); }

  /// The mean where it is typed or must be known; none (with `fine` still true) where the part is a deviation.
  std::optional<double> mean_of(const std::optional<double>& typed, bool& fine) const {
    if (typed) return typed;
    const bool positive = form == Shape::lognormal || (form == Shape::weibull && !has("low"));
    const bool deviates = !part.first || part.of.input == models::Input::diameters;
    const bool needed = (positive && !spread.relative) || (has_ends() && (!deviates || spread.relative));
    if (!needed) return std::nullopt;
    if (part.first && part.of.own) return part.of.own;
    const std::string later = spread.relative ? "give the spread as an amount with its unit" : "give the spread in %";
    const std::string fix = !part.first ? later : has_ends() ? "type mean" : "type mean, or the spread in %";
    part.refuse(key,
                fmt::format("{}: a {}{} needs its mean", part.view.path, name(form), has_ends() ? " with an end" : ""),
                part.first ? "No single value is known before the screw is chosen"
                           : "Later parts are deviations from the first",
                fix);
    fine = false;
    return std::nullopt;
  }

  std::optional<PartRead> read() const {
    if (!fits()) return std::nullopt;
    PartRead read;
    read.mean = part.value("mean", part.of.bound);
    if (has("mean") && !read.mean) return std::nullopt;
    const bool typed = read.mean.has_value();
    const Varies how = part.varies();
    bool fine = true;
    const std::optional<double> mean = mean_of(read.mean, fine);
    const Bound bound = mean ? part.end_bound() : Bound::none;
    const auto kept = part.kept(bound);
    const auto low = part.value("low", bound), high = part.value("high", bound);
    const std::optional<double> dof = part.page.number(part.view, "dof");
    const bool refused = (has("low") && !low) || (has("high") && !high) || (has("dof") && !dof);
    if (!fine || !kept || refused) return std::nullopt;
    if (has("dof") && dof.value_or(0) <= 2) {
      part.refuse("dof", fmt::format("{} leaves no finite spread", part.view.under("dof")),
                  "A student of 2 degrees of freedom or fewer has none", "use more than 2, or { readings }");
      return std::nullopt;
    }
    if (!mean && spread.relative && part.of.input == models::Input::drag) {
      part.refuse(key, fmt::format("{} is a share of nothing", part.view.under(key)),
                  "No drag is known but what is typed", "type mean, or an amount with its unit");
      return std::nullopt;
    }
    if (mean && !(*mean > kept->least && *mean < kept->most)) {
      part.refuse(has("above") ? "above" : "below",
                  fmt::format("{}: the mean lies outside what is kept", part.view.path),
                  "It is the mean before 'above' and 'below' cut", "check mean, above and below");
      return std::nullopt;
    }
    read.sets_base = typed;
    if (spread.size == 0) return read;
    const double size = mean && spread.relative ? spread.size * std::abs(*mean) : spread.size;
    const Role role = mean ? Role::value : spread.relative ? Role::factor : Role::added;
    const Marginal whole = about(form,
                                 mean              ? *mean
                                 : spread.relative ? 1
                                                   : 0,
                                 size, {low.value_or(0), high.value_or(0), dof.value_or(0)});
    const std::string where = !mean ? "" : (typed ? part.typed("mean") : part.of.own_words) + ", ";
    read.part = ScatterPart{kept->of(whole), role, how, where + said + ends_in_words() + kept->said, "typed"};
    read.sets_base = role == Role::value;
    if (mean) read.mean = mean;
    return read;
  }

  std::string ends_in_words() const {
    if (form == Shape::beta) return fmt::format(" from {} to {}", part.typed("low"), part.typed("high"));
    if (form == Shape::weibull && has("low")) return fmt::format(" from {}", part.typed("low"));
    return form == Shape::student ? fmt::format(" with {} degrees of freedom", part.typed("dof")) : "";
  }
};

}  // namespace

std::optional<PartRead> read_spread(const Reading& part) {
  if (part.view.has("within")) {
    if (!part.alone("within", {"spread", "shape", "low", "high", "mode", "inside", "dof"})) return std::nullopt;
    const auto half = part.deviation("within");
    if (!half) return std::nullopt;
    return Spread{part,
                  Shape::uniform,
                  {half->size / std::sqrt(3.0), half->relative},
                  fmt::format("± {}, rectangular", part.typed("within")),
                  "within"}
        .read();
  }
  if (!part.alone("spread", {"mode", "inside"})) return std::nullopt;
  const auto spread = part.deviation("spread");
  const auto form = part.shape(part.of.shape);
  if (!spread || !form) return std::nullopt;
  return Spread{part, *form, *spread, fmt::format("spread {}, {}", part.typed("spread"), name(*form)), "spread"}.read();
}

}  // namespace studies::read
