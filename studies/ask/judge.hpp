#pragma once
/// Judging candidates on one fixed set of passes that all of them share, so that their differences are their own.
#include <atomic>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <vector>

#include "engine/draw/plan.hpp"
#include "engine/pass/loop.hpp"
#include "models/screw/screw_model.hpp"
#include "studies/ask/candidates.hpp"

namespace studies {

/// Input law of a surface and its passes: held in memory while they are few, drawn anew each time where they are many.
struct SharedInputs {
  InputLaw inputs;
  engine::Plan plan;
  std::vector<engine::Block> held;  ///< one a block of the plan, or empty
};

/// What all the passes say of a design: the margin judged of every limit, and how many passes miss it.
struct Judgement {
  std::vector<double> nominal;  ///< margin of each limit at nominal
  std::vector<double> judged;   ///< the margin judged: at its odds, or nominal
  std::vector<bool> holds;
  bool all() const;
  std::optional<std::size_t> first_missed() const;  ///< index into the study's limits
};

/// The passes shared by all candidates of one search.
class SharedPasses {
public:
  /// @param count    passes of a batch asked for, rounded up to whole nets
  /// @param interrupted  looked at between blocks; Interrupted is thrown when it is set
  /// @param batches  whose passes they are
  /// @param hold     passes that the set holds in memory for each surface; a larger one is drawn anew, since drawing is
  ///                 cheap and memory is not. More where one surface is judged again and again.
  SharedPasses(const Study& study, engine::Plan::Kind kind, std::uint64_t count, engine::Stream stream,
               const std::atomic<bool>* interrupted = nullptr, engine::Batches batches = {},
               std::uint64_t hold = held_passes);

  /// The same passes under a study that has something typed otherwise.
  /// @param drawn_alike  nothing that scatters is: what `other` draws serves both, and `other` must outlive this
  SharedPasses(const Study& study, const SharedPasses& other, bool drawn_alike);

  std::uint64_t passes() const { return count_; }
  const SharedInputs& inputs(const Candidate& candidate) const;
  models::ScrewModel model(const Candidate& candidate, const models::Design& design) const;

  /// Whether all limits hold, stopping at the miss that decides it.
  /// @param odds  asked of each limit; those of the study, or tightened
  bool passes_all(const Candidate& candidate, const models::Design& design,
                  const std::vector<std::optional<double>>& odds) const;
  /// The same with the screw's free length held at a value of its own: a best case, when that is the shortest there is.
  bool passes_all(const Candidate& candidate, const models::Design& design,
                  const std::vector<std::optional<double>>& odds, double free_length) const;
  /// Share of the passes on which each limit holds; 1 or 0 for limits at nominal.
  std::vector<double> shares(const Candidate& candidate, const models::Design& design) const;
  Judgement judge(const Candidate& candidate, const models::Design& design,
                  const std::vector<std::optional<double>>& odds) const;
  /// All margins of the passes, one row a limit, for those who sort them: not for sets too large to be held.
  std::vector<std::vector<double>> margins(const Candidate& candidate, const models::Design& design) const;

  /// All outputs and margins at nominal: one call.
  std::vector<double> nominal(const Candidate& candidate, const models::ScrewModel& screw) const;
  /// Whether the passes are held in memory.
  bool held() const { return count_ <= hold_; }
  /// Calls made for this set by others.
  void count_calls(std::uint64_t calls) const { calls_ += calls; }
  std::uint64_t calls() const { return calls_; }
  const Study& study() const { return study_; }
  const std::atomic<bool>* interrupted() const { return interrupted_; }

private:
  static constexpr std::uint64_t held_passes = 65536;

  /// Calls `use(margins, passes)` block by block until it says false.
  template <class Use>
  void each_block(const Candidate& candidate, const models::ScrewModel& screw, Use use) const;
  bool passes_all(const Candidate& candidate, const models::ScrewModel& screw,
                  const std::vector<std::optional<double>>& odds) const;
  /// The margin that odds ask of each limit: nominal where none are asked.
  std::vector<double> judged(const Candidate& candidate, const models::Design& design, std::vector<double> nominal,
                             const std::vector<std::optional<double>>& odds) const;

  const Study& study_;
  engine::Plan::Kind kind_;
  std::uint64_t count_, a_batch_;
  engine::Stream stream_;
  const std::atomic<bool>* interrupted_;
  engine::Batches batches_;
  std::uint64_t hold_;
  const SharedPasses* drawn_by_ = nullptr;  ///< whose inputs serve; null: its own
  mutable std::mutex mutex_;
  mutable std::map<std::pair<std::size_t, double>, std::unique_ptr<SharedInputs>> inputs_;
  mutable std::atomic<std::uint64_t> calls_ = 0;
};

/// The plan that a study's verdict is taken on.
engine::Plan::Kind plan_kind(const Study& study);

/// The odds that a study asks, limit by limit.
std::vector<std::optional<double>> asked_odds(const Study& study);

/// Odds so much lower that whoever misses them on these passes misses the odds asked on any: five standard deviations
/// of plain passes, which even ones scatter no more than. Limits at nominal stay.
std::vector<std::optional<double>> loosened(std::vector<std::optional<double>> odds, std::uint64_t passes);

/// Order statistic that odds ask of margins: the largest value that at least `odds` of them reach.
double reached_by(std::vector<double> margins, double odds);

}  // namespace studies
