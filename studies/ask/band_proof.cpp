#include "studies/ask/band_proof.hpp"

#include <algorithm>
#include <cmath>
#include <queue>

#include "engine/base/error.hpp"
#include "engine/pass/survey.hpp"
#include "studies/ask/aim.hpp"
#include "studies/ask/free_thread.hpp"

namespace studies {
namespace {

using models::Must;
using models::Thread;

/// tan of the steepest lead angle at which friction's torque still grows with the pitch diameter: √(1 + b²) − b for
/// b = 1.2, the friction over the cosine of the flank.
constexpr double steepest = 0.36;

Thread at(const Study& study, const Candidate& cell, double diameter, double pitch) {
  return thread_in(study, cell, diameter, pitch);
}

double shortest_nut(const Candidate& cell, double diameter) {
  return cell.nut_range ? cell.nut_range->first.of(diameter) : cell.nut_length->of(diameter);
}

double longest_nut(const Candidate& cell, double diameter) {
  return cell.nut_range ? cell.nut_range->second.of(diameter) : cell.nut_length->of(diameter);
}

/// What a nut adds to the mass of a screw in the cell, at least [kg/m]: it goes one way with diameter and with pitch,
/// so that some corner has the least.
double mass_a_metre(const SharedPasses& shared, const Candidate& cell) {
  const Band& band = *cell.band;
  const double shortest = shortest_nut(cell, band.diameter.from);
  double least = std::numeric_limits<double>::infinity();
  for (const double d : {band.diameter.from, band.diameter.to})
    for (const double p : {band.pitch.from, band.pitch.to}) {
      const Thread thread = at(shared.study(), cell, d, p);
      const auto weighs = [&](double nut) {
        return mass_of(shared, cell, design_of(shared.study(), cell, thread, nut));
      };
      least = std::min(least, (weighs(2 * shortest) - weighs(shortest)) / shortest);
    }
  return least;
}

struct Cell {
  Candidate candidate;     ///< its band is the cell
  double bound;            ///< least mass [kg]
  bool looked_at = false;  ///< the bound is that with the nut it needs
  bool operator<(const Cell& other) const { return bound > other.bound; }
};

/// The two halves of a cell, cut across the side that is longer as a share of itself.
std::array<Candidate, 2> halves(const Candidate& cell) {
  const Range &d = cell.band->diameter, &p = cell.band->pitch;
  const bool by_diameter =
      2 * (d.to - d.from) / d.from > (p.to - p.from) / p.from;  // mass goes as the diameter squared
  std::array<Candidate, 2> two = {cell, cell};
  const Range& side = by_diameter ? d : p;
  const double middle = (side.from + side.to) / 2;
  (by_diameter ? two[0].band->diameter : two[0].band->pitch).to = middle;
  (by_diameter ? two[1].band->diameter : two[1].band->pitch).from = middle;
  return two;
}

/// A cell so small that halving it tells no more: what is left in it may well hold.
bool tiny(const Candidate& cell) {
  constexpr double hair = 1e-3;
  const Range &d = cell.band->diameter, &p = cell.band->pitch;
  return (d.to - d.from) / d.from < hair && (p.to - p.from) / p.from < 2 * hair;
}

/// Whether friction stays below what `steepest` rests on, with room for what the pitch diameter scatters: no more than
/// 1 over the cosine of the flank on any pass.
bool friction_fits(const SharedPasses& shared, const Candidate& band) {
  const Thread thread = at(shared.study(), band, band.band->diameter.to, band.band->pitch.from);
  const double most = 1 / std::sqrt(1 + thread.tan_load_flank * thread.tan_load_flank);
  const SharedInputs& inputs = shared.inputs(band);
  for (std::size_t b = 0; b < inputs.held.size(); ++b) {
    const double* friction = inputs.held[b].row(static_cast<std::size_t>(models::Input::thread_friction));
    if (std::any_of(friction, friction + inputs.plan.size(b), [&](double f) { return !(f <= most); })) return false;
  }
  return true;
}

/// Ruling cells out on the shared passes.
class Proof {
public:
  Proof(const SharedPasses& shared, double mass)
      : shared_(shared),
        study_(shared.study()),
        mass_(mass),
        odds_(loosened(asked_odds(study_), shared.passes())),
        order_(study_.limits.size()) {
    for (std::size_t k = 0; k < order_.size(); ++k) order_[k] = k;
  }

  /// The least mass of what is left of a cell: with the shortest nut that is not ruled out; none where no nut is left
  /// that weighs less than the pick.
  std::optional<double> least_left(const Cell& cell) {
    const double shortest = shortest_nut(cell.candidate, cell.candidate.band->diameter.from);
    const double a_metre = mass_a_metre(shared_, cell.candidate), bound = band_bound(shared_, cell.candidate, {});
    double left = std::min(longest_nut(cell.candidate, cell.candidate.band->diameter.to),
                           shortest + std::max(0.0, mass_ - bound) / a_metre);
    if (ruled_out(cell.candidate, left)) return std::nullopt;
    double out = shortest;
    if (!ruled_out(cell.candidate, out)) return bound;
    constexpr int steps = 7;  // to a hundredth of the range
    for (int i = 0; i < steps; ++i) {
      const double middle = (out + left) / 2;
      (ruled_out(cell.candidate, middle) ? out : left) = middle;
    }
    return bound + a_metre * (out - shortest);
  }

private:
  /// Whether no screw of a cell with a nut no longer than this holds.
  bool ruled_out(const Candidate& cell, double longest) {
    for (std::size_t i = 0; i < order_.size(); ++i) {
      if (!missed(cell, order_[i], longest)) continue;
      const auto at = order_.begin() + static_cast<std::ptrdiff_t>(i);
      std::rotate(order_.begin(), at, at + 1);
      return true;
    }
    return false;
  }

