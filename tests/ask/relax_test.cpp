/// What would have to give, against the search itself: a change told is typed and searched again, and a smaller one
/// too.
#include <fmt/format.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "studies/ask/change.hpp"
#include "studies/ask/hunt.hpp"
#include "studies/ask/question.hpp"
#include "tests/ask/read_text.hpp"

namespace {

using namespace studies;
using models::Must;
using tests::study_of;
using Kind = Change::Kind;

/// A jack's column on a short shelf (invented); what varies is put in.
struct Said {
  std::string duty = "free_length = \"400 mm\"";
  std::string nut_length = "\"1.6 d\"";
  std::string screw_yield = "{ shape = \"lognormal\", spread = \"6 %\" }";
  std::string yield = "2";
  std::string buckling = "3";
  std::string force = "12 kN";
  std::string more = "";
};

Study clamp(const Said& said) {
  return study_of(fmt::format(
      "title = \"Clamp\"\n[duty]\naction = \"clamp\"\ntorque = \"45 N.m\"\ntravel = \"300 mm\"\n{}\n[choose]\n"
      "thread = {{ form = \"trapezoidal\", from = \"14 mm\", to = \"32 mm\" }}\nnut_length = {}\nlubrication = "
      "\"oil\"\n"
      "screw = \"steel 1045 hot rolled\"\nnut = \"bearing bronze C93200\"\n"
      "face = {{ kind = \"rolling\", mean_radius = \"10 mm\" }}\n[scatter]\ntorque = {{ within = \"4 %\" }}\n"
      "screw_yield = {}\n[must]\nforce = {{ at_least = \"{}\", odds = 0.95 }}\nyield = {{ margin = {}, odds = 0.99 }}\n"
      "buckling = {{ margin = {}, odds = 0.99 }}\nbearing = {{ odds = 0.95 }}\n{}\n[passes]\ncount = 65536\nkey = 7\n",
      said.duty, said.nut_length, said.screw_yield, said.force, said.yield, said.buckling, said.more));
}

std::vector<Study> possible() {
  return {clamp({}), clamp({.nut_length = "{ from = \"1.0 d\", to = \"2.4 d\" }"}),
          clamp({.duty = "", .nut_length = "[\"1.2 d\", \"1.8 d\"]", .more = "slenderness = { at_most = 110 }\n"}),
          clamp({.screw_yield = "{ mean = \"290 MPa\", spread = \"5 %\" }", .yield = "3", .buckling = "2"})};
}

std::vector<Study> impossible() {
  return {
      clamp({.buckling = "25"}), clamp({.yield = "9"}), clamp({.force = "15 kN"}),
      clamp(
          {.nut_length = "{ from = \"1.0 d\", to = \"2.0 d\" }", .yield = "9", .more = "nut_body = { margin = 3 }\n"}),
      clamp({.duty = "", .buckling = "20", .more = "mass = { at_most = \"2 kg\" }\n"})};
}

Change limit_of(const Study& study, Must must) {
  std::size_t k = 0;
  while (study.limits[k].must != must) ++k;
  return {Kind::limit, k};
}

Change change_of(const Study& study, const Relaxation& it) {
  return it.kind == Kind::limit ? limit_of(study, it.must) : Change{it.kind, 0};
}

Answer sized(const Study& study) { return size(study, {}); }

/// The study with nothing but one size to choose from.
Study only(Study study, const std::string& designation) {
  std::vector<models::Designation>& sizes = study.choices.thread.sizes;
  std::erase_if(sizes, [&](const models::Designation& it) {
    return models::designation(models::make_thread(it.form, it.diameter, it.pitch, 1, study.choices.made)) !=
           designation;
  });
  REQUIRE(sizes.size() == 1);
  return study;
}

/// The mass of what a search picks; none where nothing passes.
std::optional<double> lightest(const Study& study) {
  const SharedPasses shared(study, engine::Plan::Kind::sobol, shared_passes, engine::Stream::search);
  const Hunt found = hunt(study, shared, {});
  return found.pick ? std::optional<double>(found.hunted[*found.pick].value) : std::nullopt;
}

double back_towards(double was, double to, double share) { return to + (was > to ? 1 : -1) * share * to; }

/// Margins of the shared passes of a candidate's design under a change.
std::vector<std::vector<double>> margins(const Study& study, Candidate candidate, double nut, Change change,
                                         double to) {
  const Study other = changed(study, change, to);
  const SharedPasses shared(other, engine::Plan::Kind::sobol, 1024, engine::Stream::search);
  candidate.surface = changed(candidate.surface, change, to);
  return shared.margins(candidate, design_of(other, candidate, *candidate.thread, nut));
}

}  // namespace

