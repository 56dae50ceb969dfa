/// Other aims than the mass, caps and the curve of two aims, each against a plain look at everything there is.
#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "studies/ask/aim.hpp"
#include "studies/ask/hunt.hpp"
#include "studies/ask/question.hpp"
#include "studies/ask/rare.hpp"
#include "studies/ask/trade_off.hpp"
#include "tests/ask/read_text.hpp"

namespace {

using namespace studies;
using tests::study_of;

/// A bench clamp (invented) with what is aimed at, its nut and its stripping put in.
std::string clamp(const std::string& aim, const std::string& nut = "{ from = \"1 d\", to = \"2.5 d\" }",
                  const std::string& stripping = "{ margin = 2, odds = 0.99 }") {
  return fmt::format(
      "title = \"Clamp\"\n[duty]\naction = \"clamp\"\nforce = \"9 kN\"\nhand_force = \"195 N\"\n"
      "handle = \"180 mm\"\ntravel = \"120 mm\"\nspeed = \"30 rpm\"\noverload = {{ torque = \"80 N.m\" }}\n[choose]\n"
      "thread = {{ form = \"trapezoidal\", from = \"18 mm\", to = \"30 mm\" }}\nstarts = [1, 2]\nnut_length = {}\n"
      "lubrication = [\"dry\", \"oil\"]\nscrew = \"steel 1045 cold drawn\"\nnut = \"bearing bronze C93200\"\n"
      "face = {{ kind = \"rolling\", mean_radius = \"9 mm\" }}\n[scatter]\nhand_force = {{ within = \"8 %\" }}\n"
      "screw_yield = {{ spread = \"6 %\", varies = \"every screw\" }}\n[must]\n"
      "force = {{ at_least = \"9 kN\", odds = 0.9 }}\nyield = {{ margin = 1.5, odds = 0.99 }}\n"
      "bearing = {{ odds = 0.95 }}\nstripping = {}\n[aim]\n{}\n[passes]\ncount = 65536\n",
      nut, stripping, aim);
}

Hunt hunted(const Study& study, bool scan = false) {
  const SharedPasses shared(study, engine::Plan::Kind::sobol, 2048, engine::Stream::search);
  Asking asking;
  asking.scan = scan;
  return hunt(study, shared, asking);
}

/// A design that holds, and what it comes to by the study's aims.
struct Tried {
  std::size_t index;
  models::Design design;
  std::vector<double> values;
};

/// Every candidate with so many lengths of its nut, as far as all limits hold on the passes and no cap is exceeded.
std::vector<Tried> everything(const Study& study, const SharedPasses& passes, int lengths) {
  std::vector<Tried> all;
  for (const Candidate& candidate : candidates(study)) {
    if (!candidate.why_not.empty()) continue;
    const double d = candidate.thread->diameter;
    const auto [from, to] = candidate.nut_range ? nut_bounds(candidate, *candidate.thread)
                                                : std::pair(candidate.nut_length->of(d), candidate.nut_length->of(d));
    for (int i = 0; i < (candidate.nut_range ? lengths : 1); ++i) {
      const double nut = from + (to - from) * i / std::max(1, lengths - 1);
      const models::Design design = design_of(study, candidate, *candidate.thread, nut);
      if (over_cap(passes, candidate, design) || !passes.passes_all(candidate, design, asked_odds(study))) continue;
      Tried tried{candidate.index, design, {}};
      for (const Aim& aim : study.aims) tried.values.push_back(aimed(passes, candidate, design, aim));
      all.push_back(std::move(tried));
    }
  }
  return all;
}

double best_of(const std::vector<Tried>& all) {
  return std::min_element(all.begin(), all.end(), [](const Tried& a, const Tried& b) { return a.values < b.values; })
      ->values.front();
}

}  // namespace

