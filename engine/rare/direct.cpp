#include "engine/rare/direct.hpp"

#include <vector>

#include "engine/rare/normals.hpp"

namespace engine::rare {

Direct direct(const LimitState& state, std::uint64_t passes, std::uint64_t key, std::uint64_t round,
              const Running& running) {
  const Normals normals(key, Use::direct, round);
  Direct answer;
  run_chunks((passes + block_size - 1) / block_size, running,
             [&](std::uint64_t block) {
               Block u(state.dimension());
               std::vector<double> g(block_size);
               normals.fill(block, u, block_size);
               margins(state, u, g.data(), block_size);
               std::uint64_t failures = 0;
               for (const double margin : g) failures += margin <= 0;
               return failures;
             },
             [&](std::uint64_t failures) {
               answer.failures += failures;
               answer.calls += block_size;
             });
  const auto n = static_cast<double>(answer.calls), hits = static_cast<double>(answer.failures);
  answer.p = hits / n;
  answer.interval = clopper_pearson(hits, n);
  return answer;
}

}  // namespace engine::rare
