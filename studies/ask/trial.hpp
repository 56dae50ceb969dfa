#pragma once
/// One candidate tried under one change: the least of the change that admits it, on the passes of a search.
#include <limits>
#include <optional>

#include "studies/ask/change.hpp"
#include "studies/ask/hunt.hpp"

namespace studies {

/// The passes that a search judges on and goes on to. Holds `shared` by reference: it must outlive this.
struct TrialPasses {
  /// @param hold  hold the verdict's passes in memory, some 23 MB a surface
  TrialPasses(const SharedPasses& shared, bool hold);
  const SharedPasses& shared;
  SharedPasses refined, verdict;
};

/// A study with a change typed, and the same passes under it. Holds the passes by reference: they must outlive this.
struct ChangedPasses {
  ChangedPasses(const TrialPasses& passes, Change change, double to);
  const Change change;
  const double to;
  const Study study;
  const SharedPasses shared, refined, verdict;
};

/// A candidate that is out, and a change that may let it in. Holds all it is given by reference.
class Trial {
public:
  /// @param verdict  of the candidate, with its margins
  /// @param below    the value of the first aim that it has to stay below
  Trial(const TrialPasses& passes, const Candidate& candidate, const CandidateVerdict& verdict, Change change,
        double below = std::numeric_limits<double>::infinity());

  /// As far as the change need go, as said: for a limit the value that its margin tells, else the farthest; none where
  /// no value of the limit would do.
  std::optional<double> end() const;
  /// Whether that is exact on the shared passes: then nothing nearer would do.
  bool end_is_exact() const;
  /// False where the margins tell that a change as far as this is not enough.
  bool possible(double to) const;
  /// The candidate's own best nut [m] that passes on the shared passes; none where none does.
  std::optional<double> nut_on_shared(const ChangedPasses& changed) const;
  /// The least change as said that holds on the shared passes and the verdict's; none where there is none.
  /// @param far   as said; holds on the shared passes
  /// @param nut   there [m]
  /// @param beat  the share of what was that it has to stay below: more is of no use
  std::optional<double> least(double far, double nut, double beat) const;

private:
  /// How a nut is found to be tried on the verdict's passes.
  enum class Nut { spared, refined };

  std::optional<models::Design> passing(const SharedPasses& set, const Candidate& candidate) const;
  bool better(const SharedPasses& set, const Candidate& candidate, const models::Design& design) const;
  double most_by_nut(const models::Limit& limit) const;
  bool nut_stands(double far) const;
  bool holds_with(const ChangedPasses& changed, double nut) const;
  bool confirmed(const ChangedPasses& changed, Nut how, std::optional<double> nut) const;
  bool confirmed(const ChangedPasses& changed, const Candidate& candidate, double nut) const;
  Candidate under(const ChangedPasses& changed) const;
  models::Design design(const ChangedPasses& changed, const Candidate& candidate, double nut) const;
  double said(double to) const;
  template <class Holds>
  double nearest(double misses, double holds, Holds test) const;
  template <class Holds>
  std::optional<double> nearest_from(double to, double beat, Holds test) const;

  const TrialPasses& passes_;
  const Study& study_;
  const Candidate& candidate_;
  const CandidateVerdict& verdict_;
  const Change change_;
  const double was_, below_;
};

}  // namespace studies