TEST_CASE("Where nothing passes, whoever types a change told gets the screw it names", "[relax][plain-build]") {
  std::size_t told = 0;
  for (const Study& study : impossible()) {
    const Answer answer = sized(study);
    REQUIRE_FALSE(answer.pick);
    for (const Relaxation& it : answer.relax) {
      INFO(name(it.kind) << " " << row(it.must).name << " " << it.was << " to " << it.to << " admits " << it.admits);
      const Study typed = changed(study, change_of(study, it), it.to);
      const std::optional<double> own = lightest(only(typed, it.admits));
      const Answer all = sized(typed);
      REQUIRE(own);
      REQUIRE((all.pick && all.holds()));
      CHECK(all.pick->mass <= *own * (1 + 1e-9));
      ++told;
    }
  }
  CHECK(told >= 8);
}

TEST_CASE("Where nothing passes, a change smaller than the one told admits nothing", "[relax]") {
  for (const Study& study : impossible()) {
    const Answer answer = sized(study);
    for (const Relaxation& it : answer.relax) {
      INFO(name(it.kind) << " " << row(it.must).name << " " << it.was << " to " << it.to);
      const double less = back_towards(it.was, it.to, 0.02);
      if (relative(it.was, it.to) > 0.02) CHECK_FALSE(lightest(changed(study, change_of(study, it), less)));
    }
    for (const Change change : changes(study)) {
      const auto same = [&](const Relaxation& it) {
        return it.kind == change.kind && (it.kind != Kind::limit || it.must == study.limits[change.limit].must);
      };
      if (change.kind == Kind::limit || std::any_of(answer.relax.begin(), answer.relax.end(), same)) continue;
      INFO(name(change.kind));
      CHECK_FALSE(lightest(changed(study, change, farthest(study, change))));
    }
    CHECK(std::is_sorted(answer.relax.begin(), answer.relax.end(), [](const Relaxation& a, const Relaxation& b) {
      return relative(a.was, a.to) < relative(b.was, b.to);
    }));
  }
}

TEST_CASE("A lighter size does with the change told for it, and with no smaller one", "[relax]") {
  std::size_t told = 0, none = 0;
  for (const Study& study : possible()) {
    const Answer answer = sized(study);
    REQUIRE(answer.pick);
    for (const CandidateVerdict& lighter : answer.lighter) {
      INFO(lighter.designation);
      const auto does = [&](Change change, double to) {
        const std::optional<double> own = lightest(only(changed(study, change, to), lighter.designation));
        return own && *own < answer.pick->mass;
      };
      if (lighter.admit) {
        const Relaxation& it = *lighter.admit;
        INFO(name(it.kind) << " " << row(it.must).name << " " << it.was << " to " << it.to);
        CHECK(it.admits == lighter.designation);
        CHECK(does(change_of(study, it), it.to));
        ++told;
      }
      const double share = lighter.admit ? relative(lighter.admit->was, lighter.admit->to) - 0.02 : 1;
      if (share <= 0) continue;
      for (const Change change : changes(study)) {
        if (change.kind == Kind::limit && !lighter.admit) continue;
        const double was = terms(study, change).was;
        const bool down =
            change.kind == Kind::free_length ||
            (change.kind == Kind::limit && study.limits[change.limit].kind != models::Limit::Kind::at_most);
        const double to = change.kind == Kind::free_length && !lighter.admit ? farthest(study, change)
                                                                             : was * (down ? 1 - share : 1 + share);
        INFO(name(change.kind) << " " << to);
        if (to > 0) CHECK_FALSE(does(change, to));
      }
      none += !lighter.admit;
    }
  }
  CHECK(told >= 8);
  CHECK(none >= 1);
}

TEST_CASE("A shorter column and a stronger screw or nut lower no margin on any pass", "[relax]") {
  const Study study =
      clamp({.duty = "free_length = \"400 mm\"\noverload = { torque = \"70 N.m\" }",
             .more = "thread_root = { odds = 0.9 }\nnut_body = { odds = 0.9 }\noverload = { odds = 0.9 }\n"
                     "stripping = { odds = 0.9 }\nslenderness = { at_most = 100 }\n"});
  bool johnson = false;
  for (const Candidate& candidate : candidates(study)) {
    const double nut = 1.6 * candidate.thread->diameter;
    for (const Change change : changes(study)) {
      if (change.kind == Kind::limit) continue;
      const double was = terms(study, change).was;
      const std::vector<std::vector<double>> before = margins(study, candidate, nut, change, was);
      for (const double step : {0.97, 0.7, 0.4, 0.2}) {
        const double to = change.kind == Kind::free_length ? was * step : was / step;
        const auto after = margins(study, candidate, nut, change, to);
        for (std::size_t k = 0; k < after.size(); ++k)
          for (std::size_t i = 0; i < after[k].size(); ++i) {
            const double gain = after[k][i] / before[k][i];
            if (!(gain >= 1 - 1e-12 && gain <= most_gain(study, change, to, study.limits[k]) * (1 + 1e-9)))
              FAIL(name(change.kind) << " " << row(study.limits[k].must).name << " by " << gain << " at " << to);
            johnson = johnson || (change.kind == Kind::screw_strength && gain > 1 + 1e-9 &&
                                  study.limits[k].must == Must::buckling);
          }
      }
    }
  }
  CHECK(johnson);  // some columns are short enough for their strength to matter
}

