#include "studies/sheet/figure.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "studies/say/figures.hpp"
#include "studies/sheet/html.hpp"

namespace studies::sheet {
namespace {

engine::Shown in_other_system(const engine::Shown& own, double si, engine::Dimension dimension) {
  return engine::is_inch_unit(own.unit) ? engine::in_metric(si, dimension) : engine::in_inch(si, dimension);
}

std::string with_unit(const std::string& number, const std::string& unit) {
  return unit.empty() ? number : number + " " + unit;
}

std::string bracketed(const say::HisUnits& his, double si, engine::Dimension dimension, const std::string& own) {
  if (!std::isfinite(si) || dimension == engine::Dimension::none) return own;
  const engine::Shown other = in_other_system(his.shown(si, dimension), si, dimension);
  const std::string theirs = with_unit(figures(other.value), other.unit);
  return theirs == own ? own : fmt::format("{} [{}]", own, theirs);
}

}  // namespace

Unit unit_for(const say::HisUnits& his, double si, engine::Dimension dimension) {
  const engine::Shown own = his.shown(si, dimension), other = in_other_system(own, si, dimension);
  const bool alike = other.unit == own.unit;
  return {own.unit, alike ? "" : other.unit, own.value / si, other.value / own.value};
}

Json Unit::json() const { return {{"own", unit_in_type(own)}, {"other", unit_in_type(other)}, {"factor", factor}}; }

Json axis(const std::string& name, const Unit* unit, double from, double to, bool log) {
  Json json{{"name", name}, {"log", log}, {"from", from}, {"to", to}};
  if (unit && !unit->own.empty()) json["unit"] = unit->json();
  return json;
}

Json line(const std::string& label, const char* pen, const Points& points) {
  return {{"label", label}, {"pen", pen}, {"points", points}};
}

Json wall(const char* on, double at, int side, const std::string& label) {
  return {{"on", on}, {"at", at}, {"side", side}, {"label", label}};
}

Json here(double at, const std::string& label) { return {{"on", "x"}, {"at", at}, {"label", label}}; }

Json LinesData::json() const {
  Json all{{"kind", "lines"}, {"wide", wide},   {"height", height}, {"x", x},         {"y", y},
           {"lines", lines},  {"walls", walls}, {"bars", bars},     {"marks", marks}, {"here", here}};
  if (!names.is_null()) all["names"] = names;
  if (!spare.is_null()) all["spare"] = spare;
  return all;
}

double quantile(std::vector<double> values, double share) {
  const auto last = static_cast<double>(values.size() - 1);
  const auto at = values.begin() + static_cast<std::ptrdiff_t>(std::clamp(share, 0.0, 1.0) * last);
  std::nth_element(values.begin(), at, values.end());
  return *at;
}

double rounded_up(double value) {
  if (!(value > 0) || !std::isfinite(value)) return 1;
  const double decade = std::pow(10.0, std::floor(std::log10(value)));
  for (const double step : {1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0})
    if (step * decade >= value * (1 - 1e-9)) return step * decade;
  return 10 * decade;
}

std::string figures(double value) { return say::number(value); }

std::string both(const say::HisUnits& his, double si, engine::Dimension dimension) {
  return bracketed(his, si, dimension, his(si, dimension));
}

std::string both_given(const say::HisUnits& his, double si, engine::Dimension dimension) {
  return bracketed(his, si, dimension, his.given(si, dimension));
}

}  // namespace studies::sheet
