#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/format.hpp"
#include "studies/say/compare_words.hpp"
#include "studies/say/figures.hpp"
#include "studies/say/limits.hpp"
#include "studies/say/page.hpp"
#include "studies/say/words.hpp"
#include "studies/say/wrap.hpp"

namespace studies {
namespace {

using namespace say;
using Kind = Measure::Kind;
using Rows = std::vector<std::vector<std::string>>;

constexpr std::size_t longest_name = 18, longest_change = 30;
constexpr std::size_t most_columns = 4;
constexpr std::size_t low_end = 2, high_end = 6;  // places of 5 % and 95 % among quantile_points

/// The table with its heading in bold; the rows as sentences where it is too wide.
void table(Page& page, const Rows& rows) {
  const std::vector<std::string> lines = aligned(rows, 2);
  if (fits(lines)) {
    for (std::size_t i = 0; i < lines.size(); ++i) page.line(lines[i], i == 0 ? bold : ordinary);
    return;
  }
  for (std::size_t i = 1; i < rows.size(); ++i) {
    std::string words = rows[i].front() + ":";
    for (std::size_t k = 1; k < rows[i].size(); ++k)
      if (!rows[i][k].empty()) words += fmt::format("{} {} {}", k == 1 ? "" : ";", rows[0][k], rows[i][k]);
    page.paragraph(words, ordinary, 4, "  ");
  }
}

std::pair<std::string, std::string> headings(const Compared& it) {
  const auto [a, b] = names_of(it);
  return {shortened(cleaned(a), longest_name), shortened(cleaned(b), longest_name)};
}

void differences(Page& page, const Compared& it) {
  const HisUnits his(*it.a.study);
  const auto [a, b] = headings(it);
  Rows rows = {{"what changed", a, b}};
  const auto add = [&](const Difference& d) {
    rows.push_back({d.name, cleaned(value_words(d.from, his)), cleaned(value_words(d.to, his))});
  };
  for (const Alteration& alteration : it.comparison.alterations)
    for (const Difference& d : alteration.differences) add(d);
  for (const Difference& d : it.comparison.besides) add(d);
  if (rows.size() == 1) return;
  page.gap();
  table(page, rows);
}

const OutputSummary* output_of(const Answer& answer, models::Output output) {
  for (const OutputSummary& it : answer.outputs)
    if (it.name == models::row(output).name) return &it;
  return nullptr;
}

/// "18.4, 14.6 to 22.8"
std::string spread_words(const OutputSummary& it, double factor) {
  const double low = it.quantiles[low_end].estimate, high = it.quantiles[high_end].estimate;
  const std::string nominal = number(it.nominal * factor);
  if (!std::isfinite(low) || !std::isfinite(high) || !(low < high)) return nominal;
  return fmt::format("{}, {} to {}", nominal, number(low * factor), number(high * factor));
}

void outputs(Page& page, const Compared& it) {
  using models::Output;
  const HisUnits his(*it.a.study);
  const auto [a, b] = headings(it);
  Rows rows = {{"nominal, 5 % to 95 %", a, b, "nominal by"}};
  for (const Output output :
       {Output::force, Output::torque, Output::hand_force, Output::efficiency, Output::lowering_torque,
        Output::body_stress, Output::bearing_pressure, Output::buckling_load, Output::mass}) {
    const OutputSummary *from = output_of(it.a, output), *to = output_of(it.b, output);
    if (!from || !to || !std::isfinite(from->nominal) || !std::isfinite(to->nominal)) continue;
    const InOneUnit unit = one_unit(his, from->nominal, from->dimension);
    rows.push_back({std::string(models::row(output).words) + (unit.unit.empty() ? "" : " [" + unit.unit + "]"),
                    spread_words(*from, unit.factor), spread_words(*to, unit.factor),
                    signed_number((to->nominal - from->nominal) * unit.factor)});
  }
  if (rows.size() == 1) return;
  page.gap();
  table(page, rows);
}

const LimitVerdict* limit_of(const Answer& answer, models::Must must) {
  for (const LimitVerdict& it : answer.limits)
    if (it.limit.must == must) return &it;
  return nullptr;
}

std::string short_words(const LimitVerdict* limit) {
  if (!limit) return "-";
  return said(shortfall(*limit), 100).estimate + (limit->holds ? "" : ", missed");
}

/// "-2.2 (-2.3 to -2.1)"; "none told" where the passes cannot tell one.
std::string change_words(const Moved& it) {
  if (it.by.empty() || (it.change.low == 0 && it.change.high == 0)) return "0";
  const std::string bounds = fmt::format("({} to {})", signed_number(to_three(it.change.low, Toward::down)),
                                         signed_number(to_three(it.change.high, Toward::up)));
  return it.told() ? signed_number(it.change.estimate) + " " + bounds : "none told " + bounds;
}

void odds(Page& page, const Compared& it) {
  const auto [a, b] = headings(it);
  Rows rows = {{"short of 100", a, b, "change on common passes"}};
  for (const Moved& moved : it.comparison.moved)
    if (moved.of.kind == Kind::shortfall)
      rows.push_back({limit_words(moved.of.must), short_words(limit_of(it.a, moved.of.must)),
                      short_words(limit_of(it.b, moved.of.must)), change_words(moved)});
  for (const bool second : {false, true})
    for (const LimitVerdict& limit : (second ? it.b : it.a).limits)
      if (const LimitVerdict* other = limit_of(second ? it.a : it.b, limit.limit.must); !other)
        rows.push_back({limit_words(limit.limit.must), short_words(second ? nullptr : &limit),
                        short_words(second ? &limit : nullptr), "asked of one only"});
  if (rows.size() == 1) return;
  page.gap();
  table(page, rows);
}

/// How much a measure moved beside what there is of it: what the table of alterations shows first.
double weight(const Moved& it) {
  if (!std::isfinite(it.from) || !std::isfinite(it.to)) return 0;
  const double change = std::abs(it.to - it.from);
  if (it.of.kind == Kind::shortfall) return change / 100;
  return change / std::max(std::abs(it.from), std::abs(it.to));
}

/// The measures of the table: the nominal output first, then what moved most, shortfalls before margins.
std::vector<const Moved*> columns_of(const Comparison& comparison) {
  std::vector<const Moved*> rest, all = {&comparison.moved.front()};
  for (const Moved& it : comparison.moved)
    if (it.of.kind == Kind::shortfall || it.of.kind == Kind::margin) rest.push_back(&it);
  std::stable_sort(rest.begin(), rest.end(), [](const Moved* a, const Moved* b) {
    const bool one = a->of.kind == Kind::shortfall && a->told(), other = b->of.kind == Kind::shortfall && b->told();
    return one != other ? one : weight(*a) > weight(*b);
  });
  for (const Moved* it : rest)
    if (all.size() < most_columns && weight(*it) > 0) all.push_back(it);
  return all;
}

std::string column_words(const Measure& of, const std::string& unit) {
  if (of.kind == Kind::shortfall) return limit_words(of.must) + " short";
  if (of.kind == Kind::margin) return limit_words(of.must) + " margin";
  return measure_words(of, unit);
}

Rows attribution_rows(const Compared& it, const std::vector<const Moved*>& measures) {
  const HisUnits his(*it.a.study);
  Rows rows = {{"what it did"}};
  for (const Alteration& alteration : it.comparison.alterations)
    rows.push_back({shortened(alteration.name(), longest_change)});
  rows.push_back({"together"});
  for (const Moved* moved : measures) {
    const InOneUnit unit = one_unit(his, moved->from, moved->of.dimension());
    rows.front().push_back(column_words(moved->of, unit.unit));
    for (std::size_t i = 0; i < moved->by.size(); ++i) rows[i + 1].push_back(signed_number(moved->by[i] * unit.factor));
    rows.back().push_back(signed_number((moved->to - moved->from) * unit.factor));
  }
  return rows;
}

void attribution(Page& page, const Compared& it) {
  if (it.comparison.alterations.empty()) return;
  std::vector<const Moved*> measures = columns_of(it.comparison);
  while (measures.size() > 1 && !fits(aligned(attribution_rows(it, measures), 2))) measures.pop_back();
  page.gap();
  table(page, attribution_rows(it, measures));
  const std::string orders = it.comparison.every_order
                                 ? "shared over all orders in which the changes could be made"
                                 : "shared over making the changes in the order listed and in the opposite one";
  page.gap();
  page.paragraph(
      fmt::format("'Short' counts of 100, the rest are margins and values at nominal; {}, on {} passes common "
                  "to both. Outputs and odds of each are those of its own file.",
                  orders, engine::count_in_full(it.comparison.passes)));
  for (const Alteration& alteration : it.comparison.alterations)
    if (alteration.differences.size() > 1)
      page.paragraph(
          fmt::format("Taken as one change, since one cannot be made without the other: {}.", alteration.name()));
}

}  // namespace

std::string compare_text(const Compared& it, bool colour) {
  Page page(colour);
  page.paragraph(compare_sentence(it), bold);
  differences(page, it);
  outputs(page, it);
  odds(page, it);
  attribution(page, it);
  return page.text();
}

}  // namespace studies
