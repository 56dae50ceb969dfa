#include "studies/ask/candidates.hpp"

#include <fmt/format.h>

#include "engine/base/format.hpp"
#include "models/thread/series.hpp"

namespace studies {
namespace {

/// A thread to be combined with the rest: fixed or a band.
struct Seed {
  std::optional<models::Designation> size;
  std::optional<Band> band;
};

/// A range with a step as its values one by one; one without as it is.
std::vector<Range> parts_of(const Range& range) {
  if (!(range.step > 0)) return {range};
  std::vector<Range> all;
  for (const double value : range.multiples()) all.push_back({value, value});
  return all;
}

/// A size, or bands in which the root diameter has no jump.
void add_free(models::Form form, const Range& diameter, const Range& pitch, std::vector<Seed>& all) {
  if (diameter.fixed() && pitch.fixed()) {
    all.push_back({models::Designation{form, diameter.from, pitch.from}, std::nullopt});
    return;
  }
  double from = pitch.from;
  std::vector<double> borders = models::pitch_borders(form, pitch.from, pitch.to);
  borders.push_back(pitch.to);
  for (const double border : borders) {
    all.push_back({std::nullopt, Band{form, diameter, {from, border}}});
    from = border;
  }
}

std::vector<Seed> seeds(const ThreadChoice& choice) {
  std::vector<Seed> all;
  for (const models::Designation& size : choice.sizes) all.push_back({size, std::nullopt});
  for (const ThreadChoice::Free& free : choice.free)
    for (const Range& diameter : parts_of(free.diameter))
      for (const Range& pitch : parts_of(free.pitch)) add_free(free.form, diameter, pitch, all);
  return all;
}

std::vector<int> starts_of(const Seed& seed, const Choices& choices) {
  if (seed.size && seed.size->starts_said) return {seed.size->starts};
  return choices.starts;
}

/// Fixes the thread of a candidate, or says why it cannot be.
void build(const Study& study, Candidate& candidate, const Seed& seed) {
  candidate.band = seed.band;
  const double diameter = seed.size ? seed.size->diameter : seed.band->diameter.to;
  if (const models::Material* row = find_material_for(study.tables, candidate.surface.screw.name, diameter))
    candidate.surface.screw = *row;
  if (!seed.size) return;
  try {
    candidate.thread = models::make_thread(seed.size->form, seed.size->diameter, seed.size->pitch, candidate.starts,
                                           study.choices.made);
  } catch (const engine::Refusal& refusal) {
    candidate.why_not = refusal.problems().front().problem;
    return;
  }
  const double longest = candidate.nut_range ? candidate.nut_range->second.of(candidate.thread->diameter)
                                             : candidate.nut_length->of(candidate.thread->diameter);
  candidate.why_not = unbuildable(study, design_of(study, candidate, *candidate.thread, longest));
}

}  // namespace

std::vector<Surface> surfaces(const Choices& choices) {
  std::vector<Surface> all;
  for (const std::string& lubrication : choices.lubrication)
    for (const models::Material& screw : choices.screw)
      for (const models::Material& nut : choices.nut)
        for (const models::Face& face : choices.face) all.push_back({lubrication, screw, nut, face});
  return all;
}

std::vector<Candidate> candidates(const Study& study) {
  std::vector<Candidate> all;
  const std::vector<Surface> kinds = surfaces(study.choices);
  const NutLengthChoice& nut = study.choices.nut_length;
  for (const Seed& seed : seeds(study.choices.thread))
    for (const int starts : starts_of(seed, study.choices))
      for (std::size_t s = 0; s < kinds.size(); ++s)
        for (std::size_t l = 0; l < (nut.range ? 1 : nut.values.size()); ++l) {
          Candidate c;
          c.index = all.size();
          c.starts = starts;
          c.surface = kinds[s];
          c.surface_index = s;
          nut.range ? void(c.nut_range = nut.range) : void(c.nut_length = nut.values[l]);
          build(study, c, seed);
          all.push_back(std::move(c));
        }
  return all;
}

models::Thread thread_in(const Study& study, const Candidate& candidate, double diameter, double pitch) {
  return models::make_thread(candidate.band->form, diameter, pitch, candidate.starts, study.choices.made);
}

models::Design design_of(const Study& study, const Candidate& candidate, const models::Thread& thread,
                         double nut_length) {
  models::Design design;
  design.thread = thread;
  design.nut_length = nut_length;
  design.nut_outside = study.choices.nut_outside.of(thread.diameter);
  const Surface& surface = candidate.surface;
  design.screw = surface.screw;
  design.nut = surface.nut;
  design.lubrication = surface.lubrication;
  design.face = surface.face;
  return design;
}

std::string unbuildable(const Study& study, const models::Design& design) {
  const models::Thread& thread = design.thread;
  const bool own_yield = study.scatter[static_cast<std::size_t>(models::Input::screw_yield)].base.has_value();
  if (design.engaged_turns() < 1 - 1e-9)
    return fmt::format("{} engaged turns, where at least 1 is needed", engine::three_figures(design.engaged_turns()));
  if (design.nut_outside < 1.5 * thread.diameter * (1 - 1e-9)) return "the nut's outside diameter is below 1.5 d";
  if (!own_yield && !find_material_for(study.tables, design.screw.name, thread.diameter))
    return fmt::format("the strength of {} is not known at this size", design.screw.name);
  return "";
}

std::pair<double, double> nut_bounds(const Candidate& candidate, const models::Thread& thread) {
  const double d = thread.diameter;
  return {std::max(candidate.nut_range->first.of(d), thread.pitch), candidate.nut_range->second.of(d)};
}

}  // namespace studies
