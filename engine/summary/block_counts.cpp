#include "engine/summary/block_counts.hpp"

#include "engine/lanes/instructions.hpp"

namespace engine {

namespace baseline {
extern const BlockCounts count_loops;
}
#ifdef __x86_64__
namespace v3 {
extern const BlockCounts count_loops;
}
namespace v4 {
extern const BlockCounts count_loops;
}
#else
namespace v3 = baseline;
namespace v4 = baseline;
#endif

const BlockCounts& block_counts() { return in_use(baseline::count_loops, v3::count_loops, v4::count_loops); }

}  // namespace engine
