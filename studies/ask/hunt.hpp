#pragma once
/// The hunt for the lightest candidate: bounds, judging on shared passes, confirming on fresh ones, with proof.
#include <optional>
#include <vector>

#include "studies/ask/judge.hpp"
#include "studies/ask/question.hpp"
#include "studies/ask/rare.hpp"

namespace studies {

/// Where one candidate stands.
struct Hunted {
  bool examined = false;
  bool passes = false;                      ///< on the shared passes
  bool fresh_failed = false;                ///< on fresh ones not
  std::optional<RareMiss> rare;             ///< what fresh passes cannot count and its rare odds miss
  bool certain = true;                      ///< if it is out: proven so, not only searched
  std::optional<models::Design> design;     ///< with its own lightest nut; none where it cannot be built
  double mass = 0, torque = 0;              ///< of that design
  std::vector<std::optional<double>> odds;  ///< asked of it on the shared passes, tightened where fresh ones fell short
};

struct Hunt {
  std::vector<Candidate> candidates;
  std::vector<Hunted> hunted;  ///< one a candidate
  std::optional<std::size_t> pick;
  SearchReport report;
};

/// @param shared  the passes that all candidates share
Hunt hunt(const Study& study, const SharedPasses& shared, const Asking& asking);

/// A candidate's own lightest design on the shared passes, whether or not it passes; none where it cannot be built.
std::optional<models::Design> lightest_design(const SharedPasses& shared, const Candidate& candidate, Hunted& hunted);

/// Passes of the shared set.
inline constexpr std::uint64_t shared_passes = 16384;

}  // namespace studies
