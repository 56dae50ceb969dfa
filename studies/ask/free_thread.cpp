#include "studies/ask/free_thread.hpp"

#include <algorithm>
#include <limits>

#include "engine/search/multistart.hpp"
#include "studies/ask/verdict.hpp"

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
  const std::vector<std::optional<double>>& odds;

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
    p.constraints = shared.study().limits.size();
    p.evaluate = [this](const std::vector<double>& x) {
      engine::BoxProblem::Value value;
      const std::optional<models::Design> made = design(x);
      const std::size_t n = shared.study().limits.size();
      if (!made) return engine::BoxProblem::Value{std::numeric_limits<double>::infinity(), std::vector<double>(n, 1.0)};
      const models::ScrewModel model = shared.model(candidate, *made);
      value.objective = aims(shared.study(), model, shared.inputs(candidate).inputs.nominal).mass;
      const Judgement at = shared.judge(candidate, *made, odds);
      for (std::size_t k = 0; k < n; ++k)
        value.constraints.push_back(1 + to_be_sure - at.judged[k] / shared.study().limits[k].least_margin());
      return value;
    };
    return p;
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

double band_bound(const SharedPasses& shared, const Candidate& candidate) {
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

std::optional<models::Design> lightest_in_band(const SharedPasses& shared, const Candidate& candidate, Hunted& hunted) {
  const SharedPasses coarse(shared.study(), engine::Plan::Kind::sobol, coarse_passes, engine::Stream::search,
                            shared.interrupted());
  const Box rough{coarse, candidate, hunted.odds}, box{shared, candidate, hunted.odds};
  hunted.certain = false;
  if (box.sides() == 0) return std::nullopt;
  const engine::GlobalMinimum found =
      engine::minimise_globally(rough.problem(), coarse_search(shared.study().passes.key));
  const engine::BoxMinimum fine = engine::minimise(box.problem(), found.best.x, {200, 1e-8, 0});
  hunted.passes = fine.holds;
  const std::optional<models::Design> design = box.design(fine.x);
  if (design && hunted.passes) hunted.passes = shared.passes_all(candidate, *design, hunted.odds);
  return design;
}

}  // namespace studies
