#include "engine/search/nlopt_once.hpp"

#include <algorithm>
#include <cmath>
#include <nlopt.hpp>
#include <stdexcept>

#include "engine/draw/counter.hpp"
#include "engine/search/watch.hpp"

namespace engine {
namespace {

using Status = BoxMinimum::Status;
using Point = std::vector<double>;

/// One search as the library's callbacks see it: constraint 0 … m − 1, or the objective, at a point.
struct Search {
  const BoxProblem& problem;
  const BoxOptions& options;
  Watch watch;
  Point here_x, sloped_x;  ///< where `here` and `sloped` were taken
  BoxProblem::Value here;
  std::vector<std::pair<BoxProblem::Value, BoxProblem::Value>> sloped;  ///< above and below on each side

  /// The library's point, brought back into the box where rounding left it outside.
  Point inside(const double* x, std::size_t n) const {
    Point at(x, x + n);
    for (std::size_t d = 0; d < n; ++d) at[d] = std::min(std::max(at[d], problem.lower[d]), problem.upper[d]);
    return at;
  }

  void look_at(const Point& x) {
    if (x == here_x) return;
    here = watch.at(x);
    here_x = x;
  }

  /// Central differences, whose error falls with the square of the step; one-sided at the box's border.
  void slope_at(const Point& x) {
    if (x == sloped_x) return;
    sloped.clear();
    for (std::size_t d = 0; d < x.size(); ++d) {
      const auto [down, up] = steps(x, d);
      Point to = x;
      to[d] = up;
      BoxProblem::Value above = up > x[d] ? watch.at(to) : here;
      to[d] = down;
      sloped.emplace_back(std::move(above), down < x[d] ? watch.at(to) : here);
    }
    sloped_x = x;
  }

  /// The two coordinates that a slope is taken between.
  std::pair<double, double> steps(const Point& x, std::size_t d) const {
    const double side = problem.upper[d] - problem.lower[d];
    const double h = options.difference * (std::isfinite(side) ? side : std::max(1.0, std::abs(x[d])));
    return {std::max(x[d] - h, problem.lower[d]), std::min(x[d] + h, problem.upper[d])};
  }
};

struct Part {
  Search* search;
  std::size_t constraint;  ///< of the objective: beyond all
  bool objective(const BoxProblem::Value& v) const { return constraint >= v.constraints.size(); }
  double of(const BoxProblem::Value& v) const { return objective(v) ? v.objective : v.constraints[constraint]; }
};

/// What NLopt calls; a model's failure and a cap go through it as its own forced stop.
double value(unsigned n, const double* x, double* gradient, void* data) {
  const Part& part = *static_cast<Part*>(data);
  Search& search = *part.search;
  try {
    const Point at = search.inside(x, n);
    search.look_at(at);
    if (gradient) {
      search.slope_at(at);
      for (std::size_t d = 0; d < n; ++d) {
        const auto [down, up] = search.steps(at, d);
        const auto& [above, below] = search.sloped[d];
        gradient[d] = up > down ? (part.of(above) - part.of(below)) / (up - down) : 0;
      }
    }
    return part.of(search.here) + (part.objective(search.here) ? 0 : search.options.beyond);
  } catch (const StopSearch&) {
    throw nlopt::forced_stop();
  }
}

nlopt::algorithm algorithm(Method method) {
  switch (method) {
    case Method::slopes:
      return nlopt::LD_SLSQP;
    case Method::evolution:
      return nlopt::GN_ISRES;
    case Method::linear_models:
      break;
  }
  return nlopt::LN_COBYLA;
}

void check(const BoxProblem& problem, const Point& start, Method method) {
  const std::size_t n = start.size();
  if (n == 0 || problem.lower.size() != n || problem.upper.size() != n)
    throw std::invalid_argument("a box has as many sides as its start has coordinates");
  for (std::size_t d = 0; d < n; ++d) {
    if (!(problem.lower[d] <= problem.upper[d])) throw std::invalid_argument("a box's lower side lies above its upper");
    if (method == Method::evolution && !std::isfinite(problem.upper[d] - problem.lower[d]))
      throw std::invalid_argument("evolution needs a finite box");
    if (std::isnan(start[d])) throw std::invalid_argument("a start is not a number");
  }
}

/// A step along each side; NLopt refuses one of no length.
Point first_steps(const BoxProblem& problem, double share) {
  Point steps;
  for (std::size_t d = 0; d < problem.lower.size(); ++d) {
    const double side = problem.upper[d] - problem.lower[d];
    steps.push_back(share * (side > 0 && std::isfinite(side) ? side : 1));
  }
  return steps;
}

/// How NLopt says that it ended.
Status run(nlopt::opt& search, Point x) {
  try {
    double f = 0;
    return search.optimize(x, f) == nlopt::MAXEVAL_REACHED ? Status::capped : Status::converged;
  } catch (const nlopt::roundoff_limited&) {
    return Status::roundoff;
  } catch (const nlopt::forced_stop&) {
    return Status::capped;  // Watch knows better
  } catch (const std::runtime_error&) {
    return Status::failed;
  }
}

}  // namespace

BoxMinimum minimise(const BoxProblem& problem, const std::vector<double>& start, const BoxOptions& options) {
  check(problem, start, options.method);
  const std::size_t n = start.size();
  Point x = start;
  for (std::size_t d = 0; d < n; ++d) x[d] = std::clamp(x[d], problem.lower[d], problem.upper[d]);
  Search state{problem, options, Watch(problem, options), {}, {}, {}, {}};
  std::vector<Part> parts;
  for (std::size_t k = 0; k <= problem.constraints; ++k) parts.push_back({&state, k});
  nlopt::opt search(algorithm(options.method), static_cast<unsigned>(n));
  search.set_lower_bounds(problem.lower);
  search.set_upper_bounds(problem.upper);
  search.set_min_objective(value, &parts.back());
  for (std::size_t k = 0; k < problem.constraints; ++k) search.add_inequality_constraint(value, &parts[k], 0);
  search.set_xtol_rel(options.tolerance);
  search.set_maxeval(
      std::max(1, options.evaluations));  // Watch counts calls: this ends a search that asks no new point
  if (options.first_step > 0) search.set_initial_step(first_steps(problem, options.first_step));
  // NLopt's random numbers are one state a thread, of 32 bits of seed: set anew by every search that draws any.
  if (options.method == Method::evolution) nlopt::srand(threefry({n, 0}, {options.key, 0})[0] & 0xffffffffu);
  const Status ended = run(search, x);
  return state.watch.answer(ended);
}

}  // namespace engine
