#include "studies/ask/mixtures.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "studies/ask/aim.hpp"

namespace studies {
namespace {

using models::Output;
using Kind = Measure::Kind;

constexpr double none = std::numeric_limits<double>::quiet_NaN();

Ready built(const Side& side) {
  if (std::optional<Ready> ready = settled(side)) return std::move(*ready);
  throw engine::Refusal(
      engine::ExitCode::study,
      engine::Problem{side.study.path, 0, 0, "its screw cannot be built",
                      "The tables or the program are not those that it was found with", "run the study again"});
}

/// The output that is compared: force of a clamp; of a lift the hand force where hands drive both, else the torque.
Output compared(const models::Duty& a, const models::Duty& b) {
  if (a.action == models::Action::clamp) return Output::force;
  const bool by_hand = a.drive == models::Drive::hand_force && b.drive == models::Drive::hand_force;
  return by_hand ? Output::hand_force : Output::torque;
}

std::vector<Measure> measures_of(const Study& a, const Study& b) {
  const Output output = compared(a.duty, b.duty);
  std::vector<Measure> all = {{Kind::nominal, output}, {Kind::median, output}};
  for (const models::Limit& limit : a.limits)
    if (limit_of(b, limit.must))
      for (const Kind kind : {Kind::margin, Kind::shortfall}) all.push_back({kind, output, limit.must});
  return all;
}

/// Margin and the least that holds of a limit.
std::size_t margin_row(const Ready& ready, models::Must must) {
  const std::vector<models::Limit>& limits = ready.model.limits();
  const auto it = std::find_if(limits.begin(), limits.end(), [&](const models::Limit& l) { return l.must == must; });
  return static_cast<std::size_t>(it - limits.begin());
}

void take(const std::vector<Take>& takes, Side& into, const Side& from) {
  for (const Take& one : takes) one(into, from);
}

}  // namespace

double median(std::vector<double> values) {
  if (values.empty() || std::any_of(values.begin(), values.end(), [](double x) { return std::isnan(x); })) return none;
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>((values.size() - 1) / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

Mixtures::Mixtures(Side a, Side b)
    : a_(std::move(a)),
      b_(std::move(b)),
      first_(built(a_)),
      second_(built(b_)),
      measures_(measures_of(a_.study, b_.study)) {
  put_together(alterables(a_, b_));
}

bool Mixtures::builds(const std::vector<Alterable>& found, Made set) const {
  Side side = a_;
  for (std::size_t i = 0; i < found.size(); ++i)
    if (set >> i & 1) take(found[i].takes, side, b_);
  const std::optional<Ready> ready = settled(std::move(side));
  if (!ready) return false;
  const std::vector<double> one = at_nominal(first_), other = at_nominal(second_), between = at_nominal(*ready);
  for (std::size_t m = 0; m < one.size(); ++m)
    if (std::isfinite(one[m]) && std::isfinite(other[m]) && !std::isfinite(between[m])) return false;
  return true;
}

void Mixtures::put_together(std::vector<Alterable> found) {
  const auto groups = inseparable(found.size(), [&](Made set) { return builds(found, set); });
  for (const std::vector<std::size_t>& group : groups) {
    alterations_.emplace_back();
    takes_.emplace_back();
    for (const std::size_t i : group) {
      for (Difference& it : found[i].alteration.differences) alterations_.back().differences.push_back(std::move(it));
      takes_.back().insert(takes_.back().end(), found[i].takes.begin(), found[i].takes.end());
    }
  }
}

Side Mixtures::made(Made set) const {
  Side side = a_;
  for (std::size_t i = 0; i < takes_.size(); ++i)
    if (set >> i & 1) take(takes_[i], side, b_);
  return side;
}

std::vector<double> Mixtures::at_nominal(const Ready& ready) const {
  std::vector<double> all;
  for (const Measure& it : measures_)
    all.push_back(it.kind == Kind::nominal  ? ready.nominal[static_cast<std::size_t>(it.output)]
                  : it.kind == Kind::margin ? ready.nominal[models::output_count + margin_row(ready, it.must)]
                                            : none);
  return all;
}

Passed Mixtures::pass(const Ready& ready, const Side& side, const CommonDraws& draws) const {
  const std::vector<std::size_t> rows = draws.rows(ready.inputs.law, side.taken);
  engine::Block x(models::input_count), y(ready.model.outputs());
  Passed passed;
  for (std::uint64_t block = 0; block < draws.plan().blocks(); ++block) {
    const std::size_t n = draws.plan().size(block);
    draws.draw(ready.inputs.law, rows, block, x);
    ready.model.evaluate(x, y, n);
    const double* output = y.row(static_cast<std::size_t>(measures_.front().output));
    passed.output.insert(passed.output.end(), output, output + n);
    std::size_t limit = 0;
    for (const Measure& it : measures_) {
      if (it.kind != Kind::shortfall) continue;
      if (limit == passed.missed.size()) passed.missed.emplace_back();
      const std::size_t k = margin_row(ready, it.must);
      const double* margin = y.row(models::output_count + k);
      const double least = ready.model.limits()[k].least_margin();
      for (std::size_t i = 0; i < n; ++i) passed.missed[limit].push_back(!(margin[i] >= least));
      ++limit;
    }
  }
  return passed;
}

std::vector<double> Mixtures::values(const Ready& ready, const Passed& passed) const {
  std::vector<double> all = at_nominal(ready);
  std::size_t limit = 0;
  for (std::size_t m = 0; m < measures_.size(); ++m) {
    if (measures_[m].kind == Kind::median) all[m] = median(passed.output);
    if (measures_[m].kind != Kind::shortfall) continue;
    const std::vector<char>& missed = passed.missed[limit++];
    const auto count = std::count(missed.begin(), missed.end(), 1);
    all[m] = 100 * static_cast<double>(count) / static_cast<double>(missed.size());
  }
  return all;
}

}  // namespace studies
