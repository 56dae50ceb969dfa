#pragma once
/// Where a pass's time goes.
#include "tests/bench/works.hpp"

namespace bench {

/// Prints what every stage of the product's loop takes by itself, on the instruction set in use and one core, beside
/// the whole; and what the processor can do at most in the operations that a pass is made of.
void stage_table(const Work& work, std::uint64_t passes, int repeats);

}  // namespace bench
