#pragma once
/// What stands between a model and a search library: nothing that the library says of a point is taken on trust.
#include <chrono>
#include <exception>

#include "engine/search/box.hpp"

namespace engine {

/// Thrown through the library to end a search; `Watch` knows why.
struct StopSearch {};

/// Calls the model for a search: once a point, within the caps, with values that a library can bear; remembers the best
/// point and what the model threw.
class Watch {
public:
  Watch(const BoxProblem& problem, const BoxOptions& options);

  /// Value at a point, of which objective and constraints share one call; bounded by 1e30 and never NaN. `beyond` is
  /// not added.
  /// @throws StopSearch when a cap is reached, on an interrupt, or when the model threw
  const BoxProblem::Value& at(const std::vector<double>& x);

  /// The best point seen, its value taken from the model anew unless the model was called there last.
  /// @param ended  how the library says that it ended; caps, interrupts and feasibility outrank it
  /// @throws what the model threw; std::logic_error when the model gives another value than before
  BoxMinimum answer(BoxMinimum::Status ended);

private:
  void stop_where_due();
  BoxProblem::Value called(const std::vector<double>& x);
  void remember(const std::vector<double>& x);

  const BoxProblem& problem_;
  const BoxOptions& options_;
  std::chrono::steady_clock::time_point started_;
  std::vector<double> last_x_;
  BoxProblem::Value last_;
  BoxMinimum best_;
  std::exception_ptr failure_;
  bool stopped_ = false;
  BoxMinimum::Status why_ = BoxMinimum::Status::capped;
};

}  // namespace engine
