#pragma once
/// Stretches of the number line that hold ranks sought after, cut finer until what they hold fits into memory.
#include <algorithm>
#include <bit>
#include <cstdint>
#include <vector>

#include "engine/pass/count.hpp"

namespace engine {

/// Whole numbers in the order of the doubles, infinities included; both zeros are one.
inline std::uint64_t order_key(double x) {
  const auto bits = std::bit_cast<std::uint64_t>(x + 0.0);
  return bits >> 63 ? ~bits : bits | (std::uint64_t{1} << 63);
}
inline double of_key(std::uint64_t key) {
  return std::bit_cast<double>(key >> 63 ? key & ~(std::uint64_t{1} << 63) : ~key);
}

/// A value sought by its rank.
struct Sought {
  std::size_t output = 0;
  std::uint64_t rank = 1;  ///< from 1
};

/// The values of one output whose keys lie in a range.
struct Span {
  std::size_t output = 0;
  std::uint64_t low = 0, high = 0;  ///< least and greatest key
  std::uint64_t before = 0;         ///< values of the output below it
  std::uint64_t count = 0;          ///< values in it

  bool single() const { return low == high; }
  bool holds(const Sought& s) const { return s.output == output && before < s.rank && s.rank <= before + count; }
  /// Parts that a span is cut into, at most.
  static constexpr std::size_t parts = 256;
  /// The part that a key belongs to.
  std::size_t part(std::uint64_t key) const { return static_cast<std::size_t>((key - low) >> shift()); }
  /// The span of one part.
  Span cut(std::size_t part, std::uint64_t before_it, std::uint64_t in_it) const {
    const std::uint64_t from = low + (static_cast<std::uint64_t>(part) << shift());
    const std::uint64_t width = std::uint64_t{1} << shift();
    return {output, from, high - from < width ? high : from + width - 1, before_it, in_it};
  }

private:
  int shift() const { return std::max(0, static_cast<int>(std::bit_width(high - low)) - 8); }
};

/// The spans being searched, in order, without overlap.
class Spans {
public:
  /// The bins that hold the ranks sought.
  Spans(const Counts& counts, const std::vector<Sought>& sought);

  std::size_t size() const { return all_.size(); }
  const Span& operator[](std::size_t i) const { return all_[i]; }
  bool any(std::size_t output) const { return first_[output] < first_[output + 1]; }
  /// [bin] whether a span of the output lies in it; the last is of what is not a number.
  const unsigned char* open(std::size_t output) const { return open_[output].data(); }
  static constexpr std::size_t nowhere = static_cast<std::size_t>(-1);
  /// The span of an output that holds a value; nowhere where none does.
  std::size_t find(std::size_t output, double value) const;
  /// The span that holds a rank sought, which must be there.
  const Span& holding(const Sought& sought) const;
  /// Values in all spans of more than one key.
  std::uint64_t values() const;
  /// Which spans to cut so that no more than `budget` values are left, by and by; empty where no more are.
  std::vector<std::size_t> fat(std::uint64_t budget) const;
  /// Puts in the place of the spans cut those of their parts that hold a rank sought.
  /// @param counts  `Span::parts` for each of `cut`
  void refine(const std::vector<std::size_t>& cut, const std::vector<std::uint64_t>& counts,
              const std::vector<Sought>& sought);

private:
  void take(std::vector<Span> spans);

  const Counts& counts_;
  std::vector<Span> all_;
  std::vector<std::size_t> first_;                ///< [output] its first span
  std::vector<std::vector<unsigned char>> open_;  ///< [output][bin]: most values are past at a glance
};

}  // namespace engine
