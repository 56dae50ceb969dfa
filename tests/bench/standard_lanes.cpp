/// Compiled once per instruction set: see engine/lanes/each.hpp for the rules.
#include "engine/lanes/each.hpp"
#include "tests/bench/standard.hpp"

namespace bench::SCREWTINY_SET {
namespace {

template <Out (*formula)(const In&)>
[[gnu::always_inline]] inline void rows(const double* x, double* y, std::size_t stride, std::size_t passes) {
  SCREWTINY_EACH
  for (std::size_t i = 0; i < passes; ++i) {
    const double* in = x + i;
    const Out out = formula({in[0], in[stride], in[2 * stride], in[3 * stride], in[4 * stride], in[5 * stride],
                             in[6 * stride], in[7 * stride]});
    double* row = y + i;
    row[0] = out.force, row[stride] = out.thread_torque, row[2 * stride] = out.efficiency;
    row[3 * stride] = out.axial, row[4 * stride] = out.torsion, row[5 * stride] = out.combined;
    row[6 * stride] = out.bearing, row[7 * stride] = out.buckling, row[8 * stride] = out.by_force;
    row[9 * stride] = out.by_yield, row[10 * stride] = out.by_buckling, row[11 * stride] = out.by_bearing;
  }
}

void as_written(const double* x, double* y, std::size_t stride, std::size_t passes) {
  rows<evaluate>(x, y, stride, passes);
}
void lean(const double* x, double* y, std::size_t stride, std::size_t passes) {
  rows<evaluate_lean>(x, y, stride, passes);
}

/// Eight divisions a number, none of which waits for another.
void divide(const double* x, double* y, std::size_t n) {
  SCREWTINY_EACH
  for (std::size_t i = 0; i < n; ++i) {
    const double a = x[i];
    y[i] = ((1.1 / a + 1.2 / (a + 1)) + (1.3 / (a + 2) + 1.4 / (a + 3))) +
           ((1.5 / (a + 4) + 1.6 / (a + 5)) + (1.7 / (a + 6) + 1.8 / (a + 7)));
  }
}

/// Eight square roots a number.
void root(const double* x, double* y, std::size_t n) {
  SCREWTINY_EACH
  for (std::size_t i = 0; i < n; ++i) {
    const double a = x[i];
    y[i] = ((__builtin_sqrt(a) + __builtin_sqrt(a + 1)) + (__builtin_sqrt(a + 2) + __builtin_sqrt(a + 3))) +
           ((__builtin_sqrt(a + 4) + __builtin_sqrt(a + 5)) + (__builtin_sqrt(a + 6) + __builtin_sqrt(a + 7)));
  }
}

/// Thirty-two multiplications and as many additions a number, in four chains.
void add_multiply(const double* x, double* y, std::size_t n) {
  SCREWTINY_EACH
  for (std::size_t i = 0; i < n; ++i) {
    double a = x[i], b = a + 1, c = a + 2, d = a + 3;
    for (int k = 0; k < 8; ++k) {
      a = a * 0.5 + 0.25, b = b * 0.5 + 0.25;
      c = c * 0.5 + 0.25, d = d * 0.5 + 0.25;
    }
    y[i] = (a + b) + (c + d);
  }
}

}  // namespace

extern const Loops loops;
const Loops loops = {as_written, lean, divide, root, add_multiply};

}  // namespace bench::SCREWTINY_SET
