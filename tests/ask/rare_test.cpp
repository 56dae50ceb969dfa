/// Rare odds of a screw against tails known exactly, against plain counts, and how they judge.
#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <cmath>

#include "engine/base/error.hpp"
#include "studies/ask/question.hpp"
#include "studies/ask/rare.hpp"
#include "studies/say/json.hpp"
#include "tests/ask/read_text.hpp"

namespace {

using namespace studies;
using tests::study_of;

/// What the study says beyond a clamp of one fixed screw; a friction not named here is held fixed.
struct Said {
  std::string scatter, must;
  std::uint64_t passes = 16384;
  std::string torque = "45 N.m", force = "";
};

std::string text_of(const Said& said) {
  const auto held = [&](const char* friction, const char* value) {
    return said.scatter.find(friction) == std::string::npos ? fmt::format("{} = {}\n", friction, value) : "";
  };
  return fmt::format(
      "title = \"One screw\"\n[duty]\naction = \"clamp\"\n{}torque = \"{}\"\ntravel = \"200 mm\"\n"
      "[choose]\nthread = \"Tr 24x5\"\nnut_length = \"36 mm\"\nlubrication = \"oil\"\n"
      "screw = \"steel 1045 hot rolled\"\nnut = \"bearing bronze C93200\"\n"
      "face = {{ kind = \"rolling\", mean_radius = \"12 mm\" }}\n[scatter]\n{}{}{}\n[must]\n{}\n[passes]\ncount = {}\n",
      said.force, said.torque, held("thread_friction", "0.13"), held("face_friction", "0.003"), said.scatter, said.must,
      said.passes);
}

struct Rated {
  std::unique_ptr<Study> study;
  Answer answer;
};

Rated rated(const Said& said, unsigned threads = 2) {
  Rated it{std::make_unique<Study>(study_of(text_of(said), Verb::rate)), {}};
  Asking asking;
  asking.running.threads = threads;
  it.answer = rate(*it.study, asking);
  return it;
}

bool warned(const Answer& answer, const std::string& part) {
  for (const Caution& it : answer.cautions)
    if (it.text.find(part) != std::string::npos) return true;
  return false;
}

/// Mean and spread of ln x of a lognormal x of a mean and a relative spread.
struct Logarithm {
  double mean, spread;
  Logarithm(double m, double relative)
      : mean(std::log(m) - std::log1p(relative * relative) / 2), spread(std::sqrt(std::log1p(relative * relative))) {}
  double quantile(double p) const { return std::exp(mean + spread * engine::normal_quantile(p)); }
  double below(double x) const { return engine::normal_distribution((std::log(x) - mean) / spread); }
};

const std::string yield_scatters = R"(screw_yield = { shape = "lognormal", spread = "6 %" })";

/// The margin of yield below which the odds are p where the yield strength alone scatters, lognormal: margin =
/// S_y/stress, with a stress that is the same on every pass.
double margin_at(double p) {
  const Rated it = rated({yield_scatters, "yield = { margin = 1 }"});
  return Logarithm(it.answer.limits[0].nominal_margin, 0.06).quantile(p);
}

std::string yield_asked(double margin, double odds) {
  return fmt::format("yield = {{ margin = {:.17g}, odds = {:.17g} }}", margin, odds);
}

void check_known(const Bounded& shortfall, double exact) {
  INFO(exact << " against " << shortfall.estimate << " in [" << shortfall.low << ", " << shortfall.high << "]");
  CHECK(shortfall.low <= exact);
  CHECK(exact <= shortfall.high);
  CHECK(shortfall.estimate == Approx(exact).epsilon(0.1));
  CHECK(shortfall.high < 1.25 * exact);  // bounds narrow enough that odds wrong by a quarter are found out
  CHECK(shortfall.low > 0.8 * exact);
}

}  // namespace

