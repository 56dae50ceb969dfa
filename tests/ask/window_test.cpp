/// The sizes beside the pick, against every nut of every size.
#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <cmath>
#include <map>

#include "studies/ask/aim.hpp"
#include "studies/ask/explain.hpp"
#include "studies/ask/question.hpp"
#include "studies/ask/window.hpp"
#include "tests/ask/read_text.hpp"

namespace {

using namespace studies;

/// A clamp (invented) in which small screws buckle and big ones fall short of the force.
Study clamp(const std::string& thread, const std::string& nut) {
  return tests::study_of(fmt::format(
      "title = \"Clamp\"\n[duty]\naction = \"clamp\"\ntorque = \"60 N.m\"\ntravel = \"300 mm\"\nfree_length = \"400 "
      "mm\"\n"
      "[choose]\nscrew = \"steel 1045 hot rolled\"\nface = {{ kind = \"rolling\", mean_radius = \"10 mm\" }}\nthread = "
      "{}\n"
      "nut_length = {}\nlubrication = \"oil\"\nnut = \"bearing bronze C93200\"\n[scatter]\ntorque = {{ within = \"4 "
      "%\" "
      "}}\n[must]\nforce = {{ at_least = \"15 kN\", odds = 0.95 }}\nbuckling = {{ margin = 3, odds = 0.99 }}\n"
      "bearing = {{ odds = 0.95 }}\n[passes]\ncount = 65536\n",
      thread, nut));
}

}  // namespace

TEST_CASE("A size of the window holds where some nut of it holds, and weighs what the lightest of these does",
          "[ask]") {
  const Study study =
      clamp("{ form = \"trapezoidal\", from = \"14 mm\", to = \"44 mm\" }", "{ from = \"0.5 d\", to = \"2.5 d\" }");
  const Answer answer = size(study, {});
  REQUIRE(answer.pick);
  const SharedPasses shared(study, engine::Plan::Kind::sobol, shared_passes, engine::Stream::search);
  std::map<double, const Candidate*> nearest;  // of each diameter, the pitch nearest the pick's, the finer at a tie
  const std::vector<Candidate> all = candidates(study);
  const double P = answer.pick->design.thread.pitch;
  for (const Candidate& c : all) {
    const Candidate*& best = nearest[c.thread->diameter];
    const double now = best ? std::abs(best->thread->pitch - P) : INFINITY, then = std::abs(c.thread->pitch - P);
    if (then < now - 1e-9 || (std::abs(then - now) < 1e-9 && c.thread->pitch < best->thread->pitch)) best = &c;
  }
  REQUIRE(answer.window.size() == nearest.size());
  std::size_t holding = 0;
  auto entry = answer.window.begin();
  constexpr int steps = 80;
  for (const auto& [diameter, candidate] : nearest) {
    const CandidateVerdict& it = entry->verdict;
    INFO(it.designation);
    CHECK(it.design.thread.diameter == diameter);
    CHECK(it.design.thread.pitch == candidate->thread->pitch);
    const auto [from, to] = nut_bounds(*candidate, *candidate->thread);
    std::optional<double> lightest;
    double before = 0;
    for (int i = 0; i <= steps && !lightest; ++i) {
      const models::Design design = design_of(study, *candidate, *candidate->thread, from + (to - from) * i / steps);
      const Judgement says = shared.judge(*candidate, design, asked_odds(study));
      if (says.all()) lightest = mass_of(shared, *candidate, design);
      if (!lightest) before = mass_of(shared, *candidate, design);
      if (i == steps && !lightest) CHECK(all_missed(study, it).front() == study.limits[*says.first_missed()].must);
    }
    CHECK(it.passes == lightest.has_value());
    CHECK(it.passes == entry->misses.empty());
    if (lightest) CHECK(it.mass <= *lightest * (1 + 1e-3));
    if (lightest) CHECK(it.mass >= before * (1 - 1e-3));
    holding += it.passes;
    ++entry;
  }
  CHECK((holding > 1 && holding < answer.window.size()));
  CHECK(answer.window.front().misses.front() == models::Must::buckling);
  CHECK(answer.window.back().misses.front() == models::Must::force);
}

