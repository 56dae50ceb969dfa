#include "tests/bench/stages.hpp"

#include "engine/draw/block_math.hpp"
#include "engine/pass/sweep.hpp"
#include "engine/summary/block_counts.hpp"
#include "engine/summary/tally.hpp"
#include "tests/bench/standard.hpp"
#include "tests/bench/timing.hpp"

namespace bench {
namespace {

using namespace engine;

volatile double sink;

/// Stages over one block of a plan's, again and again: the block lies where the loop has it, close to the processor.
class Stages {
public:
  Stages(const Work& work, std::uint64_t passes, int repeats)
      : work_(work),
        plan_(Plan::Kind::sobol, work.law.dimensions(), passes, 1, Stream::test),
        scratch_({plan_, work.law, *work.model}),
        rounds_(std::max<std::uint64_t>(1, passes / block_size)),
        repeats_(repeats) {
    pass_block({plan_, work_.law, *work_.model}, 0, scratch_);
  }

  /// @return  what it took, for all passes
  template <class Do>
  double stage(const std::string& what, Do work) {
    const Taken taken = timed(repeats_, processor_now, [&] {
      for (std::uint64_t r = 0; r < rounds_; ++r) work(r);
    });
    say(what, taken, rounds_ * block_size, 0);
    return taken.best;
  }

  double loop_stages() {
    const std::size_t outputs = work_.model->outputs(), n = block_size;
    double sum = stage("plan: uniforms of a Sobol' net", [&](auto r) { plan_.fill(r % plan_.blocks(), scratch_.u); });
    sum += stage("law: uniforms to inputs",
                 [&](auto) { work_.law.transform(scratch_.u, scratch_.x, n, scratch_.clipped); });
    sum += stage("model: inputs to outputs", [&](auto) { work_.model->evaluate(scratch_.x, scratch_.y, n); });
    std::vector<Moments> moments(outputs);
    sum += stage("moments and extremes of all outputs", [&](auto) {
      for (std::size_t k = 0; k < outputs; ++k) moments[k].merge(Moments::of(scratch_.y.row(k), n));
    });
    std::vector<Tally> tallies(outputs);
    std::vector<Histogram> bins;
    for (const Moments& m : moments)
      bins.emplace_back(m.least - (m.most - m.least) / 2, m.most + (m.most - m.least) / 2);
    sum += stage("histograms of all outputs, 4096 bins", [&](auto) {
      for (std::size_t k = 0; k < outputs; ++k) tallies[k].add(bins[k], scratch_.y.row(k), n);
    });
    sum += stage("misses of the limits", [&](auto) {
      for (const Threshold& t : work_.counts.thresholds)
        sink = static_cast<double>(block_counts().reach(scratch_.y.row(t.output), t.least, n));
    });
    return sum;
  }

  void parts_of_law() {
    const BlockMath& math = block_math();
    Block v(1);
    const auto fresh = [&](std::uint64_t r) {
      std::copy_n(scratch_.u.row(r % scratch_.u.rows()), block_size, v.row(0));
      return v.row(0);
    };
    stage("of which a copy of one row", fresh);
    stage("  copy and one row of normal quantiles", [&](auto r) { math.normal_quantile(fresh(r), block_size); });
    stage("  copy and one row of exponentials", [&](auto r) { math.exp(fresh(r), block_size); });
    stage("  copy and one row of uniforms", [&](auto r) { math.uniform(fresh(r), 1, 2, block_size); });
  }

  /// Nanoseconds of one operation: the loop has `many` a number.
  void bound(const std::string& what, void (*loop)(const double*, double*, std::size_t), double many) {
    Block y(1);
    const Taken taken = timed(repeats_, processor_now, [&] {
      for (std::uint64_t r = 0; r < rounds_; ++r) loop(scratch_.u.row(0), y.row(0), block_size);
    });
    const double each = taken.best / static_cast<double>(rounds_ * block_size) / many * 1e9;
    fmt::print("  {:<60} {:8.3f} ns each\n", what, each);
    sink = y.row(0)[0];
  }

private:
  const Work& work_;
  Plan plan_;
  Scratch scratch_;
  std::uint64_t rounds_;
  int repeats_;
};

}  // namespace

void stage_table(const Work& work, std::uint64_t passes, int repeats) {
  Stages stages(work, passes, repeats);
  const double sum = stages.loop_stages();
  say("sum of the stages", {sum, sum}, passes, 0);
  const Plan plan(Plan::Kind::sobol, work.law.dimensions(), passes, 1, Stream::test);
  const auto whole = [&](const Ask& ask) {
    return timed(repeats, processor_now,
                 [&] { sink = survey(plan, work.law, *work.model, ask, 1, {}).moments[0].mean; });
  };
  const Taken one = whole(work.counts), two = whole(work.ranks);
  say("the product's loop: all of these, pilot and commits", one, passes, 0);
  say("second sweep, for exact ranks: the rest of a survey", {two.best - one.best, two.median - one.median}, passes, 0);
  stages.parts_of_law();
  stages.bound("bound: a division", loops_in_use().divide, 8);
  stages.bound("bound: a square root", loops_in_use().root, 8);
  stages.bound("bound: a multiplication and an addition", loops_in_use().add_multiply, 32);
}

}  // namespace bench
