#pragma once
/// The hunt for the lightest candidate: bounds, judging on shared passes, confirming on fresh ones, with proof.
#include <array>
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
  std::optional<Judgement> refused;         ///< by the passes beyond the shared ones that put it out
  bool in_contention = false;               ///< it is not clearly out on the first passes: more of them are to tell
  std::optional<std::size_t> over_cap;      ///< a cap that it exceeds whatever its nut; then it has no design
  std::optional<std::size_t> out_by;        ///< a limit that put it out early; then likewise
  bool put_off = false;                     ///< it is worse than `value`, whatever nut would hold; then likewise
  std::optional<models::Design> design;     ///< with its own best nut; none where it cannot be built, or out early
  double value = 0;                         ///< of the first aim (see aim.hpp); without a design the least it can be
  std::vector<double> stiffer;              ///< [limit] how much more margin a band must show on shared passes so that
                                            ///< rare odds hold; empty: none
  std::vector<std::optional<double>> odds;  ///< asked of it on the shared passes, tightened where fresh ones fell short
};

struct Hunt {
  std::vector<Candidate> candidates;
  std::vector<Hunted> hunted;  ///< one a candidate
  std::optional<std::size_t> pick;
  SearchReport report;
};

/// A candidate that is well out on the shared passes is out (odds loosened by what those can be off by, see
/// `loosened`); one that is not is judged on more passes, of another scramble, until they tell; one that passes is
/// confirmed on fresh passes. So the pick is what a search on the most passes would find.
/// @param shared  the passes that all candidates share
Hunt hunt(const Study& study, const SharedPasses& shared, const Asking& asking);

/// A candidate's own best design by the study's first aim on some passes, whether or not it passes; none where it
/// cannot be built, or exceeds a cap with any nut.
/// @param hunted     its `passes`, `certain` and `over_cap` are set
/// @param odds       asked of each limit
/// @param judgement  of the design, where it is known without another sweep
std::optional<models::Design> best_design(const SharedPasses& shared, const Candidate& candidate,
                                          const std::vector<std::optional<double>>& odds, Hunted& hunted,
                                          std::optional<Judgement>* judgement = nullptr);

/// Passes of the shared set.
inline constexpr std::uint64_t shared_passes = 16384;
/// Passes of the sets that candidates in contention are judged on, one set after the other until it tells.
inline constexpr std::array<std::uint64_t, 2> refined_passes = {65536, 262144};

}  // namespace studies
