#include "models/screw/screw_loops.hpp"

#include "engine/lanes/instructions.hpp"

namespace models {

SCREWTINY_LOOPS_OF_SETS(ScrewLoops, screw_loops)

const ScrewLoops& screw_loops() { return engine::in_use(baseline::screw_loops, v3::screw_loops, v4::screw_loops); }

}  // namespace models
