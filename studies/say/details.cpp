#include "studies/say/details.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "models/screw/breaking.hpp"
#include "studies/say/figures.hpp"
#include "studies/say/limits.hpp"
#include "studies/say/rare.hpp"
#include "studies/say/reach.hpp"
#include "studies/say/sentences.hpp"
#include "studies/say/units_of_his.hpp"
#include "studies/say/words.hpp"

namespace studies::say {
namespace {

using engine::Dimension;
using models::Output;

std::string on_what(const models::Duty& duty) { return duty.handle ? "on the handle" : "on the screw"; }

/// Family names, or whole names where he may choose between several.
std::string material(const std::vector<models::Material>& choices, const models::Material& picked) {
  return choices.size() > 1 || picked.family.empty() ? picked.name : picked.family;
}

/// The kind of face, and what tells it from others where he may choose between several.
std::string face_words(const Study& study, const models::Face& face) {
  std::string words = face_in_short(face);
  if (study.choices.face.size() < 2) return words;
  if (!face.on.empty()) words += std::string(" on ") + (face.hard ? "hard " : "") + face.on;
  if (face.friction_radius() > 0)
    words += " of friction radius " + HisUnits(study)(face.friction_radius(), Dimension::length);
  return words;
}

std::string torque_at(const Answer& answer, double torque) {
  const HisUnits his(*answer.study);
  const models::Duty& duty = answer.study->duty;
  const double drive = duty.drive_torque();
  const std::string words = his(torque, Dimension::torque);
  return drive > 0 ? fmt::format("{} ({} times the drive)", words, number(torque / drive)) : words;
}

std::string limit_named(const std::string& name) {
  const auto must = models::must_named(name);
  return must ? limit_words(*must) : name;
}

/// "Pulled too hard, the threads strip first in all but 0.31 of 100 pulls (0.29 to 0.33; 1 allowed)."; empty where no
/// part is to go first, or nothing scatters.
std::string who_goes_first(const Answer& answer) {
  for (const LimitVerdict& it : answer.limits) {
    if (it.limit.must != models::Must::goes_first || answer.passes == 0) continue;
    if (!it.limit.odds && !(it.odds.low < it.odds.high)) continue;
    const std::string first = "Pulled too hard, " + breaks_words(it.limit.part) + " first";
    if (it.by_rare) return fmt::format("{} {}.", first, rare_share_words(answer, it));
    if (it.misses == 0) return fmt::format("{} ({}).", first, shortfall_words(it, answer.passes));
    return fmt::format("{} {} ({}).", first, share_words(it, hundred_of(answer)), shortfall_words(it, answer.passes));
  }
  return "";
}

/// Whether it is the nut that is to go first: then its own first turn is no rival.
bool nut_first(const Answer& answer) {
  const models::Limit* first = find_limit(*answer.study, models::Must::goes_first);
  return first && models::of_nut(first->part);
}

/// What may break first, with its torque at nominal.
std::vector<Reached> rivals(const Answer& answer) {
  std::vector<Reached> all = answer.reached;
  if (!nut_first(answer)) return all;
  for (Reached& it : all) it.torque = it.of_screw;
  return all;
}

/// Whether the study says how long the column is.
bool has_column(const models::Duty& duty) { return duty.free_length || duty.travel || !duty.screw_in_compression; }

/// Of what is never reached: that it is not, or that nobody knows.
std::string never_words(const Answer& answer, const Reached& it) {
  const bool unknown = it.limit == models::row(models::Must::buckling).name && !has_column(answer.study->duty);
  return "; " + limit_named(it.limit) + (unknown ? " not reckoned, as no travel is typed" : " never");
}

/// That the nut's own first turn was left out, where it is.
std::string nut_bends(const Answer& answer) {
  for (const Reached& it : answer.reached)
    if (nut_first(answer) && it.torque < it.of_screw)
      return fmt::format(
          " The nut's own first turn bends at {}: how a nut begins to go, and so not counted against it.",
          HisUnits(*answer.study)(it.torque, Dimension::torque));
  return "";
}

}  // namespace

std::string headline(const Answer& answer) {
  const Study& study = *answer.study;
  const std::string name = study_name(study.path);
  if (!answer.pick) return name + ": no screw passes";
  const HisUnits his(study);
  const models::Design& design = answer.pick->design;
  std::vector<std::string> parts = {answer.pick->designation,
                                    number_in_words(static_cast<std::uint64_t>(design.thread.starts)) +
                                        (design.thread.starts == 1 ? " start" : " starts")};
  if (study.choices.screw.size() > 1) parts.push_back(design.screw.name);
  parts.push_back(his(design.nut_length, Dimension::length) + " " + material(study.choices.nut, design.nut) + " nut");
  parts.push_back(lubricated(design.lubrication));
  parts.push_back(face_words(study, design.face));
  std::erase(parts, "");
  return fmt::format("{}: {}: {}", name, joined(parts, ", "), his(answer.pick->mass, Dimension::mass));
}

std::string other_odds(const Answer& answer) {
  const bool clamp = answer.study->duty.action == models::Action::clamp;
  const models::Must task = clamp ? models::Must::force : models::Must::torque;
  std::vector<std::string> words;
  for (const LimitVerdict& it : answer.limits) {
    const bool told_elsewhere = it.limit.must == task || it.limit.must == models::Must::goes_first;
    if (told_elsewhere || !it.limit.odds || it.by_rare || answer.passes == 0) continue;
    const double allowed = allowed_of_hundred(*it.limit.odds);
    const Said share = said(shortfall(it), allowed);
    const std::string bounds = it.misses == 0 ? "at most " + share.high : share.low + " to " + share.high;
    words.push_back(fmt::format("{} {} ({}; {} allowed)", limit_words(it.limit.must),
                                it.misses == 0 ? "none" : share.estimate, bounds, given_number(allowed)));
  }
  return words.empty() ? "" : "Of 100 " + hundred_of(answer) + " fall short: " + joined(words, ", ") + ".";
}

std::string torque_path(const Answer& answer) {
  const double useful = nominal_of(answer, Output::useful_torque), thread = nominal_of(answer, Output::thread_torque);
  const double face = nominal_of(answer, Output::face_torque), drag = nominal_of(answer, Output::drag_torque);
  const double all = useful + thread + face + (std::isfinite(drag) ? drag : 0);
  if (!std::isfinite(all) || all <= 0) return "";
  const auto share = [&](double part) { return number(100 * part / all); };
  const std::string unit = HisUnits(*answer.study).torque_unit();
  std::string words = fmt::format("Of every 100 {} {}, {} lift, {} rub in the thread", unit,
                                  on_what(answer.study->duty), share(useful), share(thread));
  if (face != 0) words += fmt::format(", {} in the face", share(face));
  if (std::isfinite(drag) && drag != 0) words += fmt::format(", {} go into drag", share(drag));
  return words + ".";
}

std::string pressure_law(const Answer& answer) {
  const double by_pressure = answer.face_torque_by_pressure, torque = nominal_of(answer, Output::torque);
  if (!std::isfinite(by_pressure) || by_pressure <= 0) return "";
  const HisUnits his(*answer.study);
  const std::string instead =
      std::isfinite(torque) ? " instead of " + his(torque, Dimension::torque) + " by uniform wear" : "";
  return fmt::format("With uniform pressure on the face the same force takes {}{}.",
                     his(by_pressure, Dimension::torque), instead);
}

std::string winding_back(const Answer& answer) {
  const double alone = nominal_of(answer, Output::lock_margin_thread), both = nominal_of(answer, Output::lock_margin);
  const double lowering = nominal_of(answer, Output::lowering_torque);
  if (std::isnan(alone)) return "";
  const HisUnits his(*answer.study);
  const std::string margin = number(beside(alone, 1, false));
  const std::string with_face = std::isnan(both) ? "" : number(beside(both, 1, false));
  std::string words;
  if (alone >= 1)
    words = fmt::format("Winding back: the thread alone is self-locking, margin {}{}", margin,
                        with_face.empty() ? "" : ", with the face " + with_face);
  else if (both >= 1)
    words = fmt::format(
        "Winding back: the thread alone is not self-locking, margin {}; only the face holds the load, "
        "margin {} with it",
        margin, with_face);
  else
    words = fmt::format("Winding back: the load drives the screw, margin {}{}", margin,
                        with_face.empty() ? "" : ", with the face " + with_face);
  if (!std::isfinite(lowering)) return words + ".";
  return words +
         (lowering >= 0 ? "; lowering takes " + his(lowering, Dimension::torque)
                        : "; holding it takes " + his(-lowering, Dimension::torque)) +
         ".";
}

std::string pulled_too_hard(const Answer& answer) {
  std::vector<Reached> order, never;
  for (const Reached& it : rivals(answer))
    if (!std::isnan(it.torque)) (std::isfinite(it.torque) ? order : never).push_back(it);
  const std::string asked = who_goes_first(answer);
  if (order.empty()) return asked;
  std::stable_sort(order.begin(), order.end(), [](const Reached& a, const Reached& b) { return a.torque < b.torque; });
  const HisUnits his(*answer.study);
  std::vector<std::string> later;
  for (std::size_t i = 1; i < order.size(); ++i)
    later.push_back(limit_named(order[i].limit) + " at " + his(order[i].torque, Dimension::torque));
  const bool already = order.front().torque <= nominal_of(answer, models::Output::torque);
  const char* opening = already         ? "The working pull is past what the {} stands, {}"
                        : asked.empty() ? "Pulled too hard, {} goes first, at {}"
                                        : "At nominal {} goes first, at {}";
  std::string words = asked.empty() ? "" : asked + " ";
  words +=
      fmt::format(fmt::runtime(opening), limit_named(order.front().limit), torque_at(answer, order.front().torque));
  if (!later.empty()) words += "; then " + list_of(later);
  for (const Reached& it : never) words += never_words(answer, it);
  return words + "." + nut_bends(answer);
}

std::string scattered(const Answer& answer) {
  std::vector<std::string> words;
  for (const ScatterUsed& it : answer.scatter)
    if (!it.said.empty() && it.shape != "fixed") words.push_back(input_words(it.name) + " " + it.said);
  return words.empty() ? "" : "Scattered: " + joined(words, "; ") + ".";
}

std::string assumed(const Answer& answer) {
  std::vector<std::string> sentences;
  for (const std::string& one : answer.assumptions) sentences.push_back(capital(without_stop(one)) + ".");
  return sentences.empty() ? "" : "Assumed: " + joined(sentences, " ");
}

}  // namespace studies::say
