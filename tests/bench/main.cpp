/// How fast the product's own pass loop is, beside NumPy and a plain loop: screwtiny_bench [PASSES [REPEATS]] [--long]
#include <fmt/format.h>
#include <sys/resource.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <optional>
#include <string>
#include <vector>

#include "engine/lanes/instructions.hpp"
#include "tests/bench/plain_loop.hpp"
#include "tests/bench/stages.hpp"
#include "tests/bench/timing.hpp"
#include "tests/bench/works.hpp"

namespace {

using namespace bench;
using engine::Plan;

volatile double sink;

Taken survey_time(const Work& work, const engine::Ask& ask, Plan::Kind kind, std::uint64_t passes, unsigned threads,
                  int repeats, double (*now)() = processor_now) {
  const Plan plan(kind, work.law.dimensions(), passes, 1, engine::Stream::test);
  return timed(repeats, now, [&] {
    sink = engine::survey(plan, work.law, *work.model, ask, 1, {threads, {}, nullptr}).moments[0].mean;
  });
}

struct NumPy {
  Taken counts, ranks;  ///< with histograms, with quantiles of each chunk
};

/// Processor seconds of baseline.py; nothing where it does not run.
std::optional<NumPy> numpy_time(std::uint64_t passes, std::uint64_t chunk, const char* generator, int repeats) {
  std::vector<double> counts, ranks;
  for (int r = 0; r < repeats; ++r) {
    const std::string call =
        fmt::format("{} {} {} {} {}", SCREWTINY_PYTHON, SCREWTINY_BASELINE, passes, chunk, generator);
    FILE* out = popen(call.c_str(), "r");
    double with_counts = 0, with_ranks = 0;
    if (out && std::fscanf(out, "%lf %lf", &with_counts, &with_ranks) == 2)
      counts.push_back(with_counts), ranks.push_back(with_ranks);
    if (out) pclose(out);
  }
  if (counts.empty()) return {};
  return NumPy{of(counts), of(ranks)};
}

/// The better of two chunks, as default_rng() has it, which the ratios are taken against; that of another generator is
/// printed beside it.
NumPy numpy_rows(std::uint64_t passes, int repeats) {
  NumPy reference{};
  for (const char* generator : {"default", "SFC64"}) {
    std::optional<NumPy> better;
    for (const std::uint64_t chunk : {8192u, 65536u})
      if (const auto t = numpy_time(passes, chunk, generator, repeats); t)
        if (!better || t->counts.best < better->counts.best) better = t;
    if (!better) continue;
    if (reference.counts.best == 0) reference = *better;
    say(fmt::format("NumPy, {}, moments and histograms", generator), better->counts, passes, reference.counts.best);
    say(fmt::format("NumPy, {}, moments and quantiles of each chunk", generator), better->ranks, passes,
        reference.counts.best);
  }
  return reference;
}

std::array<double, 24> plain_ranges(const Work& work) {
  const Plan plan(Plan::Kind::plain, 8, 4096, 1, engine::Stream::pilot);
  const engine::Survey pilot = engine::survey(plan, work.law, *work.model, work.counts, 1, {});
  std::array<double, 24> ranges;
  for (std::size_t k = 0; k < output_count; ++k) {
    const engine::Moments& m = pilot.moments[k];
    ranges[2 * k] = m.least - (m.most - m.least) / 2;
    ranges[2 * k + 1] = m.most + (m.most - m.least) / 2;
  }
  return ranges;
}

/// The largest relative difference between the model as written and as the block loop has it.
double models_apart(const Work& lean, const Work& written) {
  const Plan plan(Plan::Kind::plain, 8, 65536, 1, engine::Stream::test);
  engine::Ask ask;
  ask.keep = true;
  const auto one = engine::survey(plan, lean.law, *lean.model, ask, 1, {}).kept_outputs,
             other = engine::survey(plan, written.law, *written.model, ask, 1, {}).kept_outputs;
  double most = 0;
  for (std::size_t k = 0; k < output_count; ++k)
    for (std::size_t i = 0; i < one[k].size(); ++i)
      most = std::max(most, std::abs(one[k][i] - other[k][i]) / std::abs(other[k][i]));
  return most;
}

void standard_table(std::uint64_t passes, int repeats) {
  const Work work = standard_work(), written = standard_work(false);
  fmt::print("Standard workload, 8 inputs and 12 outputs, one core, processor time, best and median of {}\n", repeats);
  fmt::print("x: best against NumPy's default generator with histograms, which is the same summary\n");
  const NumPy numpy = numpy_rows(passes, repeats);
  const std::array<double, 24> ranges = plain_ranges(work);
  const double reference = numpy.counts.best;
  const Taken plain = timed(repeats, processor_now, [&] { sink = plain_loop(passes, ranges)[0].mean; });
  say("plain loop, std:: distributions, histograms", plain, passes, reference);
  for (const engine::Instructions set : engine::available_instructions()) {
    engine::use_instructions(set);
    for (const auto& [kind, word] : {std::pair(Plan::Kind::plain, "plain"), std::pair(Plan::Kind::sobol, "sobol")}) {
      const Taken one = survey_time(work, work.counts, kind, passes, 1, repeats),
                  two = survey_time(work, work.ranks, kind, passes, 1, repeats);
      say(fmt::format("survey, {} {}, moments and histograms", name(set), word), one, passes, reference);
      say(fmt::format("survey, {} {}, exact quantiles and bounds too", name(set), word), two, passes, reference);
      fmt::print("  {:<60} {:8.2f}x NumPy {:.2f}x plain loop; exact quantiles {:.2f}x NumPy's\n", "",
                 reference / one.best, plain.best / one.best, numpy.ranks.best / two.best);
    }
  }
  say("survey, sobol, histograms, the model as the plain loop has it",
      survey_time(written, written.counts, Plan::Kind::sobol, passes, 1, repeats), passes, reference);
  fmt::print("  the two models differ by {:.1e} at most\n", models_apart(work, written));
}

void screw_table(std::uint64_t passes, int repeats) {
  const Work work = screw_work();
  fmt::print("The screw, 5 scattered inputs and 47 outputs, one core, processor time; x: against the baseline set\n");
  double first = 0;
  for (const engine::Instructions set : engine::available_instructions()) {
    engine::use_instructions(set);
    const Taken two = survey_time(work, work.ranks, Plan::Kind::sobol, passes, 1, repeats);
    if (first == 0) first = two.best;
    say(fmt::format("survey, {} sobol, exact quantiles and bounds", name(set)), two, passes, first);
  }
}

void shapes_table(std::uint64_t passes, int repeats) {
  fmt::print("Six parts of other shapes (two of them tied), their sum; one core, processor time; x: against normals\n");
  // Before any is held: tables in use are shared.
  const Taken made = timed(3, processor_now, [] { sink = static_cast<double>(shapes_work(false).law.inputs()); });
  fmt::print("  {:<60} {:8.2f} ms\n", "their tables, made", made.best * 1e3);
  const Work normals = shapes_work(true), shapes = shapes_work(false);
  const Taken one = survey_time(normals, normals.ranks, Plan::Kind::sobol, passes, 1, repeats);
  say("six normals", one, passes, one.best);
  say("beta, weibull, gumbel, student, cut normal: by tables",
      survey_time(shapes, shapes.ranks, Plan::Kind::sobol, passes, 1, repeats), passes, one.best);
}

void threads_table(std::uint64_t passes, int repeats) {
  fmt::print("Threads, wall time; x: best against one's best\n");
  for (const bool screw : {false, true}) {
    const Work work = screw ? screw_work() : standard_work();
    double one = 0;
    for (const unsigned threads : {1u, 2u}) {
      const Taken wall = survey_time(work, work.ranks, Plan::Kind::sobol, passes, threads, repeats, wall_now);
      if (threads == 1) one = wall.best;
      say(fmt::format("{}, {} thread{}", screw ? "the screw" : "standard", threads, threads > 1 ? "s" : ""), wall,
          passes, one);
    }
  }
}

double memory_mib() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024;
}

