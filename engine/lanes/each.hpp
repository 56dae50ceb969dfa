#pragma once
/// For the files that are compiled once per instruction set (*_lanes.cpp) and what they include.
/// Rules there: every function is static or always inlined, so that no copy for one set is linked for another; no
/// templates of the standard library; the iterations of a loop do not depend on each other.
#ifdef __clang__
/// Stands before a loop whose iterations are independent, whatever its pointers look like.
#define SCREWTINY_EACH _Pragma("clang loop vectorize(assume_safety)")
#else
#define SCREWTINY_EACH _Pragma("GCC ivdep")
#endif

namespace engine {

[[gnu::always_inline]] inline double larger(double a, double b) { return a < b ? b : a; }
[[gnu::always_inline]] inline double smaller(double a, double b) { return b < a ? b : a; }

}  // namespace engine
