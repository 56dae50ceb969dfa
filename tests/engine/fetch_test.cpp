#include "engine/pass/fetch.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "tests/engine/jcgm.hpp"

using namespace engine;

namespace {

constexpr double inf = std::numeric_limits<double>::infinity();

/// One standard normal in awkward shapes: smooth, in steps, all but all in one bin, in a few values, partly unbounded.
class Awkward : public BlockModel {
public:
  std::size_t inputs() const override { return 1; }
  std::size_t outputs() const override { return 5; }
  void evaluate(const Block& x, Block& y, std::size_t passes) const override {
    for (std::size_t i = 0; i < passes; ++i) {
      const double z = x.row(0)[i];
      y.row(0)[i] = z;
      y.row(1)[i] = std::floor(4 * z) / 4;
      y.row(2)[i] = std::sinh(z * z * z);
      y.row(3)[i] = z < 0.5 ? -0.0 : z < 1 ? 0.0 : 7;
      y.row(4)[i] = z > 1 ? inf : z < -1 ? -inf : z;
    }
  }
};

struct Counting {
  Law law = jcgm::inputs({normal(0, 1)});
  Awkward model;
  Plan plan;
  Survey kept;
  Counts counts;

  Counting(Plan::Kind kind, std::uint64_t passes) : plan(kind, 1, passes, 3, Stream::test), counts(counted()) {}
  Counts counted() {
    Ask ask;
    ask.keep = true;
    kept.kept_inputs.assign(1, std::vector<double>(plan.passes()));
    kept.kept_outputs.assign(5, std::vector<double>(plan.passes()));
    Counts c = count({plan, law, model}, ask, 3, {2, {}, nullptr}, kept);
    for (auto& row : kept.kept_outputs) std::sort(row.begin(), row.end());
    return c;
  }
};

std::vector<Sought> many(std::uint64_t passes) {
  std::vector<Sought> sought;
  for (std::size_t output = 0; output < 5; ++output)
    for (const double q : {0.0, 0.001, 0.025, 0.16, 0.3, 0.5, 0.6, 0.84, 0.9, 0.99, 0.9999, 1.0}) {
      const auto rank = static_cast<std::uint64_t>(std::ceil(q * static_cast<double>(passes)));
      sought.push_back({output, std::max<std::uint64_t>(1, rank)});
    }
  return sought;
}

}  // namespace

TEST_CASE("Keys keep the order of numbers, infinities and zeros", "[limit]") {
  const double rising[] = {-inf, -1e308, -2, -1, -5e-324, 0, 5e-324, 1, 1 + 0x1p-52, 1e308, inf};
  for (std::size_t i = 0; i + 1 < std::size(rising); ++i) CHECK(order_key(rising[i]) < order_key(rising[i + 1]));
  for (const double x : rising) CHECK(of_key(order_key(x)) == x);
  CHECK(order_key(-0.0) == order_key(0.0));
}

TEST_CASE("The parts of a span tile it", "[limit]") {
  for (const std::uint64_t width :
       {std::uint64_t{1}, std::uint64_t{2}, std::uint64_t{255}, std::uint64_t{256}, std::uint64_t{257},
        std::uint64_t{1000003}, std::uint64_t{1} << 60, ~std::uint64_t{0}}) {
    const Span span{0, 0, width, 0, 10};
    REQUIRE(span.part(width) < Span::parts);
    std::uint64_t next = 0;
    for (std::size_t p = 0; p <= span.part(width); ++p) {
      const Span part = span.cut(p, 0, 1);
      CHECK((part.low == next && part.low <= part.high));
      CHECK((span.part(part.low) == p && span.part(part.high) == p));
      next = part.high + 1;
    }
    CHECK(next == width + 1);
  }
}

TEST_CASE("Fetched ranks are exact however few values may be held", "[limit]") {
  for (const auto kind : {Plan::Kind::plain, Plan::Kind::sobol}) {
    const Counting c(kind, 60000);
    const std::vector<Sought> sought = many(c.plan.passes());
    for (const std::uint64_t budget : {fetch_budget, std::uint64_t{3000}, std::uint64_t{60}, std::uint64_t{0}}) {
      const auto found = fetch(sought, c.counts, {c.plan, c.law, c.model}, {2, {}, nullptr}, budget);
      for (std::size_t i = 0; i < sought.size(); ++i) {
        CAPTURE(budget, sought[i].output, sought[i].rank);
        CHECK(found[i] == c.kept.kept_outputs[sought[i].output][sought[i].rank - 1]);
      }
    }
  }
}

TEST_CASE("Cutting a span leaves the ranks sought and few values else", "[limit]") {
  const Counting c(Plan::Kind::plain, 60000);
  const std::vector<Sought> sought = many(60000);
  const Spans spans(c.counts, sought);
  CHECK(spans.values() > 3000);
  CHECK(spans.fat(spans.values()).empty());
  const auto cut = spans.fat(3000);
  REQUIRE_FALSE(cut.empty());
  for (const std::size_t i : cut) CHECK(spans[i].count > 3000 / spans.size());
  for (const Sought& s : sought) CHECK(spans.holding(s).holds(s));
}