void growth_table(std::uint64_t most) {
  fmt::print("Growth, one core; the memory is the most that the program has had so far\n");
  const Work work = standard_work();
  for (std::uint64_t passes = 1u << 14; passes <= most; passes *= 16) {
    const Taken t = survey_time(work, work.ranks, Plan::Kind::sobol, passes, 1, 1);
    say(fmt::format("standard, {} passes, {:.0f} MiB", passes, memory_mib()), t, passes, 0);
  }
  for (const auto& [inputs, outputs] : {std::pair(1, 1), std::pair(4, 1), std::pair(16, 1), std::pair(64, 1),
                                        std::pair(1, 4), std::pair(1, 16), std::pair(1, 64)}) {
    const Work sized = sized_work(static_cast<std::size_t>(inputs), static_cast<std::size_t>(outputs));
    const Taken t = survey_time(sized, sized.ranks, Plan::Kind::sobol, 1u << 18, 1, 3);
    say(fmt::format("{} inputs, {} outputs, {:.0f} MiB", inputs, outputs, memory_mib()), t, 1u << 18, 0);
  }
}

}  // namespace

int main(int count, char** words) {
  std::vector<std::string> given(words + 1, words + count);
  const bool longer = std::erase(given, "--long") > 0;
  const std::uint64_t passes = given.empty() ? 1u << 20 : std::stoull(given[0]);
  const int repeats = given.size() > 1 ? std::stoi(given[1]) : 7;
  standard_table(passes, repeats);
  fmt::print("Stages of the standard workload, {} instructions, each by itself; best and median of {}\n",
             name(engine::instructions()), repeats);
  stage_table(standard_work(), passes, repeats);
  screw_table(passes, repeats);
  shapes_table(passes, repeats);
  threads_table(passes, repeats);
  growth_table(longer ? 1u << 30 : 1u << 22);
}