TEST_CASE("A changed value is said in three figures of his unit, on the side away from what was", "[relax]") {
  const Study study = clamp({});
  CHECK(as_said(study, {Kind::free_length, 0}, 0.34567) == Approx(0.345).epsilon(1e-12));
  CHECK(as_said(study, {Kind::free_length, 0}, 0.345) == 0.345);
  CHECK(as_said(study, limit_of(study, Must::force), 11.2891e3) == 11.2e3);
  CHECK(as_said(study, limit_of(study, Must::buckling), 2.4713) == 2.47);
  CHECK(as_said(study, {Kind::screw_strength, 0}, 1.1111) == 1.12);
  Study inch = clamp({});
  inch.units = {{engine::Dimension::length, "in"}};
  CHECK(as_said(inch, {Kind::free_length, 0}, 0.34567) == Approx(13.6 * 0.0254).epsilon(1e-12));
}

TEST_CASE("A bearing pressure that may rise is rounded up", "[relax]") {
  Study study = clamp({});
  for (models::Limit& limit : study.limits)
    if (limit.must == Must::bearing) limit = {Must::bearing, models::Limit::Kind::at_most, 12e6, {}, limit.basis};
  const Change change = limit_of(study, Must::bearing);
  CHECK(asked_for(study, change.limit, 0.9) == Approx(12e6 / 0.9));
  CHECK(as_said(study, change, 13.312e6) == 13.4e6);
}

TEST_CASE("A strength that is typed among the scatter grows with the screw, a deviation added to it does not",
          "[relax]") {
  const auto yield = [](const Study& study, double times) {
    const Change change{Kind::screw_strength, 0};
    const Study other = changed(study, change, times);
    const Surface surface = changed(surfaces(study.choices).front(), change, times);
    const SharedPasses shared(other, engine::Plan::Kind::sobol, 1024, engine::Stream::search);
    Candidate candidate;
    candidate.surface = surface;
    const SharedInputs& inputs = shared.inputs(candidate);
    const engine::Block& block = inputs.held.front();
    const double* row = block.row(static_cast<std::size_t>(models::Input::screw_yield));
    return std::vector<double>(row, row + inputs.plan.size(0));
  };
  for (const char* scatter : {"{ spread = \"6 %\" }", "{ mean = \"290 MPa\", spread = \"5 %\" }",
                              "{ shape = \"weibull\", mean = \"290 MPa\", spread = \"20 MPa\", low = \"200 MPa\" }",
                              "{ readings = [\"287 MPa\", \"301 MPa\", \"295 MPa\", \"290 MPa\"] }"}) {
    INFO(scatter);
    const Study study = clamp({.screw_yield = scatter});
    const std::vector<double> before = yield(study, 1), after = yield(study, 1.25);
    for (std::size_t i = 0; i < before.size(); ++i) REQUIRE(after[i] == Approx(1.25 * before[i]).epsilon(1e-12));
  }
  Study added = clamp({});
  added.scatter[static_cast<std::size_t>(models::Input::screw_yield)].parts = {
      {engine::normal(0, 20e6), ScatterPart::Role::added, Varies::every_screw, "", ""}};
  const std::vector<double> before = yield(added, 1), after = yield(added, 1.25);
  for (std::size_t i = 1; i < before.size(); ++i)
    REQUIRE(after[i] - before[i] == Approx(after[0] - before[0]).epsilon(1e-9));
}

TEST_CASE("A margin of the force is told as the force to type", "[relax]") {
  Study study = clamp({.duty = "force = \"12 kN\"\nfree_length = \"400 mm\""});
  for (models::Limit& limit : study.limits)
    if (limit.must == Must::force) limit = {Must::force, models::Limit::Kind::margin, 1.5, 0.95, limit.basis};
  const Change change = limit_of(study, Must::force);
  CHECK(terms(study, change).was == 12e3);
  CHECK(asked_for(study, change.limit, 1.2) == Approx(9.6e3));
  CHECK(*changed(study, change, 9.6e3).duty.force == 9.6e3);
}
