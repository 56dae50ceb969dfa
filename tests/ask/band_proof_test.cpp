/// A free diameter and pitch: what is said of a whole cell against single screws in it, and what NLopt finds against a
/// dense grid.
#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <fstream>
#include <random>
#include <sstream>

#include "studies/ask/aim.hpp"
#include "studies/ask/band_proof.hpp"
#include "studies/ask/free_thread.hpp"
#include "studies/ask/nut_length.hpp"
#include "tests/ask/read_text.hpp"

namespace {

using namespace studies;

/// A screw of free size (invented) with every limit that a clamp, or a lift, can be asked.
std::string free_screw(bool clamp, const std::string& form, const std::string& pitches) {
  return fmt::format(
      "title = \"Free\"\n[duty]\naction = \"{}\"\nforce = \"9 kN\"\ntorque = \"60 N.m\"\ntravel = \"200 mm\"\n{}"
      "overload = {{ torque = \"90 N.m\" }}\n[choose]\n"
      "thread = {{ form = \"{}\", diameter = {{ from = \"18 mm\", to = \"40 mm\" }}, pitch = {{ {} }} }}\n"
      "nut_length = {{ from = \"1 d\", to = \"2.2 d\" }}\nlubrication = \"oil\"\nscrew = \"steel 1045 hot rolled\"\n"
      "nut = \"bearing bronze C93200\"\n"
      "face = {{ kind = \"pad\", outer = \"30 mm\", inner = \"8 mm\", on = \"bronze\" }}\n"
      "[scatter]\n{} = {{ within = \"10 %\" }}\nscrew_yield = {{ spread = \"6 %\" }}\ndiameters = {{ within = \"0.1 "
      "mm\" }}\n"
      "[must]\n{}yield = {{}}\nthread_root = {{}}\nbuckling = {{}}\nslenderness = {{ at_most = 200 }}\nbearing = {{}}\n"
      "face_bearing = {{}}\nstripping = {{}}\nself_locking = {{}}\noverload = {{}}\n",
      clamp ? "clamp" : "lift", clamp ? "" : "free_length = \"250 mm\"\n", form, pitches, clamp ? "torque" : "load",
      clamp ? "force = {}\n" : "torque = {}\n");
}

std::string gallery(const std::string& name) {
  std::ifstream file(std::string(SCREWTINY_SOURCE) + "/studies/gallery/" + name);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

}  // namespace

TEST_CASE("No screw of a cell is better than its best by any limit, pass by pass", "[ask]") {
  const bool clamp = GENERATE(true, false);
  const auto [form, pitches] = GENERATE(
      std::pair("square", "from = \"3 mm\", to = \"9 mm\""), std::pair("trapezoidal", "from = \"2 mm\", to = \"5 mm\""),
      std::pair("trapezoidal", "from = \"6 mm\", to = \"10 mm\""), std::pair("acme", "from = \"3 mm\", to = \"8 mm\""),
      std::pair("buttress-7-45", "from = \"3 mm\", to = \"6 mm\""),
      std::pair("buttress-3-30", "from = \"3 mm\", to = \"6 mm\""));
  const Study study = tests::study_of(free_screw(clamp, form, pitches));
  const SharedPasses shared(study, engine::Plan::Kind::sobol, 256, engine::Stream::test);
  std::mt19937_64 dice(clamp ? 7 : 8);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(dice() >> 11) * 0x1p-53;
  };
  const std::vector<Candidate> all = candidates(study);
  std::size_t bounded = 0;
  for (int trial = 0; trial < 100; ++trial) {
    Candidate cell = all[dice() % all.size()];
    const Band whole = *cell.band;
    for (auto part : {&Band::diameter, &Band::pitch}) {
      const double one = between((whole.*part).from, (whole.*part).to),
                   other = between((whole.*part).from, (whole.*part).to);
      ((*cell.band).*part) = {std::min(one, other), std::max(one, other)};
    }
    const double d = between(cell.band->diameter.from, cell.band->diameter.to),
                 p = between(cell.band->pitch.from, cell.band->pitch.to);
    const models::Thread thread = thread_in(study, cell, d, p);
    const double nut = between(std::max(d, p), 2.2 * d), longest = between(nut, 2.2 * cell.band->diameter.to);
    const auto of_screw = shared.margins(cell, design_of(study, cell, thread, nut));
    for (std::size_t k = 0; k < study.limits.size(); ++k) {
      const std::optional<Best> best = best_for(study, study.limits[k]);
      const std::optional<models::Design> design = best ? best_of_cell(study, cell, *best, longest) : std::nullopt;
      if (!design) continue;
      ++bounded;
      models::Duty duty = study.duty;
      if (column_grows(duty)) duty.free_length = *duty.travel + cell.band->diameter.from / 2;
      const models::ScrewModel ideal(duty, *design, models::allowances(study.tables, duty, *design, true),
                                     study.limits);
      const SharedInputs& inputs = shared.inputs(cell);
      engine::Block margin(1);
      std::vector<double> of_best;
      for (std::size_t block = 0; block < inputs.held.size(); ++block) {
        ideal.evaluate_margin(k, inputs.held[block], margin, inputs.plan.size(block));
        of_best.insert(of_best.end(), margin.row(0), margin.row(0) + inputs.plan.size(block));
      }
      double worst = std::numeric_limits<double>::infinity();
      for (std::size_t i = 0; i < of_screw[k].size(); ++i) worst = std::min(worst, of_best[i] / of_screw[k][i]);
      INFO(models::row(study.limits[k].must).name << " d " << d << " p " << p);
      CHECK(worst >= 1 - 1e-12);
    }
  }
  CHECK(bounded > (clamp ? 700U : 350U));
}

TEST_CASE("What NLopt finds for a free diameter and pitch is the lightest of a dense grid, and the gap told is no less",
          "[ask]") {
  const Study study = tests::study_of(gallery("nipping_press.toml"));
  const SharedPasses shared(study, engine::Plan::Kind::sobol, 4096, engine::Stream::search);
  const std::vector<Candidate> all = candidates(study);
  REQUIRE(all.size() == 1);
  Hunted found;
  found.odds = asked_odds(study);
  const std::optional<models::Design> design = best_in_band(shared, all[0], found);
  REQUIRE(found.passes);
  const double mass = mass_of(shared, all[0], *design), gap = band_gap(shared, all, mass);
  CHECK(gap < 0.05);

  double lightest = std::numeric_limits<double>::infinity();
  Candidate one = all[0];
  one.band.reset();
  const auto look = [&](const Range& diameters, const Range& pitches, int steps) {
    for (int i = 0; i <= steps; ++i)
      for (int j = 0; j <= steps; ++j) {
        one.thread = thread_in(study, all[0], diameters.from + (diameters.to - diameters.from) * i / steps,
                               pitches.from + (pitches.to - pitches.from) * j / steps);
        const NutLength nut = least_nut(shared, one, *one.thread, found.odds);
        if (nut.passes)
          lightest = std::min(lightest, mass_of(shared, one, design_of(study, one, *one.thread, nut.length)));
      }
  };
  const Band& band = *all[0].band;
  look(band.diameter, band.pitch, 24);  // everything there is
  const double d = design->thread.diameter, p = design->thread.pitch;
  look({0.97 * d, 1.03 * d}, {0.97 * p, 1.03 * p}, 24);  // and closely where it was found
  CHECK(lightest >= mass * (1 - 1e-3));
  CHECK(lightest <= mass * 1.01);
  CHECK(lightest >= mass / (1 + gap));
}