TEST_CASE("Where the yield strength alone scatters, rare odds of yield are the tail of its lognormal") {
  // Source: the definition of a lognormal, P(X < x) = Φ((ln x − μ)/σ).
  for (const double p : {1e-3, 1e-4, 1e-6, 1e-9}) {
    const Rated it = rated({yield_scatters, yield_asked(margin_at(p), 0.999999999)});
    REQUIRE(it.answer.rare.size() == 1);
    CHECK(it.answer.rare[0].trusted);
    check_known(it.answer.rare[0].shortfall, p);
    CHECK(it.answer.rare[0].beta == Approx(-engine::normal_quantile(p)).epsilon(1e-3));
    CHECK(it.answer.rare[0].first_order == Approx(p).epsilon(0.02));  // one input: a plane, so first order is exact
  }
}

TEST_CASE("Where the torque alone scatters, rare odds of the force are the tail of its normal") {
  // Source: the model is linear in the torque (Shigley, 9th ed., Eq. 8-5), so force over its mean is torque over its.
  const std::string torque = R"(torque = { spread = "5 %" })";
  const Rated mean = rated({torque, "force = { at_least = \"10 kN\" }"});
  const double force = mean.answer.outputs[static_cast<std::size_t>(models::Output::force)].nominal;
  for (const double p : {1e-3, 1e-5, 1e-8}) {
    const double asked = force * (1 + 0.05 * engine::normal_quantile(p));
    const Rated it = rated({torque, fmt::format("force = {{ at_least = \"{:.17g} N\", odds = 0.99999999 }}", asked)});
    REQUIRE(it.answer.rare.size() == 1);
    CHECK(it.answer.rare[0].trusted);
    check_known(it.answer.rare[0].shortfall, p);
  }
}

TEST_CASE("Rare odds agree with the count of ten million passes", "[plain-build]") {
  const std::string scatter =
      "torque = { spread = \"5 %\" }\nthread_friction = \"handbook\"\nface_friction = \"handbook\"\n" + yield_scatters;
  const std::string must = "yield = { margin = 2.1, odds = 0.9999 }\nthread_root = { margin = 1.1, odds = 0.9999 }";
  const Rated few = rated({scatter, must, 65536}), many = rated({scatter, must, 10'000'000});
  CHECK(many.answer.rare.empty());
  REQUIRE(few.answer.rare.size() == 2);
  for (std::size_t k = 0; k < 2; ++k) {
    const LimitVerdict& counted = many.answer.limits[k];
    const RareVerdict& rare = few.answer.rare[k];
    const double p = 1 - counted.odds.estimate;
    INFO(rare.name << ": " << p << " counted, " << rare.shortfall.estimate << " rare, " << rare.reason);
    CHECK(counted.misses > 400);  // a count of its own right: 2 standard errors are at most 10 %
    CHECK(rare.trusted);
    CHECK(rare.shortfall.low <= 1 - counted.odds.low);
    CHECK(1 - counted.odds.high <= rare.shortfall.high);
    CHECK(rare.shortfall.estimate == Approx(p).epsilon(0.15));
  }
}

TEST_CASE("A limit whose odds no pass can show is judged by its rare odds") {
  const double asked = 0.9999999;
  const double holds = margin_at(0.5e-7), fails = margin_at(2e-7), exact = margin_at(1 - asked);
  for (const double margin : {holds, fails}) {
    const Rated it = rated({yield_scatters, yield_asked(margin, asked)});
    const LimitVerdict& limit = it.answer.limits[0];
    CHECK(limit.misses == 0);  // the count sees no difference
    CHECK(limit.by_rare);
    CHECK(limit.holds == (margin == holds));
    CHECK((limit.spare >= 0) == limit.holds);
    CHECK((limit.odds.estimate >= asked) == limit.holds);
    CHECK(limit.has == Approx(exact).epsilon(0.06 * 0.03));  // 0.02 standard deviations, each 6 % of the margin
    CHECK_FALSE(limit.bounds_straddle);
    CHECK_FALSE(warned(it.answer, "Too close to call"));
  }
}

TEST_CASE("A rare margin that lies within the bounds of its odds is too close to call, and says so") {
  const Rated it = rated({yield_scatters, yield_asked(margin_at(0.99e-7), 0.9999999)});
  CHECK(it.answer.limits[0].bounds_straddle);
  CHECK(warned(it.answer, "Too close to call"));
  CHECK((it.answer.limits[0].spare >= 0) == it.answer.limits[0].holds);
}

