/// The search's short cuts against what they leave out: every length, every pass, every candidate.
#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <algorithm>
#include <random>
#include <set>

#include "studies/ask/hardest.hpp"
#include "studies/ask/hunt.hpp"
#include "studies/ask/nut_length.hpp"
#include "studies/ask/question.hpp"
#include "tests/ask/read_text.hpp"

namespace {

using namespace studies;
using tests::study_of;

/// A clamp on a shelf (invented): `duty`, `choose`, `must` and `key` are put in.
std::string clamp(const std::string& duty, const std::string& choose, const std::string& must, unsigned key = 1) {
  return fmt::format(
      "title = \"Clamp\"\n[duty]\naction = \"clamp\"\ntravel = \"300 mm\"\n{}\n[choose]\n"
      "screw = \"steel 1045 hot rolled\"\nface = {{ kind = \"rolling\", mean_radius = \"10 mm\" }}\n{}\n"
      "[scatter]\ntorque = {{ within = \"4 %\" }}\nscrew_yield = {{ shape = \"lognormal\", spread = \"6 %\" }}\n"
      "[must]\n{}\n[passes]\ncount = 65536\nkey = {}\n",
      duty, choose, must, key);
}

const std::string every_limit =
    "force = { at_least = \"9 kN\", odds = 0.9 }\nyield = { odds = 0.9 }\nthread_root = { odds = 0.9 }\n"
    "nut_body = { odds = 0.9 }\nbuckling = { odds = 0.9 }\nslenderness = { at_most = 120 }\nbearing = { odds = 0.9 }\n"
    "stripping = { margin = 2, odds = 0.9 }\nself_locking = { odds = 0.9 }\noverload = { odds = 0.9 }\n"
    "mass = { at_most = \"9 kg\" }\n";

/// A random duty: from easy to impossible; by its number with or without a range of nuts, starts and surfaces.
std::string random_clamp(unsigned number) {
  std::mt19937_64 dice(number);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(dice() >> 11) * 0x1p-53;
  };
  const double torque = between(10, 60), per_force = number % 5 == 4 ? 0.8 : between(2.4, 4);
  const std::string nuts = number % 3 == 0 ? "\"1.6 d\"" : "{ from = \"1.0 d\", to = \"2.4 d\" }";
  const std::string surfaces = number % 2 == 0
                                   ? "starts = [1, 2]\nlubrication = [\"dry\", \"oil\"]\nnut = [\"bearing bronze "
                                     "C93200\", \"grey iron class 30\"]\n"
                                   : "lubrication = \"oil\"\nnut = \"bearing bronze C93200\"\n";
  return clamp(
      fmt::format("torque = \"{:.4g} N.m\"\nfree_length = \"{:.4g} mm\"", torque, between(150, 500)),
      "thread = { form = \"trapezoidal\", from = \"12 mm\", to = \"32 mm\" }\nnut_length = " + nuts + "\n" + surfaces,
      fmt::format("force = {{ at_least = \"{:.4g} kN\", odds = 0.95 }}\nyield = {{ margin = 1.5, odds = 0.999 }}\n"
                  "bearing = {{ odds = 0.95 }}\nstripping = {{ margin = 2, odds = 0.99 }}\nbuckling = {{ margin "
                  "= 2.5, odds = 0.99 }}\n",
                  torque / per_force),
      number);
}

constexpr std::uint64_t few_passes = 2048;

Hunt hunted(const Study& study, bool scan) {
  const SharedPasses shared(study, engine::Plan::Kind::sobol, few_passes, engine::Stream::search);
  Asking asking;
  asking.scan = scan;
  return hunt(study, shared, asking);
}

}  // namespace

