#pragma once
/// A continuous problem in a box, and what a search made of it.
#include <atomic>
#include <cstdint>
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
  /// Objective and constraints at one point; a pure function, called once a point. An objective that is not finite, or
  /// a constraint that is not a number, counts as very bad.
  std::function<Value(const std::vector<double>&)> evaluate;
};

enum class Method {
  linear_models,  ///< COBYLA: asks for no slopes, so that the kinks of quantiles do no harm
  slopes,         ///< SLSQP on central differences: exact and quick on smooth problems
  evolution       ///< ISRES: global and random, never exact; needs a finite box and stops at the evaluation cap
};

struct BoxOptions {
  int evaluations = 400;    ///< most calls, one of which confirms the answer; raise when `status` tells of it
  double tolerance = 1e-7;  ///< relative change of the point at which a search stops
  double feasible = 0;      ///< a point holds when no constraint is above this
  Method method = Method::linear_models;
  /// Asked beyond every constraint inside the search, so that rounding lands on the side that holds; `slopes` needs it
  /// where `feasible` is 0, as its last steps may come from outside.
  double beyond = 0;
  double difference = 1e-6;  ///< step of a slope, as a share of the box's side; raise where the model is noisy
  /// First step, as a share of the box's side, 0 for the method's own; a small one keeps a search near a good start.
  double first_step = 0;
  double seconds = 0;     ///< most time, 0 for no cap; an answer that met it depends on the machine and says so
  std::uint64_t key = 1;  ///< of the random numbers of `evolution`
  const std::atomic<bool>* interrupted = nullptr;  ///< set from outside: stop soon
};

struct BoxMinimum {
  /// How a search ended. The last two outrank `nothing_feasible`, which a longer search might have belied.
  enum class Status {
    converged,         ///< the method's own criterion was met
    capped,            ///< evaluation cap
    roundoff,          ///< no further progress in floating point: at the optimum as a rule
    failed,            ///< the method gave up; the best point seen stands
    nothing_feasible,  ///< no point seen holds
    timed_out,         ///< time cap: the same search elsewhere may give another answer
    interrupted        ///< from outside
  };
  Status status = Status::nothing_feasible;
  std::vector<double> x;  ///< best point that holds; the least bad where none does
  double objective = 0;
  double violation = 0;  ///< largest constraint above 0
  int calls = 0;         ///< of the model, all told
  int missing = 0;       ///< points without an objective, or with a constraint that is not a number
  bool holds = false;    ///< no constraint is above `BoxOptions::feasible`
};

/// Status in words: "converged", "evaluation cap", …
const char* words(BoxMinimum::Status status);
/// Whether a search was ended by what is no part of the problem: elsewhere it may answer otherwise.
inline bool cut_short(BoxMinimum::Status status) {
  return status == BoxMinimum::Status::timed_out || status == BoxMinimum::Status::interrupted;
}
/// Whether `a` is the better answer: one that holds before one that does not, then the lesser objective, or violation.
bool better(const BoxMinimum& a, const BoxMinimum& b);

}  // namespace engine
