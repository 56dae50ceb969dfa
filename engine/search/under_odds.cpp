#include "engine/search/under_odds.hpp"

#include <algorithm>
#include <stdexcept>

#include "engine/rare/proposal.hpp"

namespace engine {
namespace {

using Passes = std::shared_ptr<const MarginPasses>;
using Draw = SampledProblem::Draw;

/// One margin of one design as a limit state.
class OneMargin : public rare::LimitState {
public:
  OneMargin(const OddsProblem& problem, const std::vector<double>& x, std::size_t k)
      : problem_(problem), x_(x), k_(k) {}
  std::size_t dimension() const override { return problem_.normals; }
  void evaluate(const Block& u, double* g, std::size_t n) const override {
    Block all(problem_.allowed.size());
    problem_.margins(x_, u, all, n);
    std::copy_n(all.row(k_), n, g);
  }

private:
  const OddsProblem& problem_;
  const std::vector<double>& x_;
  std::size_t k_;
};

/// Key of a replicate's passes.
std::uint64_t key_of(std::uint64_t key, std::uint64_t replicate) {
  return threefry({replicate, 2}, {key, static_cast<std::uint64_t>(Stream::search)})[0];
}

Passes counted(const OddsProblem& problem, const Draw& draw, std::uint64_t key) {
  auto passes = std::make_shared<MarginPasses>();
  for (std::uint64_t r = draw.first; r < draw.first + draw.count; ++r)
    passes->add(Plan(Plan::Kind::sobol, problem.normals, draw.passes, key_of(key, r), Stream::search), problem.normals);
  return passes;
}

Passes drawn_for(const OddsProblem& problem, std::size_t k, const Draw& draw, const std::vector<double>& near,
                 std::uint64_t key) {
  const OneMargin state(problem, near, k);
  const rare::FirstOrder first = rare::design_points(state, {}, {}, key);
  const rare::Mixture mixture = rare::proposal(first, {}, problem.normals);
  auto passes = std::make_shared<MarginPasses>();
  for (std::uint64_t r = draw.first; r < draw.first + draw.count; ++r)
    passes->add(mixture, problem.normals, draw.passes, key_of(key, r), k);
  return passes;
}

void check(const OddsProblem& problem) {
  if (problem.normals == 0) throw std::invalid_argument("nothing scatters: there are no odds to keep to");
  for (const double p : problem.allowed)
    if (!(p > 0 && p < 1)) throw std::invalid_argument("allowed odds lie between 0 and 1");
}

}  // namespace

SampledProblem sampled(const OddsProblem& problem, std::uint64_t key, double rare) {
  SampledProblem made;
  made.follows = std::any_of(problem.allowed.begin(), problem.allowed.end(), [&](double p) { return p < rare; });
  made.on = [&problem, key, rare](const Draw& draw, const std::vector<double>& near) {
    std::vector<Passes> passes;
    Passes shared;
    for (std::size_t k = 0; k < problem.allowed.size(); ++k) {
      if (problem.allowed[k] < rare) {
        passes.push_back(drawn_for(problem, k, draw, near, key));
        continue;
      }
      if (!shared) shared = counted(problem, draw, key);
      passes.push_back(shared);
    }
    return on_passes(problem, passes);
  };
  return made;
}

OddsMinimum minimise_under_odds(const OddsProblem& problem, const OddsOptions& options) {
  check(problem);
  OddsMinimum answer;
  const std::uint64_t key = options.coarse.key;
  OddsProblem eased = problem;
  for (double& p : eased.allowed) p = std::max(p, 8 / static_cast<double>(options.coarse_passes));
  const BoxProblem coarse = sampled(eased, key, 0).on({options.coarse_passes, 0, 1}, {});
  answer.coarse = minimise_globally(coarse, options.coarse);
  answer.refined.best = answer.coarse.best;
  if (cut_short(answer.coarse.best.status) || answer.coarse.best.x.empty()) return answer;
  answer.refined = refine(sampled(problem, key, options.rare), answer.coarse.best.x, options.refined);
  return answer;
}

}  // namespace engine