TEST_CASE("The next sizes are the window's entries beside the pick, which stands in it as it was picked", "[ask]") {
  const Answer answer =
      size(clamp("{ form = \"trapezoidal\", from = \"14 mm\", to = \"44 mm\" }", "[\"1 d\", \"1.5 d\", \"2 d\"]"), {});
  REQUIRE(answer.pick);
  const auto at = std::find_if(answer.window.begin(), answer.window.end(),
                               [&](const Neighbour& it) { return it.verdict.designation == answer.pick->designation; });
  REQUIRE(at != answer.window.end());
  CHECK(at->verdict.mass == answer.pick->mass);
  CHECK(at->verdict.passes);
  CHECK(at->misses.empty());
  REQUIRE(at != answer.window.begin());
  CHECK(answer.next_size_down->verdict.designation == (at - 1)->verdict.designation);
  CHECK(answer.next_size_up->verdict.designation == (at + 1)->verdict.designation);
  CHECK_FALSE(next_size(answer.window, answer.window.front().verdict, false));
  CHECK_FALSE(next_size(answer.window, answer.window.back().verdict, true));
}

TEST_CASE("Of two pitches as near to the pick's the finer stands for a diameter", "[ask]") {
  const Study study = clamp("[\"Tr 28x5\", \"Tr 38x7\", \"Tr 38x3\"]", "\"40 mm\"");
  const SharedPasses shared(study, engine::Plan::Kind::sobol, shared_passes, engine::Stream::search);
  Hunt hunt;
  hunt.candidates = candidates(study);
  hunt.hunted.resize(3);
  hunt.pick = 0;
  CandidateVerdict pick;
  pick.design = design_of(study, hunt.candidates[0], *hunt.candidates[0].thread, 0.04);
  const std::vector<Neighbour> window = size_window(shared, hunt, pick, {});
  REQUIRE(window.size() == 2);
  CHECK(window[1].verdict.designation == "Tr 38x3");
}

TEST_CASE("A free diameter has the pick among 24 equally spaced ones, its nut in proportion, judged as any", "[ask]") {
  const Study study = clamp("{ form = \"square\", diameter = { from = \"14 mm\", to = \"60 mm\" }, pitch = \"4 mm\" }",
                            "{ from = \"0.5 d\", to = \"2.5 d\" }");
  const Answer answer = size(study, {});
  REQUIRE(answer.pick);
  REQUIRE(answer.window.size() == 25);
  CHECK_FALSE(answer.next_size_down);
  const SharedPasses shared(study, engine::Plan::Kind::sobol, shared_passes, engine::Stream::search);
  const Candidate candidate = candidates(study).front();
  const double of_d = answer.pick->design.nut_length / answer.pick->design.thread.diameter;
  std::size_t spaced = 0, holding = 0;
  for (const Neighbour& it : answer.window) {
    const double d = it.verdict.design.thread.diameter;
    INFO(d);
    if (d == answer.pick->design.thread.diameter) continue;
    CHECK(d == Approx(0.014 + 0.046 * static_cast<double>(spaced++) / 23).epsilon(1e-12));
    const models::Thread thread = models::make_thread(models::Form::square, d, 0.004);
    const models::Design design = design_of(study, candidate, thread, of_d * d);
    CHECK(it.verdict.design.nut_length == Approx(of_d * d).epsilon(1e-12));
    const Judgement says = shared.judge(candidate, design, asked_odds(study));
    CHECK(it.verdict.passes == says.all());
    CHECK(it.verdict.mass == Approx(mass_of(shared, candidate, design)).epsilon(1e-12));
    holding += it.verdict.passes;
  }
  CHECK(spaced == 24);
  CHECK((holding > 0 && holding < 24));
}
