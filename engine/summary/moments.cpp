#include "engine/summary/moments.hpp"

#include "engine/summary/block_counts.hpp"

namespace engine {

Moments Moments::of(const double* x, std::size_t passes) {
  constexpr std::size_t at_once = 1024;
  Moments all;
  for (std::size_t i = 0; i < passes; i += at_once) {
    const std::size_t n = std::min(at_once, passes - i);
    const BlockMoments m = block_counts().moments(x + i, n);
    all.merge({m.finite, m.mean, m.squares, m.least, m.most, m.missing, n - m.finite - m.missing});
  }
  return all;
}

}  // namespace engine
