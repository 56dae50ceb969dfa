#include "engine/draw/plan.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "engine/pass/sweep.hpp"

using namespace engine;

namespace {

/// All uniforms of a plan, row by row, its blocks filled in the order given or backwards.
std::vector<std::vector<double>> all_of(const Plan& plan, std::size_t dimensions, bool backwards = false) {
  std::vector<std::vector<double>> rows(dimensions, std::vector<double>(plan.passes()));
  for (std::uint64_t i = 0; i < plan.blocks(); ++i) {
    const std::uint64_t block = backwards ? plan.blocks() - 1 - i : i;
    Block u(dimensions);
    plan.fill(block, u);
    for (std::size_t d = 0; d < dimensions; ++d)
      std::copy_n(u.row(d), plan.size(block), rows[d].begin() + static_cast<std::ptrdiff_t>(plan.first(block)));
  }
  return rows;
}

}  // namespace

TEST_CASE("A Sobol plan rounds up to whole nets of a power of two", "[limit]") {
  using Kind = Plan::Kind;
  CHECK(whole_nets(Kind::sobol, 1) == 16 * 64);
  CHECK(whole_nets(Kind::sobol, 16 * 64) == 16 * 64);
  CHECK(whole_nets(Kind::sobol, 16 * 64 + 1) == 16 * 128);
  CHECK(whole_nets(Kind::sobol, 10000) == 16384);
  CHECK(whole_nets(Kind::sobol, 16384) == 16384);
  CHECK(whole_nets(Kind::sobol, 16385) == 32768);
  CHECK(whole_nets(Kind::sobol, 1000000) == 1 << 20);
  CHECK(whole_nets(Kind::plain, 10000) == 10000);
  CHECK(whole_nets(Kind::plain, 0) == 1);
  for (const std::uint64_t n : {1, 3000, 20000})
    CHECK(Plan(Kind::sobol, 3, n, 1, Stream::test).passes() == whole_nets(Kind::sobol, n));
}

TEST_CASE("A Latin plan rounds up to whole designs of any size from 64", "[limit]") {
  CHECK(whole_nets(Plan::Kind::latin, 1) == 16 * 64);
  CHECK(whole_nets(Plan::Kind::latin, 16 * 64 + 1) == 16 * 65);
  CHECK(whole_nets(Plan::Kind::latin, 10000) == 10000);
  CHECK(whole_nets(Plan::Kind::latin, 10001) == 16 * 626);
}

TEST_CASE("Chunks tile the blocks and lie in one net each", "[limit]") {
  for (const auto kind : {Plan::Kind::plain, Plan::Kind::sobol, Plan::Kind::latin})
    for (const std::uint64_t count : {1, 5000, 100000, 600000, 1200000}) {
      const Plan plan(kind, 0, count, 1, Stream::test);
      const Chunks chunks(plan);
      std::uint64_t next = 0;
      for (std::uint64_t c = 0; c < chunks.count(); ++c) {
        REQUIRE(chunks.first(c) == next);
        REQUIRE(chunks.end(c) > next);
        REQUIRE(chunks.end(c) - next <= 32);
        REQUIRE(plan.net(next) == chunks.net(c));
        REQUIRE(plan.net(chunks.end(c) - 1) == chunks.net(c));
        next = chunks.end(c);
      }
      CHECK(next == plan.blocks());
    }
}

TEST_CASE("Each design of a Latin plan has a point in every stratum", "[limit]") {
  const Plan plan(Plan::Kind::latin, 3, 16 * 1500, 5, Stream::verdict);
  const auto u = all_of(plan, 3);
  for (std::uint64_t net = 0; net < plan.nets(); ++net)
    for (std::size_t d = 0; d < 3; ++d) {
      std::set<std::size_t> strata;
      for (std::uint64_t i = 0; i < 1500; ++i) strata.insert(static_cast<std::size_t>(u[d][net * 1500 + i] * 1500));
      CHECK(strata.size() == 1500);
    }
}

TEST_CASE("Blocks tile the passes and lie in one net each", "[limit]") {
  for (const auto kind : {Plan::Kind::plain, Plan::Kind::sobol, Plan::Kind::latin})
    for (const std::uint64_t count : {1, 64, 1023, 1024, 1025, 5000, 16384, 40000, 600000}) {
      const Plan plan(kind, 1, count, 1, Stream::test);
      std::uint64_t sum = 0;
      for (std::uint64_t b = 0; b < plan.blocks(); ++b) {
        const std::uint64_t n = plan.size(b);
        REQUIRE(n >= 1);
        REQUIRE(n <= block_size);
        REQUIRE(plan.first(b) == sum);
        REQUIRE(plan.net(b) == sum / plan.net_size());
        REQUIRE(plan.net(b) == (sum + n - 1) / plan.net_size());
        sum += n;
      }
      CHECK(sum == plan.passes());
      CHECK(plan.nets() * plan.net_size() == plan.passes());
      CHECK(plan.nets() == (kind == Plan::Kind::plain ? 1 : net_count));
    }
}

