#include "engine/matter/halved.hpp"

#include <catch2/catch.hpp>

#include "tests/engine/matter_models.hpp"

using namespace matter_tests;

namespace {

Halvings of(const Law& law, const BlockModel& model, double least, const std::vector<Group>& groups,
            Plan::Kind kind = Plan::Kind::sobol, std::uint64_t count = 65536, unsigned threads = 2) {
  Running running;
  running.threads = threads;
  const Plan plan(kind, law.dimensions(), count, 11, Stream::verdict);
  return halved(plan, law, model, {0, least}, groups, running);
}

}  // namespace

TEST_CASE("A normal margin's shortfall falls from that of its distance to that of twice it") {
  const Law law = law_of({normal(1, 0.5), fixed_at(0)});
  for (const Plan::Kind kind : {Plan::Kind::sobol, Plan::Kind::plain})
    for (const double distance : {1.0, 1.5, 2.0}) {
      const Halvings h = of(law, linear({1, 1}), 1 - 0.5 * distance, {{0}}, kind);
      const double before = normal_distribution(-distance), after = normal_distribution(-2 * distance);
      INFO("distance " << distance << ": " << h.before.estimate << " to " << h.groups[0].after.estimate);
      CHECK(finds(h.before, before, 0.01));
      CHECK(finds(h.groups[0].after, after, 0.01));
      CHECK(finds(h.groups[0].change, after - before, 0.01));
      CHECK_FALSE(finds(h.groups[0].change, (after - before) / 1.1, 0.01));  // power: a tenth off is seen
    }
}

TEST_CASE("Of a sum each input gets its own halving") {
  // 3 − x1 − 2 x2, unit normals: variance 5, 1/4 + 4 with x1 halved, 1 + 1 with x2 halved
  const Law law = law_of({normal(0, 1), normal(0, 1)});
  const Function margin(2, [](const std::vector<double>& x) { return 3 - x[0] - 2 * x[1]; });
  const Halvings h = of(law, margin, 0, {{0}, {1}, {0, 1}, {}});
  CHECK(finds(h.before, normal_distribution(-3 / std::sqrt(5.0)), 0.005));
  CHECK(finds(h.groups[0].after, normal_distribution(-3 / std::sqrt(4.25)), 0.005));
  CHECK(finds(h.groups[1].after, normal_distribution(-3 / std::sqrt(2.0)), 0.005));
  CHECK(finds(h.groups[2].after, normal_distribution(-6 / std::sqrt(5.0)), 0.005));
  CHECK(h.groups[3].change.estimate == 0);
  CHECK(h.groups[3].cured + h.groups[3].hurt == 0);
}

TEST_CASE("A lognormal is halved in its logarithm, others about their median, and ties stay") {
  const Law law({0, 0, 0}, {-inf, -inf, -inf},
                {{0, false, lognormal(2, 0.4)}, {1, false, triangular(0, 1, 4)}, {2, false, uniform(2, 6)}},
                {{0, 1, 0.6}});
  const Plan plan(Plan::Kind::plain, 3, 1024, 5, Stream::test);
  Block u(3), value(3), x(3), y(3);
  std::vector<std::uint64_t> clipped(3);
  plan.fill(0, u);
  law.transform(u, x, 1024, clipped);
  law.values(u, value, 1024);
  for (const std::size_t part : {0, 1}) law.halve(part, value.row(part), 1024);
  law.compose(value, y, 1024, clipped);
  const double log_median = std::log(law.parts()[0].marginal.median()), median = law.parts()[1].marginal.median();
  for (std::size_t i = 0; i < 1024; ++i) {
    CHECK(std::log(y.row(0)[i]) - log_median == Approx((std::log(x.row(0)[i]) - log_median) / 2).margin(1e-14));
    CHECK(y.row(1)[i] - median == Approx((x.row(1)[i] - median) / 2).margin(1e-14));
    CHECK(y.row(2)[i] == x.row(2)[i]);
  }
}

TEST_CASE("Where the middle itself falls short, less scatter makes it worse, and the change says so") {
  const Halvings h = of(law_of({normal(0, 1)}), linear({1}), 1, {{0}});
  CHECK(finds(h.groups[0].change, normal_distribution(2) - normal_distribution(1), 0.01));
  CHECK(h.groups[0].change.low > 0);
  CHECK(h.groups[0].cured == 0);
}

TEST_CASE("A handful of misses, or none, still has bounds with a width") {
  const Halvings few = of(law_of({normal(0, 1)}), linear({1}), -3.7, {{0}});  // 7 of 65 536
  CHECK(finds(few.before, normal_distribution(-3.7), 1e-3));
  CHECK(finds(few.groups[0].change, normal_distribution(-7.4) - normal_distribution(-3.7), 1e-3));
  const Halvings none = of(law_of({normal(0, 1)}), linear({1}), -9, {{0}});
  CHECK(none.groups[0].change.estimate == 0);
  CHECK(none.groups[0].change.low < 0);
  CHECK(none.groups[0].change.high > 0);
}

TEST_CASE("Halved shortfalls have the same bits on any number of threads, and a missing value misses") {
  const Law law = law_of({normal(0, 1), normal(0, 1)});
  const Function margin(2, [](const auto& x) { return x[0] > 3 ? std::nan("") : 2 - x[1]; });
  const Halvings one = of(law, margin, 0, {{0}, {1}}, Plan::Kind::sobol, 262144, 1);
  const Halvings many = of(law, margin, 0, {{0}, {1}}, Plan::Kind::sobol, 262144, 5);
  for (std::size_t g = 0; g < 2; ++g) {
    CHECK(one.groups[g].after.low == many.groups[g].after.low);
    CHECK(one.groups[g].change.high == many.groups[g].change.high);
    CHECK(one.groups[g].cured == many.groups[g].cured);
  }
  const double missing = normal_distribution(-3), misses = normal_distribution(-2);
  CHECK(finds(one.before, missing + misses - missing * misses, 0.005));
}
