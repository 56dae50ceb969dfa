#pragma once
/// One run of subset simulation; for the room's own use.
#include "engine/rare/subset.hpp"

namespace engine::rare {

struct SubsetRun {
  double p = 0;
  std::size_t levels = 0;
  bool stuck = false;
  std::uint64_t calls = 0;
  std::vector<Point> failures;
};

/// @param keep  failed points to return at most
SubsetRun subset_run(const LimitState& state, const SubsetOptions& options, std::uint64_t key, std::uint64_t round,
                     std::size_t keep);

}  // namespace engine::rare
