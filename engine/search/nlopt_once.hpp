#pragma once
/// The only room that sees NLopt, wrapped so that no algorithm can lie: what it returns is re-evaluated here.
#include <functional>
#include <vector>

namespace engine {

/// A smooth-enough problem in a box: least objective with every constraint at or below 0.
struct BoxProblem {
  std::vector<double> lower, upper;
  struct Value {
    double objective = 0;
    std::vector<double> constraints;  ///< ≤ 0 where they hold
  };
  std::size_t constraints = 0;
  /// Objective and constraints at one point; called once a point. An objective that is not finite, or a constraint that
  /// is not a number, counts as very bad.
  std::function<Value(const std::vector<double>&)> evaluate;
};

struct BoxOptions {
  int evaluations = 400;    ///< a start; raise when `status` says a cap was reached
  double tolerance = 1e-7;  ///< relative change of the point at which a search stops
  double feasible = 0;      ///< a point holds when no constraint is above this
};

struct BoxMinimum {
  enum class Status { converged, capped, nothing_feasible };
  Status status = Status::nothing_feasible;
  std::vector<double> x;  ///< best point that holds; the least bad where none does
  double objective = 0;
  double violation = 0;  ///< largest constraint above 0
  int calls = 0;
};

/// COBYLA from one start: derivative-free, since a quantile over passes has no smooth derivative.
/// @throws whatever `evaluate` throws
/// @source Powell (1994), as NLopt carries it
BoxMinimum minimise(const BoxProblem& problem, const std::vector<double>& start, const BoxOptions& options = {});

}  // namespace engine
