#include "engine/draw/block_math.hpp"

#include "engine/lanes/instructions.hpp"

namespace engine {

namespace baseline {
extern const BlockMath draw_loops;
}
#ifdef __x86_64__
namespace v3 {
extern const BlockMath draw_loops;
}
namespace v4 {
extern const BlockMath draw_loops;
}
#else
namespace v3 = baseline;
namespace v4 = baseline;
#endif

const BlockMath& block_math() { return in_use(baseline::draw_loops, v3::draw_loops, v4::draw_loops); }

}  // namespace engine
