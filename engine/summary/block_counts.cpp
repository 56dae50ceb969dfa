#include "engine/summary/block_counts.hpp"

#include "engine/lanes/instructions.hpp"

namespace engine {

SCREWTINY_LOOPS_OF_SETS(BlockCounts, count_loops)

const BlockCounts& block_counts() { return in_use(baseline::count_loops, v3::count_loops, v4::count_loops); }

}  // namespace engine
