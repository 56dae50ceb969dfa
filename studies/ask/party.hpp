#pragma once
/// Judging the candidates of one hunt, each step by step: put out early, judged on the shared passes, on more,
/// confirmed on fresh ones.
#include <deque>
#include <limits>

#include "engine/search/best_first.hpp"
#include "studies/ask/fresh.hpp"
#include "studies/ask/hardest.hpp"
#include "studies/ask/hunt.hpp"

namespace studies {

/// A lower bound of what is aimed at, whatever nut or band: NaN where the candidate cannot be built.
double bound(const SharedPasses& shared, const Candidate& candidate, const Aim& aim);

class Party {
public:
  /// @param hunt  its candidates and hunted are looked at and written; all must outlive this
  Party(const Study& study, const SharedPasses& shared, FreshSets& fresh, const engine::Running& running, Hunt& hunt);

  /// Takes a candidate one stage on; nothing where it is out.
  std::optional<engine::Standing> look(std::size_t index, engine::Standing standing);
  /// The first judgement, on the shared passes, without any short cut.
  std::optional<engine::Standing> judge(std::size_t index);
  /// What a candidate comes to by an aim: of a share of passes the least it may come to on more of them while it is
  /// bounded, and on the most of them after that, the lighter of two equal ones being a hair better.
  double value(std::size_t index, const Aim& aim, engine::Stage stage) const;
  std::uint64_t calls() const;

private:
  struct Early {
    std::optional<engine::Standing> standing;
  };
  std::optional<Early> put_out_early(std::size_t index, double at_least);
  std::optional<engine::Standing> refine(std::size_t index);
  std::optional<engine::Standing> confirm(std::size_t index);
  std::optional<engine::Standing> stiffened(std::size_t index);
  std::optional<engine::Standing> after_rare_miss(std::size_t index);
  bool tighten(std::size_t index, const SharedPasses& fresh);
  double at_best(double value) const;

  const Study& study_;
  const Aim& aim_;
  const SharedPasses& shared_;
  FreshSets& fresh_;
  const engine::Running& running_;
  Hardest hardest_;
  Hunt& hunt_;
  std::deque<SharedPasses> refined_;
  std::vector<bool> helped_;  ///< [limit] by a longer nut, or left alone
  std::uint64_t rare_calls_ = 0;
  double to_beat_ = std::numeric_limits<double>::infinity();
  std::vector<int> rounds_;  ///< [candidate] how often it was sought again
};

}  // namespace studies
