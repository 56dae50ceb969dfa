#pragma once
/// For the files that are compiled once per instruction set (*_lanes.cpp) and what they include.
/// Rules there: every function is static or always inlined, so that no copy for one set is linked for another; no
/// templates of the standard library; the iterations of a loop do not depend on each other.
#include <cstdint>

#ifdef __clang__
/// Stands before a loop whose iterations are independent, whatever its pointers look like.
#define SCREWTINY_EACH _Pragma("clang loop vectorize(assume_safety)")
#else
#define SCREWTINY_EACH _Pragma("GCC ivdep")
#endif

namespace engine {

[[gnu::always_inline]] inline double larger(double a, double b) { return a < b ? b : a; }
[[gnu::always_inline]] inline double smaller(double a, double b) { return b < a ? b : a; }

/// All bits or none. A condition that is the same on every pass keeps a loop from vectorising (GCC 12); a mask does
/// not.
using Choice = std::uint64_t;
inline Choice choice(bool made) { return made ? ~Choice{0} : Choice{0}; }

/// a where it is chosen, else b where that is, else c: bit for bit, whatever the others are.
[[gnu::always_inline]] inline double chosen(Choice of_a, double a, Choice of_b, double b, double c) {
  const Choice bits = (__builtin_bit_cast(Choice, a) & of_a) | (__builtin_bit_cast(Choice, b) & of_b & ~of_a) |
                      (__builtin_bit_cast(Choice, c) & ~of_a & ~of_b);
  return __builtin_bit_cast(double, bits);
}

}  // namespace engine
