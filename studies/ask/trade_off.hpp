#pragma once
/// Two aims set against each other: the screws of which none is better by one and as good by the other.
#include <vector>

#include "studies/ask/judge.hpp"
#include "studies/ask/question.hpp"

namespace studies {

/// Lengths of a free nut that are tried where the two aims pull it both ways, and points sought of a free thread.
inline constexpr int trade_lengths = 9, trade_points = 9;

struct TradeOff {
  std::vector<TradePoint> points;  ///< from the best by the first aim to the best by the second; never a tie
  std::uint64_t model_calls = 0;
};

/// Candidates are taken in the order of the first aim, each confirmed as a pick is; one that is no better by the second
/// than what was confirmed before it is passed over. So every point holds on fresh passes, and of standard sizes and
/// the lengths tried none is left out. Shares of passes are compared on the most refined ones. Free threads: points
/// from best to best, the one aim sought with the other held.
TradeOff trade_off(const Study& study, const SharedPasses& shared, const Asking& asking);

}  // namespace studies