  /// Whether the best of a cell misses a limit on more passes than its odds allow. It is given up early where that does
  /// not look likely.
  bool missed(const Candidate& cell, std::size_t k, double longest) const {
    const std::optional<Best> best = best_for(study_, study_.limits[k]);
    const std::optional<models::Design> design = best ? best_of_cell(study_, cell, *best, longest) : std::nullopt;
    if (!design) return false;
    models::Duty duty = study_.duty;
    if (column_grows(duty)) duty.free_length = *duty.travel + shortest_nut(cell, cell.band->diameter.from) / 2;
    const SharedInputs& inputs = shared_.inputs(cell);
    const models::ScrewModel screw(
        duty, *design, models::allowances(study_.tables, duty, *design, inputs.inputs.face_from_table), study_.limits);
    const double least = study_.limits[k].least_margin() * (1 - 1e-12);
    if (!odds_[k]) return screw.evaluate_one(inputs.inputs.nominal)[models::output_count + k] < least;
    return misses_more(screw, inputs, k, least);
  }

  bool misses_more(const models::ScrewModel& screw, const SharedInputs& inputs, std::size_t k, double least) const {
    const std::uint64_t allowed = engine::misses_allowed(*odds_[k], shared_.passes());
    std::uint64_t misses = 0, done = 0;
    engine::Block margin(1);
    for (std::size_t b = 0; b < inputs.held.size(); ++b) {
      const std::size_t n = inputs.plan.size(b);
      screw.evaluate_margin(k, inputs.held[b], margin, n);
      shared_.count_calls(n);
      for (std::size_t i = 0; i < n; ++i) misses += margin.row(0)[i] < least;
      done += n;
      if (misses > allowed) return true;
      const double share = static_cast<double>(misses) / static_cast<double>(done);
      if (share * static_cast<double>(shared_.passes()) < 0.7 * static_cast<double>(allowed)) return false;
    }
    return false;
  }

  const SharedPasses& shared_;
  const Study& study_;
  const double mass_;
  const std::vector<std::optional<double>> odds_;
  std::vector<std::size_t> order_;  ///< limits, the one that ruled out last first
};

}  // namespace

std::optional<Best> best_for(const Study& study, const models::Limit& limit) {
  const bool clamp = study.duty.action == models::Action::clamp;
  const bool given = clamp && study.duty.torque_path == models::TorquePath::full;
  const bool by_table_at_speed =
      (study.duty.screw_speed || study.duty.travel_speed) && limit.kind == models::Limit::Kind::margin;
  switch (limit.must) {
    case Must::force:
      if (clamp && limit.kind != models::Limit::Kind::at_most) return Best::force;
      return std::nullopt;
    case Must::self_locking:
      if (limit.kind == models::Limit::Kind::at_most) return std::nullopt;
      return Best::locking;
    case Must::bearing:
    case Must::face_bearing:
      return by_table_at_speed ? std::nullopt : std::optional<Best>(Best::strength);
    case Must::stripping:
    case Must::buckling:
    case Must::slenderness:
      return Best::strength;
    case Must::yield:
    case Must::thread_root:
      return given ? std::optional<Best>(Best::strength) : std::nullopt;
    case Must::overload:
      return study.duty.torque_path == models::TorquePath::full ? std::optional<Best>(Best::strength) : std::nullopt;
    default:
      return std::nullopt;
  }
}

std::optional<models::Design> best_of_cell(const Study& study, const Candidate& cell, Best best, double longest) {
  const Range &d = cell.band->diameter, &p = cell.band->pitch;
  try {
    const Thread thick = at(study, cell, d.to, p.from), thin = at(study, cell, d.from, p.to);
    if (p.to * cell.starts > steepest * models::π * thin.pitch_diameter) return std::nullopt;
    // Thick in everything: where flanks slope, a nut longer by the ratio of the pitches makes up for the depth of the
    // finer pitch, in turns, flank area and shear area alike.
    Thread thread = thick;
    if (best == Best::strength) thread.pitch = p.to;
    if (best == Best::force) thread.pitch_diameter = thin.pitch_diameter;
    return design_of(study, cell, thread, longest * p.to / p.from);
  } catch (const engine::Refusal&) {
    return std::nullopt;  // a corner is no thread: nothing is known
  }
}

double band_gap(const SharedPasses& shared, const std::vector<Candidate>& candidates, double mass) {
  std::priority_queue<Cell> open;
  for (const Candidate& each : candidates) {
    if (!each.band || !each.why_not.empty()) continue;
    if (!friction_fits(shared, each)) return std::numeric_limits<double>::infinity();
    open.push({each, band_bound(shared, each, {})});
  }
  Proof proof(shared, mass);
  for (std::size_t cells = 0; !open.empty() && open.top().bound < mass / (1 + enough);) {
    if (shared.interrupted() && *shared.interrupted()) throw engine::Interrupted{};
    const Cell cell = open.top();
    if (cells == most_cells || tiny(cell.candidate)) return mass / cell.bound - 1;
    open.pop();
    if (cell.looked_at) {
      for (const Candidate& half : halves(cell.candidate))
        open.push({half, std::max(cell.bound, band_bound(shared, half, {}))});
      continue;
    }
    ++cells;
    if (const std::optional<double> least = proof.least_left(cell))
      open.push({cell.candidate, std::max(cell.bound, *least), true});
  }
  return open.empty() ? enough : std::min(enough, std::max(0.0, mass / open.top().bound - 1));
}

}  // namespace studies
