#include "engine/draw/block_math.hpp"

#include "engine/lanes/instructions.hpp"

namespace engine {

SCREWTINY_LOOPS_OF_SETS(BlockMath, draw_loops)

const BlockMath& block_math() { return in_use(baseline::draw_loops, v3::draw_loops, v4::draw_loops); }

}  // namespace engine