TEST_CASE("A margin far beyond the odds asked is bounded, not measured") {
  const Rated it = rated({yield_scatters, yield_asked(margin_at(1e-30), 0.9999999)});
  const RareVerdict& rare = it.answer.rare.at(0);
  CHECK(rare.trusted);
  CHECK(rare.shortfall.estimate == 0);
  CHECK(rare.shortfall.high == Approx(1e-9));
  CHECK(it.answer.limits[0].holds);
  CHECK(it.answer.limits[0].has == Approx(margin_at(1e-7)).epsilon(0.06 * 0.03));
}

TEST_CASE("Limits that the passes can count, or that nothing moves, have no rare odds") {
  const Rated it = rated({yield_scatters,
                          yield_asked(margin_at(0.01), 0.9) + "\nslenderness = { at_most = 200, odds = 0.9999999 }\n"
                                                              "stripping = { margin = 1 }",
                          16384, "45 N.m"});
  CHECK(it.answer.limits[0].misses >= few_misses);
  CHECK(it.answer.rare.empty());
}

TEST_CASE("Odds that passes can count are judged by the count, rare or not") {
  const Rated it = rated({yield_scatters, yield_asked(margin_at(1e-5), 0.95)});
  REQUIRE(it.answer.rare.size() == 1);
  CHECK_FALSE(it.answer.rare[0].judges);
  CHECK_FALSE(it.answer.limits[0].by_rare);
  CHECK(it.answer.limits[0].odds.estimate == 1);
  CHECK(beyond_passes(0.9999, 262144));
  CHECK_FALSE(beyond_passes(0.999, 262144));
}

TEST_CASE("Where no other way is trusted the count judges, and a caution says that the odds are not established") {
  // A rectangular torque ends: yield cannot be reached at all, so that no method ever sees a failure.
  const Rated it = rated({R"(torque = { within = "10 %" })", "yield = { margin = 1.5, odds = 0.9999999 }"});
  REQUIRE(it.answer.rare.size() == 1);
  CHECK_FALSE(it.answer.rare[0].trusted);
  CHECK_FALSE(it.answer.limits[0].by_rare);
  CHECK(it.answer.limits[0].holds);
  CHECK(warned(it.answer, "the count alone judges"));
}

TEST_CASE("A count that rare odds cannot explain contradicts them") {
  // Source: Poisson's limit, P(no miss) = exp(−N p), P(a miss or more) = 1 − exp(−N p).
  CHECK(contradicts(20, 262144, {5e-10, 6e-10, 7e-10}));
  CHECK(contradicts(2, 262144, {0, 0, 1e-9}));              // 3e-8
  CHECK(contradicts(0, 262144, {9e-4, 1e-3, 1.1e-3}));      // exp(−236)
  CHECK_FALSE(contradicts(1, 262144, {9e-7, 1e-6, 1e-6}));  // 0.23
  CHECK_FALSE(contradicts(0, 262144, {0, 0, 1e-9}));
  CHECK_FALSE(contradicts(0, 262144, {9e-6, 1e-5, 1.1e-5}));  // 0.07
}

TEST_CASE("The other shape of the friction is exact where the margin follows the friction") {
  // The lock margin of the thread is friction over the friction that just holds: linear in it. Both tails by
  // definition.
  const double mean = 0.13, relative = 0.1;
  const auto asks = [](double margin) {
    return fmt::format("self_locking = {{ margin = {:.17g}, odds = 0.99999 }}", margin);
  };
  const auto friction = [](const char* shape) {
    return fmt::format("thread_friction = {{ shape = \"{}\", mean = 0.13, spread = \"10 %\" }}", shape);
  };
  const double middle = rated({friction("normal"), asks(1)}).answer.limits[0].nominal_margin;  // at the mean
  const double margin = Logarithm(middle, relative).quantile(1e-6);
  const double by_lognormal = 1e-6, by_normal = engine::normal_distribution((margin / middle - 1) / relative);
  CHECK(by_normal > 10 * by_lognormal);
  CHECK(mean > 0);

  const Rated one = rated({friction("lognormal"), asks(margin)}), other = rated({friction("normal"), asks(margin)});
  check_known(one.answer.rare.at(0).shortfall, by_lognormal);
  REQUIRE(one.answer.rare[0].other);
  CHECK(one.answer.rare[0].other->shape == "normal");
  CHECK(one.answer.rare[0].other->from == "lognormal");
  check_known(one.answer.rare[0].other->shortfall, by_normal);
  CHECK(one.answer.limits[0].holds);  // 1e-5 allowed: holds by one shape and not by the other
  CHECK(warned(one.answer, "rests on the assumed shape"));

  check_known(other.answer.rare.at(0).shortfall, by_normal);
  REQUIRE(other.answer.rare[0].other);
  CHECK(other.answer.rare[0].other->shape == "lognormal");
  check_known(other.answer.rare[0].other->shortfall, by_lognormal);
}

