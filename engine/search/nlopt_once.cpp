#include "engine/search/nlopt_once.hpp"

#include <algorithm>
#include <cmath>
#include <exception>
#include <nlopt.hpp>

namespace engine {
namespace {

constexpr double very_bad = 1e30;

/// One search: remembers the last point, so that objective and constraints share a call, and the best point seen.
struct Watched {
  const BoxProblem& problem;
  const BoxOptions& options;
  std::vector<double> last_x;
  BoxProblem::Value last;
  BoxMinimum best;
  std::exception_ptr failure;

  const BoxProblem::Value& at(const std::vector<double>& x) {
    if (x == last_x) return last;
    last = problem.evaluate(x);
    last_x = x;
    ++best.calls;
    if (!std::isfinite(last.objective)) last.objective = very_bad;
    for (double& c : last.constraints) c = std::isnan(c) ? very_bad : std::clamp(c, -very_bad, very_bad);
    remember(x);
    return last;
  }

  void remember(const std::vector<double>& x) {
    double violation = 0;
    for (const double c : last.constraints) violation = std::max(violation, c);
    const bool holds = violation <= options.feasible, held = best.status != BoxMinimum::Status::nothing_feasible;
    const bool better =
        holds ? !held || last.objective < best.objective : !held && (best.x.empty() || violation < best.violation);
    if (!better) return;
    best.x = x;
    best.objective = last.objective;
    best.violation = violation;
    if (holds) best.status = BoxMinimum::Status::converged;
  }
};

struct Handle {
  Watched* watched;
  std::size_t constraint;
};

double value(unsigned n, const double* x, Watched& watched, std::size_t constraint, bool objective) {
  try {
    const BoxProblem::Value& v = watched.at(std::vector<double>(x, x + n));
    return objective ? v.objective : v.constraints[constraint];
  } catch (...) {
    watched.failure = std::current_exception();
    throw nlopt::forced_stop();
  }
}

double objective(unsigned n, const double* x, double*, void* data) {
  return value(n, x, *static_cast<Watched*>(data), 0, true);
}

double constraint(unsigned n, const double* x, double*, void* data) {
  const auto* handle = static_cast<Handle*>(data);
  return value(n, x, *handle->watched, handle->constraint, false);
}

}  // namespace

BoxMinimum minimise(const BoxProblem& problem, const std::vector<double>& start, const BoxOptions& options) {
  Watched watched{problem, options, {}, {}, {}, {}};
  std::vector<Handle> handles;
  for (std::size_t k = 0; k < problem.constraints; ++k) handles.push_back({&watched, k});
  nlopt::opt search(nlopt::LN_COBYLA, static_cast<unsigned>(start.size()));
  search.set_lower_bounds(problem.lower);
  search.set_upper_bounds(problem.upper);
  search.set_min_objective(objective, &watched);
  for (Handle& handle : handles) search.add_inequality_constraint(constraint, &handle, 0);
  search.set_xtol_rel(options.tolerance);
  search.set_maxeval(options.evaluations);
  std::vector<double> x = start;
  bool capped = false;
  try {
    double f = 0;
    capped = search.optimize(x, f) == nlopt::MAXEVAL_REACHED;
  } catch (const nlopt::roundoff_limited&) {  // at the optimum as a rule; the best point seen stands
  } catch (const nlopt::forced_stop&) {
  } catch (const std::runtime_error&) {  // NLopt's bare failure: the best point seen stands
  }
  if (watched.failure) std::rethrow_exception(watched.failure);
  if (capped && watched.best.status == BoxMinimum::Status::converged) watched.best.status = BoxMinimum::Status::capped;
  return watched.best;
}

}  // namespace engine
