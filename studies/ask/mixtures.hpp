#pragma once
/// Screws that have some things of one side and the rest of the other, on the same passes.
#include <vector>

#include "studies/ask/attribution.hpp"
#include "studies/ask/common_draws.hpp"
#include "studies/ask/differences.hpp"

namespace studies {

/// One mixture on all passes.
struct Passed {
  std::vector<double> output;             ///< [pass]
  std::vector<std::vector<char>> missed;  ///< [limit compared][pass]
};

/// Two sides of one action, and all that lies between them.
class Mixtures {
public:
  /// @throws Refusal (study) where a side cannot be built
  Mixtures(Side a, Side b);

  const std::vector<Alteration>& alterations() const { return alterations_; }
  const std::vector<Measure>& measures() const { return measures_; }
  const Ready& first() const { return first_; }
  const Ready& second() const { return second_; }
  /// The first side with a set of alterations made.
  /// @param set  bits of alterations()
  Side made(Made set) const;
  /// The values of the measures that need no passes; NaN for the others.
  std::vector<double> at_nominal(const Ready& ready) const;
  /// @param ready  a settled mixture, `side` what it was settled from
  Passed pass(const Ready& ready, const Side& side, const CommonDraws& draws) const;
  /// The values of all measures.
  std::vector<double> values(const Ready& ready, const Passed& passed) const;

private:
  /// Whether a set of what was found can be built, and has a value wherever both sides have one.
  bool builds(const std::vector<Alterable>& found, Made set) const;
  void put_together(std::vector<Alterable> found);

  Side a_, b_;
  Ready first_, second_;
  std::vector<Measure> measures_;
  std::vector<Alteration> alterations_;
  std::vector<std::vector<Take>> takes_;  ///< of each alteration
};

/// The value in the middle: the least with half of them at or below it. NaN where one is none.
double median(std::vector<double> values);

}  // namespace studies
