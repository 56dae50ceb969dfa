#pragma once
/// The engine's rare odds of one margin, with options that suit a screw, and the margin that given odds reach.
#include <string>

#include "engine/rare/agree.hpp"
#include "studies/ask/answer.hpp"
#include "studies/ask/margin.hpp"

namespace studies {

/// Odds of one failure, and whether a verdict may rest on them.
struct FoundOdds {
  engine::rare::RareOdds odds;
  Bounded shortfall;  ///< estimate 0: all that is known is `high`
  bool trusted = false;
  std::string reason;
};

/// How one margin fails, seen from independent standard normals.
class RareMargin {
public:
  /// @param law, margin  outlive it; the law scatters something
  RareMargin(const engine::Law& law, const Margin& margin, std::uint64_t key, const engine::Running& running);

  /// Odds that the margin lies below a value. Trusted are the engine's trusted odds, and a bound: all runs of subset
  /// simulation went past the least odds told apart without a failure, and the nearest failure found lies beyond too.
  /// @param asked  the odds asked: the least shortfall told apart is a hundredth of theirs, at most one in 1e9
  FoundOdds below(double value, double asked) const;

  /// The margin that a share `asked` reaches: below it lies 1 − asked.
  /// @param least, there  a margin and what was found there
  /// @param middle        the median margin, or something near it: where the search starts from
  double reached(double asked, double least, const FoundOdds& there, double middle) const;

  /// Calls of the margin so far.
  std::uint64_t calls() const { return calls_; }

private:
  FoundOdds find(double value, double least, bool coarsely) const;

  const engine::Law& law_;
  const Margin& margin_;
  std::uint64_t key_;
  engine::Running running_;
  mutable std::uint64_t calls_ = 0;
};

}  // namespace studies
