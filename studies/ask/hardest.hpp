#pragma once
/// Putting a design out early and exactly: the shared passes that were hardest on another design are tried first.
#include <map>
#include <optional>
#include <vector>

#include "studies/ask/judge.hpp"

namespace studies {

/// A limit with odds may be missed on so many of the shared passes and no more, so a design is out at the miss after
/// that, whichever passes the misses are found on. Passes that are hard on one design are hard on its like: in their
/// order a design that is well out is so after little more than the misses allowed.
class Hardest {
public:
  /// @param shared  whose passes they are; must outlive this
  explicit Hardest(const SharedPasses& shared) : shared_(shared) {}

  /// A limit that the design misses on more of the shared passes than its odds allow, or at nominal. None proves
  /// nothing.
  /// @param odds   asked of each limit
  /// @param asked  the limits that count
  std::optional<std::size_t> missed(const Candidate& candidate, const models::Design& design,
                                    const std::vector<std::optional<double>>& odds, const std::vector<bool>& asked);

private:
  struct Place {
    std::uint32_t block, column;
  };
  /// Inputs of passes, hardest first, in blocks.
  using Passes = std::vector<engine::Block>;

  void learn(const Candidate& candidate, const models::Design& design, const std::vector<std::optional<double>>& odds);
  const Passes& passes(const Candidate& candidate, std::size_t limit);
  bool misses_more(const Candidate& candidate, const models::ScrewModel& screw, std::size_t limit,
                   std::uint64_t allowed);

  const SharedPasses& shared_;
  std::vector<std::vector<Place>> order_;  ///< [limit] the hardest passes; empty until something is learned
  std::map<const SharedInputs*, std::vector<Passes>> drawn_;  ///< [limit]
};

}  // namespace studies
