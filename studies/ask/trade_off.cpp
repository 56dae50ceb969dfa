#include "studies/ask/trade_off.hpp"

#include <cmath>
#include <queue>

#include "models/thread/series.hpp"
#include "studies/ask/aim.hpp"
#include "studies/ask/explain.hpp"
#include "studies/ask/free_thread.hpp"
#include "studies/ask/party.hpp"

namespace studies {
namespace {

using What = Quantity::What;

constexpr double most_passes = static_cast<double>(refined_passes.back());

/// Whether the two aims pull a nut's length both ways, so that one length a screw does not do.
bool pull_apart(const Study& study) {
  const Goes one = with_length(study, study.aims[0]), other = with_length(study, study.aims[1]);
  const auto wants_short = [](Goes goes) { return goes == Goes::up || goes == Goes::level; };
  const auto wants_long = [](Goes goes) { return goes == Goes::down || goes == Goes::level; };
  return !(wants_short(one) && wants_short(other)) && !(wants_long(one) && wants_long(other));
}

/// A candidate with each of several lengths of its nut.
std::vector<Candidate> with_lengths(const SharedPasses& shared, const Candidate& candidate) {
  const auto [from, to] = nut_room(shared, candidate, *candidate.thread);
  const std::optional<Length>& step = shared.study().choices.nut_length.step;
  std::vector<double> lengths = Range{from, to, step ? step->of(candidate.thread->diameter) : 0}.multiples();
  if (!step && from < to) {
    lengths.clear();
    for (int i = 0; i < trade_lengths; ++i) lengths.push_back(from + (to - from) * i / (trade_lengths - 1));
  }
  std::vector<Candidate> all;
  for (std::size_t i = 0; i < lengths.size() && from <= to; ++i) {
    all.push_back(candidate);
    all.back().nut_range.reset();
    all.back().nut_length = Length{lengths[i], false};
  }
  return all;
}

/// A band sought by one aim at several values of the other, from where that stands at the best of the first to its own
/// best; a share of passes has no such slope and is asked for as odds instead (see `odds_levels`).
std::vector<Candidate> held_at(const SharedPasses& shared, Candidate band) {
  const std::vector<Aim>& aims = shared.study().aims;
  const auto best = [&](std::size_t by) -> std::optional<double> {
    Hunted own;
    own.odds = asked_odds(shared.study());
    Candidate alone = band;
    alone.held = Held{aims[by], aims[by], std::numeric_limits<double>::infinity()};
    const std::optional<models::Design> design = best_in_band(shared, alone, own);
    if (!design || !own.passes) return std::nullopt;
    return aimed(shared, band, *design, aims[1]);
  };
  const std::optional<double> at_first = best(0), at_second = best(1);
  if (!at_first || !at_second) return {band};
  std::vector<Candidate> all;
  for (int i = 0; i < trade_points; ++i) {
    all.push_back(band);
    const double share = static_cast<double>(i) / (trade_points - 1);
    all.back().held = Held{aims[0], aims[1], *at_first + (*at_second - *at_first) * share};
  }
  constexpr double as_it_comes = std::numeric_limits<double>::infinity();
  all.front().held = Held{aims[0], aims[1], as_it_comes};
  all.back().held = Held{aims[1], aims[0], as_it_comes};
  return all;
}

/// Odds from those asked to as good as certain, evenly by their distance from certainty: each time a third of the
/// misses.
std::vector<double> odds_levels(std::optional<double> asked) {
  std::vector<double> levels;
  double misses = 1 - asked.value_or(0.5);
  for (int i = 0; i < trade_points; ++i, misses /= 3) levels.push_back(1 - misses);
  return levels;
}

/// What the sweep takes up: screws with one nut, or bands with one way of being sought.
struct Entries {
  Hunt hunt;
  std::vector<std::size_t> origin;  ///< candidate of the study that each comes from