TEST_CASE("The numbers of a block do not depend on the blocks before it", "[limit]") {
  for (const auto kind : {Plan::Kind::plain, Plan::Kind::sobol, Plan::Kind::latin}) {
    const Plan plan(kind, 3, 40000, 17, Stream::test), again(kind, 3, 40000, 17, Stream::test);
    CHECK(all_of(plan, 3) == all_of(again, 3, true));
  }
}

TEST_CASE("A longer plain plan begins with the passes of the shorter one", "[limit]") {
  const auto some = all_of(Plan(Plan::Kind::plain, 3, 1500, 17, Stream::test), 3);
  const auto more = all_of(Plan(Plan::Kind::plain, 3, 9000, 17, Stream::test), 3);
  for (std::size_t d = 0; d < 3; ++d) CHECK(std::equal(some[d].begin(), some[d].end(), more[d].begin()));
}

TEST_CASE("A pass of a plain plan is the words at its address", "[limit]") {
  const auto u = all_of(Plan(Plan::Kind::plain, 3, 3000, 8, Stream::pilot), 3);
  for (const std::uint64_t pass : {0, 1, 1023, 1024, 2999}) {
    const Words pair = threefry({pass, 0}, {8, 3}), last = threefry({pass, 1}, {8, 3});
    CHECK(u[0][pass] == unit(pair[0]));
    CHECK(u[1][pass] == unit(pair[1]));
    CHECK(u[2][pass] == unit(last[0]));
  }
}

TEST_CASE("Keys, streams and dimensions have numbers of their own", "[limit]") {
  for (const auto kind : {Plan::Kind::plain, Plan::Kind::sobol, Plan::Kind::latin}) {
    std::set<std::vector<double>> seen;
    std::size_t made = 0;
    for (const std::uint64_t key : {0, 1, 2, 1 << 20})
      for (const Stream stream : {Stream::verdict, Stream::search, Stream::pilot})
        for (const auto& row : all_of(Plan(kind, 5, 1024, key, stream), 5)) seen.insert(row), ++made;
    CHECK(seen.size() == made);
  }
}

TEST_CASE("Each net of a Sobol plan is a whole net", "[limit]") {
  const Plan plan(Plan::Kind::sobol, 4, 16 * 2048, 5, Stream::verdict);
  const auto u = all_of(plan, 4);
  for (std::uint64_t net = 0; net < plan.nets(); ++net)
    for (std::size_t d = 0; d < 4; ++d) {
      std::set<std::size_t> cells;
      for (std::uint64_t i = 0; i < 2048; ++i) cells.insert(static_cast<std::size_t>(u[d][net * 2048 + i] * 2048));
      CHECK(cells.size() == 2048);
    }
}

TEST_CASE("A plan without dimensions still has passes", "[limit]") {
  for (const auto kind : {Plan::Kind::plain, Plan::Kind::sobol, Plan::Kind::latin}) {
    const Plan plan(kind, 0, 5000, 1, Stream::test);
    Block u(1);
    plan.fill(plan.blocks() - 1, u);
    CHECK(plan.passes() >= 5000);
    CHECK(u.row(0)[0] == 0);
  }
}

TEST_CASE("The dimensions of every plan are evenly spread and not tied", "[statistical]") {
  for (const auto kind : {Plan::Kind::plain, Plan::Kind::sobol, Plan::Kind::latin}) {
    const auto u = all_of(Plan(kind, 6, 16384, 77, Stream::verdict), 6);
    constexpr double n = 16384;
    for (std::size_t a = 0; a < 6; ++a) {
      double sum = 0;
      for (const double x : u[a]) sum += x - 0.5;
      CHECK(std::abs(sum) < 4 * std::sqrt(n / 12));
      for (std::size_t b = 0; b < a; ++b) {
        double tie = 0, doctored = 0;
        for (std::size_t i = 0; i < u[a].size(); ++i) {
          tie += (u[a][i] - 0.5) * (u[b][i] - 0.5);
          doctored += (u[a][i] - 0.5) * (0.07 * (u[a][i] - 0.5) + u[b][i] - 0.5);
        }
        CHECK(std::abs(tie) < 4 * std::sqrt(n) / 12);
        CHECK(std::abs(doctored) > 4 * std::sqrt(n) / 12);  // a tie of 7 % would be seen
      }
    }
  }
}
