/// Compiled once per instruction set: see engine/lanes/each.hpp for the rules.
#include "engine/lanes/each.hpp"
#include "tests/bench/standard.hpp"

namespace bench::SCREWTINY_SET {
namespace {

void evaluate_rows(const double* x, double* y, std::size_t stride, std::size_t passes) {
  SCREWTINY_EACH
  for (std::size_t i = 0; i < passes; ++i) {
    const double* in = x + i;
    const Out out = evaluate({in[0], in[stride], in[2 * stride], in[3 * stride], in[4 * stride], in[5 * stride],
                              in[6 * stride], in[7 * stride]});
    double* row = y + i;
    row[0] = out.force, row[stride] = out.thread_torque, row[2 * stride] = out.efficiency;
    row[3 * stride] = out.axial, row[4 * stride] = out.torsion, row[5 * stride] = out.combined;
    row[6 * stride] = out.bearing, row[7 * stride] = out.buckling, row[8 * stride] = out.by_force;
    row[9 * stride] = out.by_yield, row[10 * stride] = out.by_buckling, row[11 * stride] = out.by_bearing;
  }
}

}  // namespace

extern const Loops loops;
const Loops loops = {evaluate_rows};

}  // namespace bench::SCREWTINY_SET
