#include "engine/draw/latin.hpp"

#include <algorithm>
#include <cmath>

namespace engine {
namespace {

/// Every bit of the word depends on every bit of the result's argument: one round's worth of disorder.
/// @source the finaliser of SplitMix64: Steele, Lea, Flood, OOPSLA 2014
std::uint64_t mixed(std::uint64_t x) {
  x = (x ^ (x >> 30)) * 0xBF58476D1CE4E5B9u;
  x = (x ^ (x >> 27)) * 0x94D049BB133111EBu;
  return x ^ (x >> 31);
}

/// A word to a whole number below `bound` < 2^32.
std::uint64_t below(std::uint64_t bound, std::uint64_t word) { return ((word >> 32) * bound) >> 32; }

}  // namespace

Order::Order(std::uint64_t size, Words counter, Words key) : size_(size) {
  wide_ = static_cast<std::uint64_t>(std::sqrt(static_cast<double>(size)));
  while (wide_ * wide_ < size) ++wide_;
  tall_ = (size + wide_ - 1) / wide_;
  for (std::size_t r = 0; r < rounds; r += 2) {
    const Words words = threefry({counter[0] + r / 2, counter[1]}, key);
    keys_[r] = words[0];
    keys_[r + 1] = words[1];
  }
}

std::uint64_t Order::operator()(std::uint64_t place) const {
  do {
    std::uint64_t row = place / wide_, column = place % wide_;
    for (std::size_t r = 0; r < rounds; r += 2) {
      row += below(tall_, mixed(column ^ keys_[r]));
      if (row >= tall_) row -= tall_;
      column += below(wide_, mixed(row ^ keys_[r + 1]));
      if (column >= wide_) column -= wide_;
    }
    place = row * wide_ + column;
  } while (place >= size_);
  return place;
}

void LatinDesign::fill(std::size_t dimension, std::uint64_t first, std::size_t n, double* u) const {
  // Counters of a design: its net above, then its coordinate; the orders' rounds and the places within strata keep
  // apart.
  const std::uint64_t coordinate = net_ << 32 | dimension;
  const Order order(size_, {std::uint64_t{1} << 63, coordinate}, key_);
  const auto strata = static_cast<double>(size_);
  for (std::size_t i = 0; i < n; ++i) {
    const Words words = threefry({first + i, net_ << 32 | dimension / 2}, key_);
    // 32 bits within a stratum: with the stratum's number they fit a double, so that none is rounded into the next.
    const double within = (static_cast<double>(words[dimension % 2] >> 32) + 0.5) * 0x1p-32;
    u[i] = std::min((static_cast<double>(order(first + i)) + within) / strata, 1 - 0x1p-53);
  }
}

}  // namespace engine
