#include "models/screw/screw_loops.hpp"

#include "engine/lanes/instructions.hpp"

namespace models {

namespace baseline {
extern const ScrewLoops screw_loops;
}
#ifdef __x86_64__
namespace v3 {
extern const ScrewLoops screw_loops;
}
namespace v4 {
extern const ScrewLoops screw_loops;
}
#else
namespace v3 = baseline;
namespace v4 = baseline;
#endif

const ScrewLoops& screw_loops() { return engine::in_use(baseline::screw_loops, v3::screw_loops, v4::screw_loops); }

}  // namespace models