  void add(const Study& study, const Candidate& of, std::vector<Candidate> entries) {
    for (Candidate& each : entries) {
      hunt.candidates.push_back(std::move(each));
      hunt.hunted.emplace_back().odds = asked_odds(study);
      origin.push_back(of.index);
    }
  }
};

/// Of a band where one of the aims is a share of passes: the other sought at each of the odds.
void add_at_odds(const Study& study, const Candidate& band, std::size_t odds, Entries& entries) {
  const std::size_t limit = *limit_of(study, study.aims[odds].of.must);
  const Aim& sought = study.aims[1 - odds];
  for (const double level : odds_levels(study.limits[limit].odds)) {
    Candidate each = band;
    each.held = Held{sought, sought, std::numeric_limits<double>::infinity()};
    entries.add(study, band, {each});
    entries.hunt.hunted.back().odds[limit] = level;
  }
}

Entries entries_of(const Study& study, const SharedPasses& shared) {
  Entries entries;
  const bool apart = pull_apart(study);
  for (const Candidate& each : candidates(study)) {
    if (!each.why_not.empty()) continue;
    if (!each.band) {
      entries.add(study, each, {each});
      if (each.nut_range && apart) entries.add(study, each, with_lengths(shared, each));
    } else if (study.aims[0].of.what == What::odds || study.aims[1].of.what == What::odds) {
      add_at_odds(study, each, study.aims[0].of.what == What::odds ? 0 : 1, entries);
    } else {
      entries.add(study, each, held_at(shared, each));
    }
  }
  return entries;
}

/// Where an entry stands by both aims.
struct Place {
  engine::Standing first;
  double second;
  std::size_t index;
  /// Best by the first aim on top, then by the second, then the one looked at further, then the one typed first.
  bool operator<(const Place& other) const {
    if (first.value != other.first.value) return first.value > other.first.value;
    if (second != other.second) return second > other.second;
    if (first.stage != other.first.stage) return first.stage < other.first.stage;
    return index > other.index;
  }
};

TradePoint point_of(const SharedPasses& shared, const Entries& entries, const Place& place) {
  const Study& study = shared.study();
  const Candidate& candidate = entries.hunt.candidates[place.index];
  TradePoint point;
  point.screw = brief(shared, candidate, entries.hunt.hunted[place.index]);
  point.screw.index = entries.origin[place.index];
  point.screw.passes = true;
  const double values[] = {place.first.value, place.second};
  for (const std::size_t i : {0, 1}) {
    const Aim& aim = study.aims[i];
    const double share = std::round(values[i] * most_passes) / most_passes;  // as it was counted
    point.values[i] = quantity_of(aim, aim.of.what == What::odds ? share : values[i]);
  }
  return point;
}

}  // namespace

TradeOff trade_off(const Study& study, const SharedPasses& shared, const Asking& asking) {
  Entries entries = entries_of(study, shared);
  FreshSets fresh(study, asking.running);
  Party party(study, shared, fresh, asking.running, entries.hunt);
  std::priority_queue<Place> queue;
  const auto second_bound = [&](std::size_t i) { return bound(shared, entries.hunt.candidates[i], study.aims[1]); };
  for (std::size_t i = 0; i < entries.origin.size(); ++i)
    queue.push(
        {{engine::Stage::bounded, bound(shared, entries.hunt.candidates[i], study.aims[0])}, second_bound(i), i});
  TradeOff result;
  double best_second = std::numeric_limits<double>::infinity();
  while (!queue.empty()) {
    const Place place = queue.top();
    queue.pop();
    if (asking.running.interrupted && *asking.running.interrupted) throw engine::Interrupted{};
    if (place.second >= best_second || engine::alike(place.second, best_second)) continue;
    if (place.first.stage == engine::Stage::confirmed) {
      result.points.push_back(point_of(shared, entries, place));
      best_second = place.second;
      continue;
    }
    const std::optional<engine::Standing> next = party.look(place.index, place.first);
    if (!next) continue;
    const Hunted& hunted = entries.hunt.hunted[place.index];
    const double second =
        hunted.design && !hunted.put_off ? party.value(place.index, study.aims[1], next->stage) : place.second;
    queue.push({{next->stage, std::max(next->value, place.first.value)}, std::max(second, place.second), place.index});
  }
  result.model_calls = party.calls();
  return result;
}

}  // namespace studies
