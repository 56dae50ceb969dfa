#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "engine/draw/law.hpp"
#include "engine/draw/tail.hpp"
#include "engine/rare/limit_state.hpp"

using namespace engine;

namespace {

constexpr double no_floor = -std::numeric_limits<double>::infinity();

/// Strength over load and their difference.
class Rod : public BlockModel {
public:
  std::size_t inputs() const override { return 2; }
  std::size_t outputs() const override { return 2; }
  void evaluate(const Block& x, Block& y, std::size_t passes) const override {
    for (std::size_t i = 0; i < passes; ++i) {
      y.row(0)[i] = x.row(0)[i] / x.row(1)[i];
      y.row(1)[i] = x.row(0)[i] - x.row(1)[i];
    }
  }
};

}  // namespace

TEST_CASE("From a standard normal as from its uniform, where both are told apart", "[limit]") {
  for (const Marginal& m : {fixed_at(3), normal(1, 2), lognormal(2, 0.5), uniform(-1, 4), triangular(0, 1, 5),
                            triangular(0, 0, 1), student(1, 2, 5)})
    for (const double z : {-5.0, -2.0, -0.3, 0.0, 0.7, 3.0})
      CHECK(tail_value(m, z) == Approx(m.quantile(normal_distribution(z))).epsilon(1e-9).margin(1e-9));
}

TEST_CASE("Far tails keep their digits", "[limit]") {
  // Distances from an end of a bounded shape, and a Student's tail, at odds that vanish beside 1.
  for (const double z : {6.0, 9.0, 12.0, 20.0}) {
    const double tail = normal_distribution(-z);
    CHECK(tail_value(uniform(0, 1), -z) == Approx(tail).epsilon(1e-14));
    CHECK(tail_value(uniform(-1, 0), z) == Approx(-tail).epsilon(1e-14));
    CHECK(tail_value(triangular(-2, -1, 0), z) == Approx(-std::sqrt(2 * tail)).epsilon(1e-14));
    CHECK(tail_value(triangular(0, 1, 2), -z) == Approx(std::sqrt(2 * tail)).epsilon(1e-14));
    CHECK(student(0, 1, 4).distribution(tail_value(student(0, 1, 4), -z)) == Approx(tail).epsilon(1e-10));
    CHECK(tail_value(student(3, 1, 4), z) - 3 == Approx(3 - tail_value(student(3, 1, 4), -z)).epsilon(1e-12));
    CHECK(tail_value(normal(5, 2), z) == 5 + 2 * z);
  }
  CHECK(std::isfinite(tail_value(student(0, 1, 3), -60)));
}

TEST_CASE("A law takes normals as it takes uniforms, ties and floors included", "[limit]") {
  const Law law(
      {0, 1, 2}, {no_floor, 0, no_floor},
      {{0, false, normal(0, 1)}, {1, true, lognormal(1, 0.2)}, {1, false, normal(0, 1)}, {2, false, uniform(0, 1)}},
      {{0, 3, 0.7}});
  Block u(4), z(4), x(3), other(3);
  const double values[] = {-2, -0.5, 0, 0.4, 1.9};
  for (std::size_t d = 0; d < 4; ++d)
    for (std::size_t i = 0; i < 5; ++i) {
      z.row(d)[i] = values[(i + 2 * d) % 5];
      u.row(d)[i] = normal_distribution(z.row(d)[i]);
    }
  std::vector<std::uint64_t> clipped(3), clipped_other(3);
  law.transform(u, x, 5, clipped);
  law.transform_normals(z, other, 5, clipped_other);
  for (std::size_t k = 0; k < 3; ++k)
    for (std::size_t i = 0; i < 5; ++i)  // from uniforms by tables, which are that near
      CHECK(other.row(k)[i] == Approx(x.row(k)[i]).epsilon(1e-10).margin(1e-10));
  CHECK(clipped == clipped_other);
  CHECK(clipped[1] > 0);
}

TEST_CASE("An output below its least fails, one that equals it holds, a missing one fails", "[limit]") {
  const Law law({0, 0}, {no_floor, no_floor}, {{0, false, normal(2, 1)}, {1, false, normal(1, 1)}}, {});
  const Rod rod;
  Block u(2);
  u.row(0)[0] = 0, u.row(1)[0] = 0;    // 2 and 1: ratio 2
  u.row(0)[1] = -2, u.row(1)[1] = -1;  // 0 and 0: no ratio
  u.row(0)[2] = 0, u.row(1)[2] = 1;    // 2 and 2: ratio 1
  double g[3];
  const rare::ModelState state(law, rod, 0, 2);
  rare::margins(state, u, g, 3);
  CHECK(g[0] > 0);
  CHECK(g[1] < 0);
  CHECK(g[2] == Approx(-0.5).epsilon(1e-15));
  CHECK_THROWS_AS(rare::ModelState(law, rod, 2, 0), std::invalid_argument);
  CHECK_THROWS_AS(rare::ModelState(Law({1, 1}, {0, 0}, {}, {}), rod, 0, 0), std::invalid_argument);
}
