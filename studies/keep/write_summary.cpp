#include <algorithm>
#include <limits>

#include "studies/keep/schema.hpp"
#include "studies/keep/sections.hpp"

namespace studies {
namespace {

using engine::StoreWriter;

constexpr double none = std::numeric_limits<double>::quiet_NaN();
const std::vector<std::string> bounds = {"low", "estimate", "high"};

engine::StoredVariable of(const char* path, const OutputSummary& output) {
  return spelled(results_row(path), output.name, output.dimension, output.meaning);
}

void append(std::vector<double>& values, const Bounded& bounded) {
  values.insert(values.end(), {bounded.low, bounded.estimate, bounded.high});
}

void write_outputs(StoreWriter& file, const std::vector<OutputSummary>& outputs) {
  file.put(results_row("/summary/rated/outputs/statistic"),
           std::vector<std::string>{"nominal", "mean", "spread", "least", "most"});
  for (const OutputSummary& output : outputs) {
    const auto variable = of("/summary/rated/outputs/<output>", output);
    file.put(variable, std::vector<double>{output.nominal, output.mean, output.spread, output.least, output.most});
    file.attribute(variable.path(), "missing", output.missing);
    if (!output.reason.empty()) file.attribute(variable.path(), "reason", output.reason);
  }
}

void write_quantiles(StoreWriter& file, const std::vector<OutputSummary>& outputs) {
  file.put(results_row("/summary/rated/quantiles/quantile"),
           std::vector<double>(quantile_points.begin(), quantile_points.end()));
  file.put(results_row("/summary/rated/quantiles/bound"), bounds);
  for (const OutputSummary& output : outputs) {
    std::vector<double> values;
    for (const Bounded& quantile : output.quantiles) append(values, quantile);
    file.put(of("/summary/rated/quantiles/<output>", output), values);
  }
}

void write_coverage(StoreWriter& file, const std::vector<OutputSummary>& outputs) {
  file.put(results_row("/summary/rated/coverage/interval"),
           std::vector<std::string>{"symmetric", "shortest", "tolerance"});
  file.put(results_row("/summary/rated/coverage/end"), std::vector<std::string>{"low", "high"});
  for (const OutputSummary& output : outputs) {
    std::vector<double> values;
    for (const Ends& ends : {output.symmetric, output.shortest, output.tolerance})
      values.insert(values.end(), {ends.low, ends.high});
    file.put(of("/summary/rated/coverage/<output>", output), values);
  }
}

void write_settling(StoreWriter& file, const SettlingReport& settling) {
  if (settling.estimates.empty()) return;
  std::vector<std::string> names;
  std::vector<double> tolerances, allowed;
  std::vector<std::uint8_t> settled;
  for (const SettledEstimate& each : settling.estimates) {
    names.push_back(each.of + " " + each.estimate);
    tolerances.push_back(each.tolerance);
    allowed.push_back(each.allowed);
    settled.push_back(each.settled);
  }
  file.put(results_row("/summary/rated/settling/estimate"), names);
  file.put(results_row("/summary/rated/settling/tolerance"), tolerances);
  file.put(results_row("/summary/rated/settling/allowed"), allowed);
  file.put(results_row("/summary/rated/settling/settled"), settled);
}

std::vector<double> edges(const OutputSummary& output, std::size_t bins) {
  std::vector<double> all(bins + 1, none);
  const std::size_t own = output.histogram.size();
  const double width = (output.histogram_high - output.histogram_low) / static_cast<double>(own);
  for (std::size_t i = 0; i < own; ++i) all[i] = output.histogram_low + width * static_cast<double>(i);
  all[own] = output.histogram_high;
  return all;
}

void write_histograms(StoreWriter& file, const std::vector<OutputSummary>& outputs) {
  std::size_t bins = 0;
  for (const OutputSummary& output : outputs) bins = std::max(bins, output.histogram.size());
  if (bins == 0) return;
  file.dimension("/summary/rated/histograms", "bin", bins);
  file.dimension("/summary/rated/histograms", "edge", bins + 1);
  for (const OutputSummary& output : outputs) {
    if (output.histogram.empty()) continue;
    std::vector<std::int64_t> counts(output.histogram.begin(), output.histogram.end());
    counts.resize(bins, 0);
    file.put(of("/summary/rated/histograms/<output>", output), counts);
    file.put(of("/summary/rated/histograms/<output>.edges", output), edges(output, bins));
  }
}

std::string kind_of(const models::Limit& limit) {
  switch (limit.kind) {
    case models::Limit::Kind::margin:
      return "margin";
    case models::Limit::Kind::at_least:
      return "at_least";
    case models::Limit::Kind::at_most:
      break;
  }
  return "at_most";
}

/// What is asked and what there is, of one limit: single values, because each has a unit of its own.
void write_judged(StoreWriter& file, const LimitVerdict& limit) {
  const std::string meaning(models::row(limit.limit.must).meaning);
  const auto value = [&](const char* path, double number) {
    file.put(spelled(results_row(path), limit.name, limit.dimension, meaning), std::vector<double>{number});
  };
  value("/summary/rated/limits/<limit>.asked", limit.asked_value);
  value("/summary/rated/limits/<limit>.has", limit.has);
}

void write_limits(StoreWriter& file, const std::vector<LimitVerdict>& limits) {
  if (limits.empty()) return;
  const auto column = [&]<class Value>(const char* name, Value, auto get) {
    std::vector<Value> values;
    for (const LimitVerdict& each : limits) values.push_back(static_cast<Value>(get(each)));
    file.put(results_row(std::string("/summary/rated/limits/") + name), values);
  };
  using Each = const LimitVerdict&;
  const std::string text;
  const double number = 0;
  const std::uint8_t flag = 0;
  column("limit", text, [](Each each) { return each.name; });
  file.put(results_row("/summary/rated/limits/bound"), bounds);
  column("kind", text, [](Each each) { return kind_of(each.limit); });
  column("asked_odds", number, [](Each each) { return each.limit.odds.value_or(none); });
  std::vector<double> odds;
  for (Each each : limits) append(odds, each.odds);
  file.put(results_row("/summary/rated/limits/odds"), odds);
  column("misses", std::int64_t{0}, [](Each each) { return each.misses; });
  column("needed_margin", number, [](Each each) { return each.limit.least_margin(); });
  column("nominal_margin", number, [](Each each) { return each.nominal_margin; });
  column("spare", number, [](Each each) { return each.spare; });
  column("holds", flag, [](Each each) { return each.holds; });
  column("bounds_straddle", flag, [](Each each) { return each.bounds_straddle; });
  for (Each each : limits) write_judged(file, each);
}

}  // namespace

void write_summary(StoreWriter& file, const Answer& answer) {
  if (!answer.pick) return;
  write_outputs(file, answer.outputs);
  write_quantiles(file, answer.outputs);
  write_coverage(file, answer.outputs);
  if (answer.settling) write_settling(file, *answer.settling);
  write_histograms(file, answer.outputs);
  write_limits(file, answer.limits);
}

}  // namespace studies