TEST_CASE("Whatever is aimed at, no screw that holds is better than the pick", "[ask]") {
  const std::string aim =
      GENERATE(std::string("least = \"torque\""), std::string("least = \"turns\""), std::string("most = \"force\""),
               std::string("least = \"nut_length\""), std::string("least = \"bearing_pressure\""),
               std::string("most = \"margin.stripping\""), std::string("most = \"odds.force\""),
               std::string("most = \"margin.overload\"\n"), std::string("least = \"torque\"\ncap = { turns = 20 }"),
               std::string("least = \"turns\"\ncap = { mass = \"700 g\", hand_force = \"150 N\" }"),
               std::string("most = \"force\"\ncap = { bearing_pressure = \"8 MPa\" }"));
  INFO(aim);
  const bool overload = aim.find("overload") != std::string::npos;
  std::string text = clamp(aim);
  if (overload) text.replace(text.find("stripping ="), 0, "overload = { margin = 0.5 }\n");
  const Study study = study_of(text);
  const Hunt search = hunted(study), scan = hunted(study, true);
  REQUIRE(search.pick);
  CHECK(search.pick == scan.pick);
  const SharedPasses most(study, engine::Plan::Kind::sobol, refined_passes.front(), engine::Stream::refine);
  const std::vector<Tried> all = everything(study, most, 9);
  REQUIRE(all.size() > 2);
  const Hunted& pick = search.hunted[*search.pick];
  const Candidate& candidate = search.candidates[*search.pick];
  const double value = aimed(most, candidate, *pick.design, study.aims.front());
  CHECK(value <= best_of(all) + 2e-4 * std::abs(best_of(all)));  // its odds may have been tightened by a hair
  CHECK_FALSE(over_cap(most, candidate, *pick.design));
  CHECK(pick.value == Approx(value).margin(2e-4));
}

TEST_CASE("A cap that is in the way changes the pick, and one that nothing keeps to is told", "[ask]") {
  const Study free = study_of(clamp("least = \"turns\"")),
              capped = study_of(clamp("least = \"turns\"\ncap = { mass = \"600 g\" }")),
              hopeless = study_of(clamp("cap = { turns = 2 }"));
  const Answer one = size(free, {}), other = size(capped, {}), none = size(hopeless, {});
  REQUIRE((one.pick && other.pick));
  CHECK(one.pick->mass > 0.6);
  CHECK(other.pick->mass <= 0.6);
  CHECK(other.aimed_at.front() > one.aimed_at.front());
  CHECK(other.under_caps.front() == Approx(other.pick->mass));
  REQUIRE_FALSE(none.pick);
  for (const CandidateVerdict& it : none.candidates) {
    CHECK(it.over_cap == std::optional<std::size_t>(0));
    CHECK(missed_name(hopeless, it) == "cap.turns");
    CHECK(it.has == Approx(120e-3 / it.design.thread.lead()));
  }
}

TEST_CASE("On the curve of two aims stand just those that no other screw beats by one without losing by the other",
          "[ask]") {
  const std::string aim =
      GENERATE(std::string("least = [\"mass\", \"torque\"]"), std::string("least = \"mass\"\nmost = \"odds.force\""),
               std::string("least = [\"turns\", \"mass\"]"), std::string("least = [\"thread_root_stress\", \"mass\"]"));
  INFO(aim);
  const Study study = study_of(clamp(aim, "[\"1.5 d\", \"2.2 d\"]"));
  const SharedPasses shared(study, engine::Plan::Kind::sobol, 2048, engine::Stream::search);
  const TradeOff curve = trade_off(study, shared, {});
  REQUIRE(curve.points.size() >= 2);

  const SharedPasses most(study, engine::Plan::Kind::sobol, refined_passes.back(), engine::Stream::refine);
  std::vector<Tried> all = everything(study, most, 1);
  const auto beats = [](const Tried& a, const Tried& b) {
    const auto no_worse = [&](std::size_t i) { return a.values[i] <= b.values[i] + 1e-9 * std::abs(b.values[i]); };
    const auto better = [&](std::size_t i) { return a.values[i] < b.values[i] - 1e-9 * std::abs(b.values[i]); };
    return no_worse(0) && no_worse(1) && (better(0) || better(1));
  };
  std::vector<std::pair<double, double>> front;
  for (const Tried& each : all)
    if (std::none_of(all.begin(), all.end(), [&](const Tried& other) { return beats(other, each); }))
      front.emplace_back(each.values[0], each.values[1]);
  std::sort(front.begin(), front.end());
  front.erase(std::unique(front.begin(), front.end(),
                          [](auto a, auto b) { return a.first == Approx(b.first) && a.second == Approx(b.second); }),
              front.end());
  REQUIRE(curve.points.size() == front.size());
  const auto sign = [&](std::size_t i) { return study.aims[i].most ? -1.0 : 1.0; };
  for (std::size_t i = 0; i < front.size(); ++i) {
    const auto& values = curve.points[i].values;
    CHECK(values[0] == Approx(quantity_of(study.aims[0], front[i].first)));
    CHECK(values[1] == Approx(quantity_of(study.aims[1], front[i].second)));
    if (i == 0) continue;
    CHECK(sign(0) * values[0] > sign(0) * curve.points[i - 1].values[0]);  // no ties
    CHECK(sign(1) * values[1] < sign(1) * curve.points[i - 1].values[1]);
  }
}