TEST_CASE("Where the friction has no other shape the reason is said") {
  const Rated fixed = rated({yield_scatters, yield_asked(margin_at(1e-6), 0.99999)});
  REQUIRE(fixed.answer.rare.at(0).other);
  CHECK(fixed.answer.rare[0].other->shape.empty());
  CHECK(fixed.answer.rare[0].other->reason == "no friction scatters");
  const Rated flat = rated({"thread_friction = { shape = \"uniform\", low = 0.1, high = 0.16 }\n" + yield_scatters,
                            yield_asked(margin_at(1e-6), 0.99999)});
  REQUIRE(flat.answer.rare.at(0).other);
  CHECK(flat.answer.rare[0].other->shape.empty());
  CHECK(flat.answer.rare[0].other->reason.find("uniform") != std::string::npos);
}

TEST_CASE("Rare odds are the same bits on any number of threads") {
  const Said said{
      "torque = { spread = \"5 %\" }\nthread_friction = \"handbook\"\nface_friction = \"handbook\"\n" + yield_scatters,
      "yield = { margin = 1.9, odds = 0.9999999 }\nself_locking = { odds = 0.9999 }"};
  const Rated one = rated(said, 1), two = rated(said, 2), five = rated(said, 5);
  REQUIRE(!one.answer.rare.empty());
  CHECK(answer_json(one.answer) == answer_json(two.answer));
  CHECK(answer_json(one.answer) == answer_json(five.answer));
}

TEST_CASE("An interrupt ends the search for rare odds") {
  const Study study = study_of(text_of({yield_scatters, yield_asked(2.2, 0.9999999)}), Verb::rate);
  std::atomic<bool> stop = false;
  Asking asking;
  asking.running.interrupted = &stop;
  asking.running.progress = [&](double share) { stop = share == 1; };  // when the passes are done, before the rare odds
  CHECK_THROWS_AS(rate(study, asking), engine::Interrupted);
}

namespace {

Answer sized(const Study& study) {
  Asking asking;
  asking.running.threads = 2;
  return size(study, asking);
}

/// The same clamp with several sizes to choose from.
std::string choosing(const Said& said) {
  std::string text = text_of(said);
  const std::string one = "\"Tr 24x5\"";
  return text.replace(text.find(one), one.size(), R"(["Tr 20x4", "Tr 22x5", "Tr 24x5", "Tr 26x5", "Tr 28x5"])");
}

}  // namespace

TEST_CASE("Size hands over no screw that its rare odds refuse, and names what the lighter ones miss") {
  const Said said{"torque = { spread = \"5 %\" }\n" + yield_scatters, "yield = { margin = 1.9, odds = 0.9999999 }"};
  std::string loose_text = choosing(said);
  const std::string odds = "odds = 0.9999999";
  loose_text.replace(loose_text.find(odds), odds.size(), "odds = 0.99");
  const Study study = study_of(choosing(said), Verb::size), loose = study_of(loose_text, Verb::size);
  const Answer strict = sized(study), easy = sized(loose);
  REQUIRE(strict.pick);
  REQUIRE(easy.pick);
  CHECK(strict.holds());
  CHECK(strict.limits[0].by_rare);
  CHECK(strict.pick->mass > easy.pick->mass);
  CHECK(strict.search.proven);
  for (const CandidateVerdict& it : strict.candidates)
    if (it.examined && it.mass < strict.pick->mass) {
      CHECK(it.misses == models::Must::yield);
      CHECK(it.has < 1.9);
      CHECK_FALSE(it.passes);
    }
  CHECK(strict.governs == models::Must::yield);
}
