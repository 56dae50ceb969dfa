#include "studies/ask/free_thread.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/search/multistart.hpp"
#include "studies/ask/aim.hpp"

namespace studies {
namespace {

/// Asked beyond each limit inside the search, so that the point found holds after rounding.
constexpr double to_be_sure = 1e-6;
/// Passes that the first, coarse searches judge on.
constexpr std::uint64_t coarse_passes = 2048;

/// The continuous choices of a band as a box of unit sides; a choice that is fixed has no side.
struct Box {
  const SharedPasses& shared;
  const Candidate& candidate;
  const Hunted& hunted;  ///< the odds asked, and the margins beyond what is asked

  static double along(const Range& range, double t) { return range.from + (range.to - range.from) * t; }

  std::size_t sides() const {
    return std::size_t{!candidate.band->diameter.fixed()} + std::size_t{!candidate.band->pitch.fixed()} +
           std::size_t{candidate.nut_range.has_value()};
  }

  /// The design at a point, or nothing where there is no such thread.
  std::optional<models::Design> design(const std::vector<double>& x) const {
    std::size_t side = 0;
    const auto next = [&](const Range& range) { return range.fixed() ? range.from : along(range, x[side++]); };
    const double diameter = next(candidate.band->diameter), pitch = next(candidate.band->pitch);
    try {
      const models::Thread thread = thread_in(shared.study(), candidate, diameter, pitch);
      double length = 0;
      if (candidate.nut_range) {
        const auto [from, to] = nut_bounds(candidate, thread);
        length = along({from, std::max(from, to)}, x[side]);
      } else {
        length = candidate.nut_length->of(diameter);
      }
      models::Design made = design_of(shared.study(), candidate, thread, length);
      if (!unbuildable(shared.study(), made).empty()) return std::nullopt;
      return made;
    } catch (const engine::Refusal&) {
      return std::nullopt;
    }
  }

  engine::BoxProblem problem() const {
    engine::BoxProblem p;
    p.lower.assign(sides(), 0);
    p.upper.assign(sides(), 1);
    p.constraints = shared.study().limits.size() + shared.study().caps.size() + std::size_t{is_held()};
    p.evaluate = [this, unit = unit(), n = p.constraints](const std::vector<double>& x) {
      const std::optional<models::Design> made = design(x);
      if (made) return value(*made, unit);
      return engine::BoxProblem::Value{std::numeric_limits<double>::infinity(), std::vector<double>(n, 1.0)};
    };
    return p;
  }

private:
  bool is_held() const { return candidate.held && std::isfinite(candidate.held->at_most); }
  const Aim& aim() const { return candidate.held ? candidate.held->sought : shared.study().aims.front(); }

  /// What is aimed at amid the box, so that the objective is of about 1 in size.
  double unit() const {
    const std::optional<models::Design> middle = design(std::vector<double>(sides(), 0.5));
    const double size = middle ? std::abs(aimed(shared, candidate, *middle, aim())) : 0;
    return size > 0 && std::isfinite(size) ? size : 1;
  }

  engine::BoxProblem::Value value(const models::Design& made, double unit) const {
    const Study& study = shared.study();
    engine::BoxProblem::Value value;
    value.objective = aimed(shared, candidate, made, aim()) / unit;
    const Judgement at = shared.judge(candidate, made, hunted.odds);
    for (std::size_t k = 0; k < study.limits.size(); ++k) {
      const double asked = study.limits[k].least_margin() * (hunted.stiffer.empty() ? 1 : hunted.stiffer[k]);
      value.constraints.push_back(1 + to_be_sure - at.judged[k] / asked);
    }
    for (const Cap& cap : study.caps) value.constraints.push_back(over(shared, candidate, made, cap) - 1 + to_be_sure);
    if (is_held()) {
      const Held& held = *candidate.held;
      value.constraints.push_back((aimed(shared, candidate, made, held.other) - held.at_most) /
                                  std::max(std::abs(held.at_most), std::numeric_limits<double>::min()));
    }
    return value;
  }
};

/// Scrambled Sobol' starts in the unit box, the same for every run of a key; as many as are said to the user.
engine::StartOptions coarse_search(std::uint64_t key) {
  engine::StartOptions options;
  options.local.evaluations = 200;
  options.local.tolerance = 1e-5;
  options.least = options.most = band_starts;
  options.tried = 1;
  options.again = 0;  // the fine search goes on from there
  options.key = key;
  return options;
}

}  // namespace

double band_bound(const SharedPasses& shared, const Candidate& candidate, const Aim& aim) {
  if (aim.most || aim.of != Quantity{}) return -std::numeric_limits<double>::infinity();
  const Band& band = *candidate.band;
  const double shortest = candidate.nut_range ? candidate.nut_range->first.of(band.diameter.from)
                                              : candidate.nut_length->of(band.diameter.from);
  const auto part = [&](double diameter, double pitch, models::Output which) {
    const models::Thread thread = thread_in(shared.study(), candidate, diameter, pitch);
    const models::ScrewModel model = shared.model(candidate, design_of(shared.study(), candidate, thread, shortest));
    return model.evaluate_one(shared.inputs(candidate).inputs.nominal)[static_cast<std::size_t>(which)];
  };
  try {  // the screw is lightest where its pitch diameter is least, the nut where it is most
    const double screw = part(band.diameter.from, band.pitch.to, models::Output::screw_mass);
    return screw + std::min(part(band.diameter.from, band.pitch.from, models::Output::nut_mass),
                            part(band.diameter.to, band.pitch.from, models::Output::nut_mass));
  } catch (const engine::Refusal&) {
    return 0;  // a corner of the band is no thread: nothing better is known there
  }
}

std::optional<models::Design> best_in_band(const SharedPasses& shared, const Candidate& candidate, Hunted& hunted) {
  const SharedPasses coarse(shared.study(), engine::Plan::Kind::sobol, coarse_passes, engine::Stream::search,
                            shared.interrupted());
  const Box rough{coarse, candidate, hunted}, box{shared, candidate, hunted};
  hunted.certain = false;
  if (box.sides() == 0) return std::nullopt;
  const engine::GlobalMinimum found =
      engine::minimise_globally(rough.problem(), coarse_search(shared.study().passes.key));
  const engine::BoxMinimum fine = engine::minimise(box.problem(), found.best.x, {200, 1e-8, 0});
  const std::optional<models::Design> design = box.design(fine.x);
  if (design) hunted.over_cap = over_cap(shared, candidate, *design);
  hunted.passes = fine.holds && design && !hunted.over_cap && shared.passes_all(candidate, *design, hunted.odds);
  return design;
}

}  // namespace studies