TEST_CASE("Where two aims pull a nut both ways the curve has more than one length of it", "[ask]") {
  const Study study = study_of(clamp("least = \"nut_length\"\nmost = \"margin.stripping\""));
  const SharedPasses shared(study, engine::Plan::Kind::sobol, 2048, engine::Stream::search);
  const TradeOff curve = trade_off(study, shared, {});
  REQUIRE(curve.points.size() > 5);
  std::vector<std::string> sizes;
  for (const TradePoint& point : curve.points) sizes.push_back(point.screw.designation);
  std::sort(sizes.begin(), sizes.end());
  CHECK(std::adjacent_find(sizes.begin(), sizes.end()) != sizes.end());
  CHECK(curve.points.back().screw.design.nut_length == Approx(2.5 * curve.points.back().screw.design.thread.diameter));
}

TEST_CASE("Steps keep to makeable values, and among these the pick is proven", "[ask]") {
  std::string text = clamp("", "{ from = \"1 d\", to = \"2.5 d\", step = \"2 mm\" }");
  const std::string series = "{ form = \"trapezoidal\", from = \"18 mm\", to = \"30 mm\" }";
  text.replace(
      text.find(series), series.size(),
      "{ form = \"square\", diameter = { from = \"19.3 mm\", to = \"28 mm\", step = \"0.5 mm\" }, pitch = { from "
      "= \"3 mm\", to = \"6 mm\", step = \"1 mm\" } }");
  const Study study = study_of(text);
  const std::vector<Candidate> all = candidates(study);
  CHECK(all.size() == 18 * 4 * 2 * 2);  // 19.5 … 28, 3 … 6, starts, lubrications
  const Hunt search = hunted(study), scan = hunted(study, true);
  REQUIRE(search.pick);
  CHECK(search.pick == scan.pick);
  CHECK(search.report.proven);
  const models::Design& design = *search.hunted[*search.pick].design;
  const auto multiple = [](double value, double step) { return std::abs(std::remainder(value, step)) < 1e-9; };
  CHECK(multiple(design.nut_length, 2e-3));
  CHECK(multiple(design.thread.diameter, 0.5e-3));
  CHECK(multiple(design.thread.pitch, 1e-3));
  const SharedPasses most(study, engine::Plan::Kind::sobol, refined_passes.front(), engine::Stream::refine);
  const Candidate& pick = all[*search.pick];
  const models::Design shorter = design_of(study, pick, *pick.thread, design.nut_length - 2e-3);
  CHECK_FALSE(most.passes_all(pick, shorter, asked_odds(study)));
}

TEST_CASE("A free nut is made as much longer as odds beyond all counting want", "[ask]") {
  const Study study = study_of(clamp("", "{ from = \"1 d\", to = \"2.5 d\" }", "{ margin = 10, odds = 0.999999 }"));
  const Hunt search = hunted(study);
  REQUIRE(search.pick);
  CHECK(search.report.proven);
  const Candidate candidate = candidates(study)[*search.pick];
  const models::Design& design = *search.hunted[*search.pick].design;
  const SharedPasses fresh(study, plan_kind(study), study.passes.count, engine::Stream::verdict);
  CHECK(judge_confirming(fresh, candidate, design, {}).holds);
  const models::Design shorter = design_of(study, candidate, *candidate.thread, design.nut_length * 0.99);
  const FreshJudgement says = judge_confirming(fresh, candidate, shorter, {});
  CHECK_FALSE(says.holds);
  REQUIRE(says.rare);
  CHECK(study.limits[says.rare->limit].must == models::Must::stripping);
}

TEST_CASE("A free diameter and pitch meet odds beyond all counting with next to nothing to spare", "[ask]") {
  std::string text =
      clamp("", "\"1.5 d\"", "{ margin = 2, odds = 0.99 }\nthread_root = { margin = 3, odds = 0.999999 }");
  const std::string series = "{ form = \"trapezoidal\", from = \"18 mm\", to = \"30 mm\" }";
  text.replace(text.find(series), series.size(),
               "{ form = \"square\", diameter = { from = \"16 mm\", to = \"40 mm\" }, pitch = { from = \"3 mm\", to = "
               "\"9 mm\" } }");
  text.replace(text.find("[\"dry\", \"oil\"]"), 14, "\"oil\"");
  text.replace(text.find("[1, 2]"), 6, "1");
  const Study study = study_of(text);
  const Answer answer = size(study, {});
  REQUIRE(answer.pick);
  const auto root = std::find_if(answer.limits.begin(), answer.limits.end(),
                                 [](const LimitVerdict& it) { return it.limit.must == models::Must::thread_root; });
  CHECK(root->by_rare);
  CHECK(root->holds);
  CHECK(root->spare < 5e-3);
  CHECK(answer.holds());
}
