#include "engine/search/watch.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace engine {
namespace {

using Status = BoxMinimum::Status;

constexpr double very_bad = 1e30;

bool bears_numbers(const std::vector<double>& x) {
  return std::none_of(x.begin(), x.end(), [](double v) { return std::isnan(v); });
}

}  // namespace

const char* words(Status status) {
  switch (status) {
    case Status::converged:
      return "converged";
    case Status::capped:
      return "evaluation cap";
    case Status::roundoff:
      return "roundoff";
    case Status::failed:
      return "failed";
    case Status::nothing_feasible:
      return "nothing feasible";
    case Status::timed_out:
      return "time cap";
    case Status::interrupted:
      return "interrupted";
  }
  return "";
}

bool better(const BoxMinimum& a, const BoxMinimum& b) {
  if (a.x.empty() || b.x.empty()) return !a.x.empty();
  if (a.holds != b.holds) return a.holds;
  return a.holds ? a.objective < b.objective : a.violation < b.violation;
}

Watch::Watch(const BoxProblem& problem, const BoxOptions& options)
    : problem_(problem), options_(options), started_(std::chrono::steady_clock::now()) {}

void Watch::stop_where_due() {
  const auto stop = [this](Status why) {
    stopped_ = true;
    why_ = why;
    throw StopSearch{};
  };
  if (failure_) throw StopSearch{};
  if (options_.interrupted && *options_.interrupted) stop(Status::interrupted);
  if (best_.calls >= std::max(1, options_.evaluations - 1)) stop(Status::capped);
  const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - started_;
  if (options_.seconds > 0 && spent.count() >= options_.seconds) stop(Status::timed_out);
}

BoxProblem::Value Watch::called(const std::vector<double>& x) {
  ++best_.calls;
  try {
    BoxProblem::Value value = problem_.evaluate(x);
    if (value.constraints.size() != problem_.constraints)
      throw std::logic_error("the model gave another number of constraints than the problem has");
    return value;
  } catch (...) {
    failure_ = std::current_exception();
    throw StopSearch{};
  }
}

const BoxProblem::Value& Watch::at(const std::vector<double>& x) {
  if (x == last_x_) return last_;
  stop_where_due();
  if (!bears_numbers(x)) {  // the library has lost its way: no model need bear that
    last_ = {very_bad, std::vector<double>(problem_.constraints, very_bad)};
    return last_;
  }
  last_ = called(x);
  last_x_ = x;
  bool missing = !std::isfinite(last_.objective);
  if (missing) last_.objective = very_bad;
  for (double& c : last_.constraints) {
    missing = missing || std::isnan(c);
    c = std::isnan(c) ? very_bad : std::clamp(c, -very_bad, very_bad);
  }
  if (missing) ++best_.missing;
  remember(x);
  return last_;
}

void Watch::remember(const std::vector<double>& x) {
  BoxMinimum now;
  for (const double c : last_.constraints) now.violation = std::max(now.violation, c);
  now.x = x;
  now.objective = last_.objective;
  now.holds = now.violation <= options_.feasible && now.objective < very_bad;
  if (!better(now, best_)) return;
  now.calls = best_.calls;
  now.missing = best_.missing;
  best_ = std::move(now);
}

BoxMinimum Watch::answer(Status ended) {
  if (failure_) std::rethrow_exception(failure_);
  BoxMinimum answer = best_;
  answer.status = stopped_ ? why_ : ended;
  if (!answer.holds && !cut_short(answer.status)) answer.status = Status::nothing_feasible;
  if (!answer.holds || answer.x == last_x_) return answer;
  const BoxProblem::Value again = problem_.evaluate(answer.x);
  ++answer.calls;
  double violation = 0;
  for (const double c : again.constraints) violation = std::max(violation, std::min(c, very_bad));
  if (again.objective != answer.objective || violation != answer.violation)
    throw std::logic_error("the model gave two values at one point");
  return answer;
}

}  // namespace engine
