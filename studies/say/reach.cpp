#include "studies/say/reach.hpp"

#include <fmt/format.h>

#include <cmath>
#include <limits>

#include "engine/base/format.hpp"
#include "studies/say/figures.hpp"
#include "studies/say/limits.hpp"
#include "studies/say/rare.hpp"
#include "studies/say/sentences.hpp"
#include "studies/say/words.hpp"

namespace studies::say {
namespace {

using engine::Dimension;
using models::Must;
using Kind = models::Limit::Kind;

const OutputSummary* find_output(const Answer& answer, models::Output output) {
  for (const OutputSummary& summary : answer.outputs)
    if (summary.name == models::row(output).name) return &summary;
  return nullptr;
}

std::string on_hands(const models::Duty& duty) { return duty.hands > 1 ? " on each hand" : " on the handle"; }

/// What a lift is driven with: " with 20 N.m".
std::string driven(const models::Duty& duty, const HisUnits& his) {
  switch (duty.drive) {
    case models::Drive::torque:
      return " with " + his.given(duty.drive_value, Dimension::torque);
    case models::Drive::hand_force:
      return " with " + his.given(duty.drive_value, Dimension::force) + on_hands(duty);
    case models::Drive::motor:
      return " with its motor";
    case models::Drive::none:
      return "";
  }
  return "";
}

/// A force margin as the force it means, where the duty says of which force.
LimitVerdict in_force(LimitVerdict it, const models::Duty& duty) {
  if (it.limit.must != Must::force || it.limit.kind != Kind::margin || !duty.force) return it;
  it.limit.kind = Kind::at_least;
  it.limit.asked *= *duty.force;
  it.asked_value *= *duty.force;
  it.has *= *duty.force;
  return it;
}

std::string load_words(const models::Duty& duty, const HisUnits& his) {
  return duty.force ? his.given(*duty.force, Dimension::force) : "its load";
}

/// The task with its demand: "Reaches 22 kN", "Lifts 15 kN with at most 20 N.m".
std::string task(const LimitVerdict& it, const models::Duty& duty, const HisUnits& his) {
  const std::string asked = his.given(it.asked_value, said_in(it.limit));
  if (it.limit.must == Must::force) {
    if (it.limit.kind == Kind::margin) return "Reaches " + asked + " times its force";
    return (it.limit.kind == Kind::at_most ? "Stays within " : "Reaches ") + asked;
  }
  const std::string lifts = "Lifts " + load_words(duty, his);
  if (it.limit.kind == Kind::at_most)
    return lifts + " with at most " + asked + (it.limit.must == Must::hand_force ? on_hands(duty) : "");
  if (it.limit.kind == Kind::at_least) return lifts + " with at least " + asked;
  return lifts + driven(duty, his) + (it.limit.asked == 1 ? "" : ", margin " + asked + ",");
}

/// The task at nominal: "Reaches 22.8 kN at nominal, where 22 kN is asked".
std::string nominal_task(const LimitVerdict& it, const models::Duty& duty, const HisUnits& his) {
  const std::string has = has_words(it.limit, {it.has, it.asked_value}, his);
  const std::string asked = fmt::format(", where {} is {}", his.given(it.asked_value, said_in(it.limit)),
                                        it.limit.kind == Kind::at_most ? "allowed" : "asked");
  if (it.limit.must == Must::force)
    return fmt::format("Reaches {}{} at nominal{}", it.holds ? "" : "only ", has, asked);
  const std::string load = load_words(duty, his);
  if (it.limit.kind != Kind::margin) return fmt::format("Lifts {} with {} at nominal{}", load, has, asked);
  const std::string what = it.limit.must == Must::hand_force ? "hand force" : "torque";
  return fmt::format("{} {}{} at nominal: {} times the {} it takes{}", it.has >= 1 ? "Lifts" : "Does not lift", load,
                     driven(duty, his), has, what, it.limit.asked == 1 ? "" : asked);
}

/// How often a limit without odds falls short; empty where nothing scatters.
std::string beside_nominal(const LimitVerdict& it, const Answer& answer) {
  if (answer.passes == 0 || !(it.odds.low < it.odds.high)) return "";
  if (it.misses == 0) return "; " + shortfall_words(it, answer.passes);
  const Said share = said(shortfall(it), 100);
  return fmt::format("; {} of 100 {} fall short, {} to {}", share.estimate, hundred_of(answer), share.low, share.high);
}

}  // namespace

const LimitVerdict* task_limit(const Answer& answer) {
  const bool clamp = answer.study->duty.action == models::Action::clamp;
  for (const LimitVerdict& limit : answer.limits) {
    const Must must = limit.limit.must;
    if (clamp ? must == Must::force : must == Must::torque || must == Must::hand_force) return &limit;
  }
  return nullptr;
}

std::string demand_words(const LimitVerdict& limit, const models::Duty& duty, const HisUnits& his) {
  return task(in_force(limit, duty), duty, his);
}

double nominal_of(const Answer& answer, models::Output output) {
  const OutputSummary* it = find_output(answer, output);
  return it == nullptr ? std::numeric_limits<double>::quiet_NaN() : it->nominal;
}

std::string band_words(const Answer& answer, models::Output output) {
  const OutputSummary* it = find_output(answer, output);
  if (it == nullptr) return "";
  const HisUnits his(*answer.study);
  const double low = it->quantiles[2].estimate, high = it->quantiles[6].estimate;
  if (!(low < high) || !std::isfinite(high)) return "";
  return fmt::format("90 of 100 {} lie between {} and {}", hundred_of(answer), his(low, it->dimension),
                     his(high, it->dimension));
}

std::string band_sentence(const Answer& answer, models::Output output, const std::string& opening) {
  const double nominal = nominal_of(answer, output);
  if (!std::isfinite(nominal)) return "";
  const std::string words = fmt::format("{} {} at nominal", opening,
                                        HisUnits(*answer.study)(nominal, find_output(answer, output)->dimension));
  const std::string band = band_words(answer, output);
  return words + (band.empty() ? "." : "; " + band + ".");
}

std::string task_sentence(const Answer& answer) {
  const models::Duty& duty = answer.study->duty;
  if (duty.action == models::Action::clamp) return band_sentence(answer, models::Output::force, "Reaches");
  return band_sentence(answer, models::Output::torque,
                       "Lifting " + load_words(duty, HisUnits(*answer.study)) + " takes");
}

std::string reach_sentence(const Answer& answer) {
  const HisUnits his(*answer.study);
  const models::Duty& duty = answer.study->duty;
  const LimitVerdict* asked = task_limit(answer);
  if (asked == nullptr) return task_sentence(answer);
  const LimitVerdict it = in_force(*asked, duty);
  if (!it.limit.odds) return nominal_task(it, duty, his) + beside_nominal(it, answer) + ".";
  if (it.by_rare) return fmt::format("{} {}.", task(it, duty, his), rare_share_words(answer, it));
  if (it.misses == 0 && answer.passes > 0) {
    const std::string allowed = given_number(allowed_of_hundred(*it.limit.odds));
    return fmt::format("{}: none of {} {} fell short (at most {} in 100; {} allowed).", task(it, duty, his),
                       engine::count_in_full(answer.passes), hundred_of(answer), said(shortfall(it), 100).high,
                       allowed);
  }
  return fmt::format("{} {} ({}).", task(it, duty, his), share_words(it, hundred_of(answer)),
                     shortfall_words(it, answer.passes));
}

}  // namespace studies::say