TEST_CASE("Margins go with the length of the nut as the search takes for granted, pass by pass", "[ask]") {
  const std::string free_length = GENERATE(std::string("free_length = \"300 mm\"\n"), std::string());
  const Study study = study_of(clamp(free_length + "torque = \"40 N.m\"\noverload = { torque = \"70 N.m\" }\n",
                                     "thread = [\"Tr 20x4\", \"Tr 24x8\", \"Tr 28x3\", \"1-5 Acme\"]\nstarts = [1, 2]\n"
                                     "nut_length = { from = \"0.6 d\", to = \"2.5 d\" }\nlubrication = \"oil\"\n"
                                     "nut = [\"bearing bronze C93200\", \"grey iron class 30\"]\n",
                                     every_limit));
  const SharedPasses shared(study, engine::Plan::Kind::sobol, 1024, engine::Stream::test);
  std::set<WithLength> seen;
  for (const Candidate& candidate : candidates(study)) {
    const auto [from, to] = nut_bounds(candidate, *candidate.thread);
    for (double share = 0; share < 1; share += 0.25) {
      const double shorter = from + share * (to - from), longer = shorter + (to - from) / 4;
      const auto design = [&](double nut) { return design_of(study, candidate, *candidate.thread, nut); };
      const auto a = shared.margins(candidate, design(shorter)), b = shared.margins(candidate, design(longer));
      for (std::size_t k = 0; k < study.limits.size(); ++k) {
        const WithLength with = with_length(study, study.limits[k]);
        seen.insert(with);
        const double proportion = with == WithLength::proportional ? longer / shorter : 1;
        std::vector<double> rises;  // beyond the proportion
        for (std::size_t i = 0; i < a[k].size(); ++i) rises.push_back(b[k][i] / (a[k][i] * proportion) - 1);
        const double least = *std::min_element(rises.begin(), rises.end());
        const double most = *std::max_element(rises.begin(), rises.end());
        if (with != WithLength::never_rises && with != WithLength::mixed) CHECK(least >= -1e-12);
        if (with != WithLength::never_falls && with != WithLength::mixed) CHECK(most <= 1e-12);
      }
    }
    // A straight line of masses: what a nut of a given mass rests on.
    const auto weighs = [&](double nut) {
      const models::ScrewModel screw = shared.model(candidate, design_of(study, candidate, *candidate.thread, nut));
      return shared.nominal(candidate, screw)[static_cast<std::size_t>(models::Output::mass)];
    };
    CHECK(weighs((from + to) / 2) == Approx((weighs(from) + weighs(to)) / 2).epsilon(1e-12));
  }
  CHECK(seen.size() == (free_length.empty() ? 5 : 4));  // a free length counted to mid-nut is what makes limits mixed
}

TEST_CASE("Whether a part goes first moves with the nut as the search takes for granted, pass by pass", "[ask]") {
  const std::string part = GENERATE("yield", "thread_root", "nut_body", "buckling", "stripping");
  const std::string free_length = GENERATE(std::string("free_length = \"300 mm\"\n"), std::string());
  const std::string drag = GENERATE("0 N.m", "9 N.m");
  INFO(part << ", " << free_length << ", drag " << drag);
  std::string text = clamp(free_length + "torque = \"40 N.m\"\n",
                           "thread = [\"Tr 20x4\", \"Tr 24x8\", \"Tr 28x3\", \"1-5 Acme\"]\nstarts = [1, 2]\n"
                           "nut_length = { from = \"0.2 d\", to = \"2.5 d\" }\nlubrication = \"oil\"\n"
                           "nut = [\"bearing bronze C93200\", \"grey iron class 30\"]\n",
                           part + " = { margin = 1, first = true }");
  text.insert(text.find("[must]"), "drag = \"" + drag + "\"\n");
  const Study study = study_of(text);
  REQUIRE(study.limits.back().must == models::Must::goes_first);
  const WithLength with = with_length(study, study.limits.back());
  const SharedPasses shared(study, engine::Plan::Kind::sobol, 1024, engine::Stream::test);
  std::size_t gained = 0, lost = 0, rises = 0, falls = 0;
  for (const Candidate& candidate : candidates(study)) {
    const auto [from, to] = nut_bounds(candidate, *candidate.thread);
    std::vector<double> before;
    for (double share = 0; share <= 1; share += 1.0 / 16) {
      const double nut = from + share * (to - from);
      const std::vector<double> now =
          shared.margins(candidate, design_of(study, candidate, *candidate.thread, nut)).back();
      for (std::size_t i = 0; i < before.size(); ++i) {
        gained += before[i] < 1 - 1e-12 && now[i] >= 1 + 1e-12;
        lost += before[i] >= 1 + 1e-12 && now[i] < 1 - 1e-12;
        rises += now[i] > before[i] * (1 + 1e-12);
        falls += now[i] < before[i] * (1 - 1e-12);
      }
      before = now;
    }
  }
  CHECK((with == WithLength::never_rises) == (part == "stripping"));
  if (with == WithLength::never_falls) CHECK(lost == 0);
  if (with == WithLength::never_rises) CHECK(gained == 0);
  if (with == WithLength::mixed) CHECK((rises > 0 && falls > 0));
  if (drag == "9 N.m") return;
  if (with == WithLength::never_falls) CHECK((falls == 0 && rises > 0));
  if (with == WithLength::never_rises) CHECK((rises == 0 && falls > 0));
}

TEST_CASE("What the hardest passes put out is out on all of them", "[ask]") {
  const Study study = study_of(random_clamp(2));
  const SharedPasses shared(study, engine::Plan::Kind::sobol, 4096, engine::Stream::search);
  Hardest hardest(shared);
  const std::vector<std::optional<double>> odds = asked_odds(study);
  const std::vector<bool> all(odds.size(), true);
  std::size_t out = 0, missing = 0;
  for (const Candidate& candidate : candidates(study)) {
    const models::Design design = design_of(study, candidate, *candidate.thread, 1.6 * candidate.thread->diameter);
    const std::optional<std::size_t> missed = hardest.missed(candidate, design, odds, all);
    const Judgement truth = shared.judge(candidate, design, odds);
    if (missed) CHECK_FALSE(truth.holds[*missed]);
    out += missed.has_value();
    missing += !truth.all();
  }
  CHECK(out > missing * 9 / 10);  // it need not see every miss, but it is of no use if it does not see most
  CHECK(missing > 50);
}

