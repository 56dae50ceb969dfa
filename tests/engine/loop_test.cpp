#include "engine/pass/loop.hpp"

#include <catch2/catch.hpp>
#include <chrono>
#include <numeric>
#include <stdexcept>
#include <string>

using namespace engine;

namespace {

/// Some work that takes longer for some chunks than for others.
std::uint64_t labour(std::uint64_t chunk) {
  if (chunk % 7 == 0) std::this_thread::sleep_for(std::chrono::milliseconds(1));
  return chunk * chunk;
}

}  // namespace

TEST_CASE("Records are committed in order of their chunks, each once", "[limit]") {
  for (const unsigned threads : {0u, 1u, 2u, 5u})
    for (const std::uint64_t chunks : {0, 1, 3, 100}) {
      std::vector<std::uint64_t> order, wanted;
      for (std::uint64_t i = 0; i < chunks; ++i) wanted.push_back(i * i);
      run_chunks(chunks, {threads, {}, nullptr}, labour, [&](std::uint64_t record) { order.push_back(record); });
      CHECK(order == wanted);
    }
}

TEST_CASE("Progress rises and ends at one", "[limit]") {
  for (const unsigned threads : {1u, 3u}) {
    std::vector<double> told;
    run_chunks(40, {threads, [&](double share) { told.push_back(share); }, nullptr}, labour, [](std::uint64_t) {});
    REQUIRE_FALSE(told.empty());
    CHECK(std::is_sorted(told.begin(), told.end()));
    CHECK(told.front() >= 0);
    CHECK(told.back() == 1);
  }
}

TEST_CASE("No thread runs far ahead of the commits", "[limit]") {
  std::atomic<std::uint64_t> started{0}, committed{0}, most{0};
  run_chunks(
      200, {4, {}, nullptr},
      [&](std::uint64_t chunk) {
        const std::uint64_t ahead = ++started - committed;
        std::uint64_t seen = most;
        while (ahead > seen && !most.compare_exchange_weak(seen, ahead)) {
        }
        if (chunk == 20) std::this_thread::sleep_for(std::chrono::milliseconds(20));
        return chunk;
      },
      [&](std::uint64_t) { ++committed; });
  CHECK(most <= 4 * 4 + 4);
  CHECK(committed == 200);
}

TEST_CASE("What the work throws comes out, and what was committed before stays in order", "[limit]") {
  for (const unsigned threads : {1u, 4u}) {
    std::vector<std::uint64_t> order;
    const auto run = [&] {
      run_chunks(
          100, {threads, {}, nullptr},
          [](std::uint64_t chunk) {
            if (chunk == 30) throw std::runtime_error("chunk 30 has no bottom");
            return chunk;
          },
          [&](std::uint64_t record) { order.push_back(record); });
    };
    CHECK_THROWS_WITH(run(), "chunk 30 has no bottom");
    CHECK(order.size() <= 30);
    for (std::size_t i = 0; i < order.size(); ++i) CHECK(order[i] == i);
  }
}

TEST_CASE("What the commit throws comes out", "[limit]") {
  for (const unsigned threads : {1u, 4u})
    CHECK_THROWS_WITH(run_chunks(50, {threads, {}, nullptr}, labour,
                                 [](std::uint64_t r) {
                                   if (r == 25) throw std::runtime_error("disk full");
                                 }),
                      "disk full");
}

TEST_CASE("An interruption from outside stops the run soon", "[limit]") {
  for (const unsigned threads : {1u, 4u}) {
    std::atomic<bool> stop{false};
    std::uint64_t committed = 0;
    const auto run = [&] {
      run_chunks(100000, {threads, {}, &stop}, labour, [&](std::uint64_t) { stop = ++committed >= 10; });
    };
    CHECK_THROWS_AS(run(), Interrupted);
    CHECK(committed >= 10);
    CHECK(committed < 200);
  }
  std::atomic<bool> quiet{false};
  CHECK_NOTHROW(run_chunks(10, {2, {}, &quiet}, labour, [](std::uint64_t) {}));
}
