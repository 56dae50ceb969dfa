#pragma once
/// Constraints under odds: quantiles of margins over passes that stay the same while a design is sought.
#include <cstdint>
#include <functional>
#include <memory>
#include <vector>

#include "engine/draw/plan.hpp"
#include "engine/rare/mixture.hpp"
#include "engine/search/box.hpp"

namespace engine {

/// Least objective of a design x such that each margin is negative with no more than its allowed odds.
struct OddsProblem {
  std::vector<double> lower, upper;  ///< of x
  std::vector<double> allowed;       ///< of each margin, in (0, 1)
  std::size_t normals = 0;           ///< independent standard normals of a pass, ≥ 1
  std::function<double(const std::vector<double>& x)> objective;
  /// Margins of design x on the first `n` columns of z (one row a normal) into the rows of g: negative where it misses.
  /// Not-a-number is a miss. A pure function, of about 1 in size.
  std::function<void(const std::vector<double>& x, const Block& z, Block& g, std::size_t n)> margins;
};

/// Passes as standard normals, kept in memory (8 bytes a normal), each with a weight.
class MarginPasses {
public:
  /// Passes of a plan, all of weight 1.
  void add(const Plan& plan, std::size_t normals);
  /// Whole blocks of draws from a mixture, at least `count`, weighed by how likely they were.
  void add(const rare::Mixture& mixture, std::size_t normals, std::uint64_t count, std::uint64_t key,
           std::uint64_t round);

  std::uint64_t count() const { return count_; }
  /// Rows of margins of all passes, one a constraint.
  std::vector<std::vector<double>> margins(const OddsProblem& problem, const std::vector<double>& x) const;
  /// The least margin that passes of more than the allowed odds (weight over count) come down to: at or above 0 exactly
  /// when no more than that miss. With weights of 1, the order statistic after floor(allowed · count).
  double quantile(std::vector<double> margins, double allowed) const;

private:
  struct Part {
    Block z;
    std::size_t n;
  };
  std::vector<Part> parts_;
  std::vector<double> weights_;  ///< of all passes; empty while all are 1
  std::uint64_t count_ = 0;
};

/// The odds turned into a box problem: constraint k is minus the quantile of margin k over its own passes.
/// @param passes  of each margin, none null; those that share passes share a call of the model
BoxProblem on_passes(const OddsProblem& problem, std::vector<std::shared_ptr<const MarginPasses>> passes);

}  // namespace engine