TEST_CASE("The search picks what a look at every candidate picks, on random shelves", "[ask]") {
  unsigned nothing = 0, early = 0, off = 0;
  for (unsigned number = 1; number <= 24; ++number) {
    INFO("study " << number);
    const Study study = study_of(random_clamp(number));
    const Hunt search = hunted(study, false), scan = hunted(study, true);
    REQUIRE(search.pick == scan.pick);
    CHECK(search.report.proven == scan.report.proven);
    for (const Hunted& h : search.hunted) early += h.out_by.has_value(), off += h.put_off;
    if (!search.pick) {
      ++nothing;
      continue;
    }
    const Hunted &found = search.hunted[*search.pick], &looked = scan.hunted[*search.pick];
    CHECK(found.design->nut_length == looked.design->nut_length);
    for (std::size_t i = 0; i < search.hunted.size(); ++i)
      if (search.hunted[i].put_off) {
        INFO("candidate " << i);
        CHECK(search.hunted[i].value > found.value);
        if (scan.hunted[i].passes) CHECK(scan.hunted[i].value > found.value);
      }
  }
  CHECK(nothing >= 3);
  CHECK(early > 1000);
  CHECK(off > 0);
}

TEST_CASE("The search picks the lightest screw whose nut goes first, as a look at every candidate does", "[ask]") {
  const auto study = [](const std::string& nut, const std::string& torque, const std::string& drag, bool first) {
    std::string text =
        clamp("torque = \"" + torque + "\"",
              "thread = { form = \"trapezoidal\", from = \"14 mm\", to = \"36 mm\" }\nnut_outside = \"2 d\"\n"
              "nut_length = { from = \"0.4 d\", to = \"2.5 d\" }\nnut = " +
                  nut + "\n",
              "force = { at_least = \"8 kN\", odds = 0.95 }\nbuckling = { margin = 2, odds = 0.9 }\n"
              "stripping = { margin = 2, odds = 0.99" +
                  std::string(first ? ", first = true }" : " }"));
    text.insert(text.find("[must]"), "drag = \"" + drag + "\"\nthread_friction = { mean = 0.12, spread = \"5 %\" }\n");
    const std::string soft = "steel 1045 hot rolled";
    return study_of(text.replace(text.find(soft), soft.size(), "steel 4140 quenched 540 C"));
  };
  unsigned other_thread = 0;
  for (const std::string nut : {"\"bearing bronze C93200\"", "[\"aluminium bronze C95400\", \"acetal\"]"})
    for (const std::string torque : {"25 N.m", "30 N.m"})
      for (const std::string drag : {"0 N.m", "3 N.m"}) {
        INFO(nut << ", " << torque << ", drag " << drag);
        const Study asked = study(nut, torque, drag, true), plain = study(nut, torque, drag, false);
        const Hunt search = hunted(asked, false), scan = hunted(asked, true), without = hunted(plain, false);
        REQUIRE((search.pick && without.pick));
        REQUIRE(search.pick == scan.pick);
        const Hunted &pick = search.hunted[*search.pick], &light = without.hunted[*without.pick];
        CHECK(pick.design->nut_length == scan.hunted[*search.pick].design->nut_length);
        const SharedPasses shared(asked, engine::Plan::Kind::sobol, few_passes, engine::Stream::test);
        const auto goes_first = [&](const Hunt& hunt, const Hunted& it) {  // on other passes than the search's
          return shared.shares(hunt.candidates[*hunt.pick], *it.design).back();
        };
        CHECK(goes_first(search, pick) > 0.98);
        if (search.pick == without.pick) continue;
        CHECK(goes_first(without, light) < 0.5);
        CHECK(pick.value > light.value);
        other_thread += models::designation(pick.design->thread) != models::designation(light.design->thread);
      }
  CHECK(other_thread >= 3);
}

TEST_CASE("A candidate that is put off is said to weigh more, not to be impossible", "[ask]") {
  for (unsigned number = 1; number <= 12; ++number) {
    const Study study = study_of(random_clamp(number));
    const Answer answer = size(study, {});
    for (const CandidateVerdict& it : answer.candidates) {
      INFO("study " << number << ", " << it.designation << ": " << it.why);
      CHECK_FALSE(it.ruled_out);  // every one of these can be built
      if (it.why.empty()) continue;
      CHECK(it.mass > answer.pick->mass);
      CHECK_FALSE(it.misses);
      CHECK_FALSE(it.passes);
    }
  }
}
