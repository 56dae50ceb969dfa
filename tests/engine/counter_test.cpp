#include "engine/draw/counter.hpp"

#include <Random123/threefry.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <set>

using namespace engine;

namespace {

/// The same words by the code of the authors of the paper.
Words published(Words counter, Words key) {
  r123::Threefry2x64 generator;
  const auto out = generator({{counter[0], counter[1]}}, {{key[0], key[1]}});
  return {out[0], out[1]};
}

}  // namespace

TEST_CASE("Threefry gives the known answers of its authors", "[published]") {
  // kat_vectors of Random123, threefry2x64 with 20 rounds: from memory, and equal to what the library itself gives.
  constexpr std::uint64_t all = ~std::uint64_t{0};
  const Words zeros = {0, 0}, ones = {all, all};
  const Words digits = {0x243f6a8885a308d3, 0x13198a2e03707344}, more_digits = {0xa4093822299f31d0, 0x082efa98ec4e6c89};
  CHECK(threefry(zeros, zeros) == Words{0xc2b6e3a8c2c69865, 0x6f81ed42f350084d});
  CHECK(threefry(ones, ones) == Words{0xe02cb7c4d95d277a, 0xd06633d0893b8b68});
  CHECK(threefry(digits, more_digits) == Words{0x263c7d30bb0f0af1, 0x56be8361d3311526});
}

TEST_CASE("Threefry is equal to its authors' code on many counters and keys", "[published]") {
  // Random123 as Debian carries it; counters and keys with few bits set, with many, and one from the other.
  Words counter = {0, 0}, key = {0, 0};
  std::size_t wrong = 0;
  for (std::uint64_t i = 0; i < 20000; ++i) {
    const Words out = threefry(counter, key);
    wrong += out != published(counter, key);
    counter = i % 3 == 0 ? Words{i, std::uint64_t{1} << (i % 64)} : out;
    key = i % 2 == 0 ? Words{out[1], i} : Words{i * i, out[0]};
  }
  CHECK(wrong == 0);
}

TEST_CASE("A unit number lies strictly between 0 and 1 and mirrors about one half", "[limit]") {
  constexpr std::uint64_t all = ~std::uint64_t{0};
  CHECK(unit(0) == 0x1p-53);
  CHECK(unit(all) == 1 - 0x1p-53);
  for (std::uint64_t i = 0; i < 10000; ++i) {
    const std::uint64_t word = threefry({i, 0}, {1, 2})[0];
    REQUIRE(unit(word) > 0);
    REQUIRE(unit(word) < 1);
    REQUIRE(unit(word) + unit(~word) == 1);
  }
}

TEST_CASE("Words of neighbouring counters are evenly spread and go their own ways", "[statistical]") {
  // Mean 1/2 with spread √(1/12), and no correlation of one pass with the next, within 4 standard errors.
  constexpr int n = 100000;
  double sum = 0, products = 0, last = 0, doctored = 0;
  for (int i = 0; i < n; ++i) {
    const double u = unit(threefry({static_cast<std::uint64_t>(i), 0}, {7, 15})[0]) - 0.5;
    sum += u;
    products += u * last;
    doctored += u * (0.02 * u + last);  // a tie of 2 % to the one before
    last = u;
  }
  const double error = std::sqrt(n / 12.0), product_error = std::sqrt(static_cast<double>(n)) / 12;
  CHECK(std::abs(sum) < 4 * error);
  CHECK(std::abs(products) < 4 * product_error);
  CHECK(std::abs(doctored) > 4 * product_error);  // so small a tie would be seen
}

TEST_CASE("Streams of one key never meet", "[limit]") {
  std::set<Words> seen;
  std::size_t drawn = 0;
  for (const Stream stream : {Stream::verdict, Stream::search, Stream::pilot, Stream::starts, Stream::test})
    for (std::uint64_t key = 0; key < 4; ++key)
      for (std::uint64_t i = 0; i < 200; ++i, ++drawn)
        seen.insert(threefry({i, 0}, {key, static_cast<std::uint64_t>(stream)}));
  CHECK(seen.size() == drawn);
}
