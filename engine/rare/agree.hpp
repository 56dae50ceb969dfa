#pragma once
/// Odds of rare failures, by methods that fail in different ways and are held against each other.
#include <string>

#include "engine/rare/design_point.hpp"
#include "engine/rare/direct.hpp"
#include "engine/rare/importance.hpp"
#include "engine/rare/subset.hpp"

namespace engine::rare {

struct RareOptions {
  SubsetOptions subset;
  DesignOptions design;
  ImportanceOptions importance;
  /// Most passes of crude Monte Carlo, where failures are likelier than one in 10 000; it stops at some 400 failures.
  std::uint64_t direct = 1u << 20;
};

struct RareOdds {
  double p = 0;              ///< probability of failure
  double low = 0, high = 1;  ///< bounds of 95 % confidence or more
  bool trusted = false;      ///< two methods agree on it, or it was counted
  std::string reason;        ///< one sentence: where the answer comes from, and why it is or is not trusted
  std::uint64_t calls = 0;   ///< passes through the limit state, all told
  FirstOrder first_order;
  Importance importance;
  Subset subset;
  Direct direct;  ///< calls = 0 where failures are too rare to count
};

/// Probability of failure of a limit state. Subset simulation goes first, and the failures it finds tell the search for
/// design points and importance sampling where to look. The answer is
/// * importance sampling's, when it is sound (≥ 200 effective failures, no draw above 5 % of the estimate, half-width
///   within 30 %) and agrees: with subset simulation (|ln ratio| within three combined standard errors and 3 %, the
///   bias of a run) and, where p ≥ 1e-4, with crude Monte Carlo (three combined standard errors);
///   or that count's, where its bounds are the narrower. Trusted;
/// * else the same of a second attempt, with twice the chains;
/// * else crude Monte Carlo's on fresh passes, when it can count 100 failures. Trusted: it assumes nothing;
/// * else subset simulation's, its bounds twice as far in the logarithm, and out to those of importance sampling where
///   that is sound. Not trusted;
/// * where no run of subset simulation reached failure, 0 with the bound that a count or `least` gives. Not trusted.
/// Same key: same bits, whatever `running` says.
/// @throws Interrupted; whatever the limit state throws
RareOdds rare_odds(const LimitState& state, const RareOptions& options, std::uint64_t key, const Running& running = {});

/// The same failure under two laws, as two normal frictions against two lognormal ones: how far the odds lean on the
/// shape of the tails. The same key serves both, so that what differs is the law.
/// @return  {odds under `law`, odds under `other`}
std::pair<RareOdds, RareOdds> under_two_laws(const Law& law, const Law& other, const BlockModel& model,
                                             std::size_t output, double least, const RareOptions& options,
                                             std::uint64_t key, const Running& running = {});

}  // namespace engine::rare
