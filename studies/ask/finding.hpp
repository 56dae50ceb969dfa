#pragma once
/// Differences while they are being found.
#include <array>
#include <cmath>
#include <optional>
#include <utility>

#include "studies/ask/differences.hpp"

namespace studies {

/// Two numbers that mean the same, whatever unit they were typed in.
inline bool alike(double a, double b) { return a == b || std::abs(a - b) <= 1e-12 * std::abs(a); }
inline bool alike(const std::optional<double>& a, const std::optional<double>& b) {
  return a && b ? alike(*a, *b) : a.has_value() == b.has_value();
}
template <class Value>
bool alike(const Value& a, const Value& b) {
  return a == b;
}

inline TypedValue said(double value, engine::Dimension dimension) { return {"", value, dimension}; }
inline TypedValue said(const std::optional<double>& value, engine::Dimension dimension) {
  return value ? said(*value, dimension) : TypedValue{"none", {}, dimension};
}
inline TypedValue said(int value, engine::Dimension) { return {std::to_string(value), {}}; }
inline TypedValue said(std::string words) { return {std::move(words), {}}; }
inline TypedValue said(const Length& it) {
  return it.times_diameter ? TypedValue{"diameters", it.value} : said(it.value, engine::Dimension::length);
}

/// The differences of two sides.
class Finding {
public:
  Finding(const Side& first, const Side& second) : a(first), b(second) {}

  void add(Difference difference, Take take) { all_.push_back({{{std::move(difference)}}, {std::move(take)}}); }
  void add(Alterable alterable) { all_.push_back(std::move(alterable)); }

  /// A field of both sides that is taken as it is.
  /// @param get   the field of a side, const or not
  /// @param then  what follows on the side that took it
  template <class Get>
  void field(const char* key, const char* name, engine::Dimension dimension, Get get, Take then = {}) {
    const auto& from = get(a);
    const auto& to = get(b);
    if (alike(from, to)) return;
    add({key, name, said(from, dimension), said(to, dimension)}, taking(get, std::move(then)));
  }
  /// The same of a field that is said in words.
  template <class Get, class Words>
  void worded(const char* key, const char* name, Get get, Words words, Take then = {}) {
    const auto& from = get(a);
    const auto& to = get(b);
    if (from == to) return;
    add({key, name, said(words(from)), said(words(to))}, taking(get, std::move(then)));
  }

  std::vector<Alterable> take_all() { return std::move(all_); }

  const Side& a;
  const Side& b;

private:
  template <class Get>
  static Take taking(Get get, Take then) {
    return [get, then = std::move(then)](Side& into, const Side& from) {
      get(into) = get(from);
      if (then) then(into, from);
    };
  }

  std::vector<Alterable> all_;
};

/// The alterations of a study's sections, each into the finding.
void find_in_duty(Finding& finding);
void find_in_screw(Finding& finding);
void find_in_scatter(Finding& finding);
void find_in_limits(Finding& finding);

/// Whether the value of an input and its scatter are one thing, since the scatter says the value itself: then the
/// difference of both is that of the scatter.
bool value_in_scatter(const Side& a, const Side& b, models::Input input);
/// Takes the scatter of an input.
Take scatter_of(models::Input input);

}  // namespace studies
