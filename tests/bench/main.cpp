/// How fast the product's own pass loop is, beside NumPy and a plain loop: screwtiny_bench [PASSES [REPEATS]] [--long]
#include <fmt/format.h>
#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <ctime>
#include <string>
#include <vector>

#include "engine/lanes/instructions.hpp"
#include "tests/bench/plain_loop.hpp"
#include "tests/bench/works.hpp"

namespace {

using namespace bench;
using engine::Plan;

struct Taken {
  double processor = 0, wall = 0;  ///< [s]
};

double processor_now() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }
double wall_now() { return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count(); }

/// Medians of the repeats.
template <class Do>
Taken timed(int repeats, Do work) {
  std::vector<double> processor, wall;
  for (int r = 0; r < repeats; ++r) {
    const double p = processor_now(), w = wall_now();
    work();
    processor.push_back(processor_now() - p), wall.push_back(wall_now() - w);
  }
  std::sort(processor.begin(), processor.end()), std::sort(wall.begin(), wall.end());
  return {processor[processor.size() / 2], wall[wall.size() / 2]};
}

volatile double sink;

Taken survey_time(const Work& work, const engine::Ask& ask, Plan::Kind kind, std::uint64_t passes, unsigned threads,
                  int repeats) {
  const Plan plan(kind, work.law.dimensions(), passes, 1, engine::Stream::test);
  return timed(repeats, [&] {
    sink = engine::survey(plan, work.law, *work.model, ask, 1, {threads, {}, nullptr}).moments[0].mean;
  });
}

/// Processor seconds of baseline.py with histograms and with quantiles; 0 where it does not run.
std::pair<double, double> numpy_time(std::uint64_t passes, std::uint64_t chunk, int repeats) {
  std::vector<double> counts, ranks;
  for (int r = 0; r < repeats; ++r) {
    const std::string call = fmt::format("{} {} {} {}", SCREWTINY_PYTHON, SCREWTINY_BASELINE, passes, chunk);
    FILE* out = popen(call.c_str(), "r");
    double with_counts = 0, with_ranks = 0;
    if (out && std::fscanf(out, "%lf %lf", &with_counts, &with_ranks) == 2)
      counts.push_back(with_counts), ranks.push_back(with_ranks);
    if (out) pclose(out);
  }
  if (counts.empty()) return {0, 0};
  std::sort(counts.begin(), counts.end()), std::sort(ranks.begin(), ranks.end());
  return {counts[counts.size() / 2], ranks[ranks.size() / 2]};
}

void say(const std::string& what, double seconds, std::uint64_t passes, double reference) {
  fmt::print("  {:<58} {:8.2f} ns/pass {:8.2f} M/s {:8.2f}x\n", what, seconds / static_cast<double>(passes) * 1e9,
             static_cast<double>(passes) / seconds / 1e6, reference > 0 ? reference / seconds : 0);
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

void standard_table(std::uint64_t passes, int repeats) {
  const Work work = standard_work();
  fmt::print(
      "Standard workload, 8 inputs and 12 outputs, one core, processor time; x: against NumPy with histograms\n");
  auto [counts, ranks] = numpy_time(passes, 65536, repeats);
  const auto small = numpy_time(passes, 8192, repeats);
  counts = std::min(counts, small.first), ranks = std::min(ranks, small.second);
  if (counts > 0) say("NumPy, moments and histograms (the better of two chunks)", counts, passes, counts);
  if (counts > 0) say("NumPy, moments and exact quantiles of each chunk", ranks, passes, counts);
  const std::array<double, 24> ranges = plain_ranges(work);
  const double plain = timed(repeats, [&] { sink = plain_loop(passes, ranges)[0].mean; }).processor;
  say("plain loop, std:: distributions", plain, passes, counts);
  for (const engine::Instructions set : engine::available_instructions()) {
    engine::use_instructions(set);
    for (const auto& [kind, word] : {std::pair(Plan::Kind::plain, "plain"), std::pair(Plan::Kind::sobol, "sobol")}) {
      const double one = survey_time(work, work.counts, kind, passes, 1, repeats).processor,
                   two = survey_time(work, work.ranks, kind, passes, 1, repeats).processor;
      say(fmt::format("survey, {} {}, moments and histograms", name(set), word), one, passes, counts);
      say(fmt::format("survey, {} {}, exact quantiles and bounds too", name(set), word), two, passes, counts);
      fmt::print("  {:<58} {:8.2f}x NumPy {:10.2f}x plain loop; exact quantiles {:.2f}x NumPy's\n", "", counts / one,
                 plain / one, ranks / two);
    }
  }
}

void screw_table(std::uint64_t passes, int repeats) {
  const Work work = screw_work();
  fmt::print("The screw, 5 scattered inputs and 47 outputs, one core, processor time; x: against the baseline set\n");
  double first = 0;
  for (const engine::Instructions set : engine::available_instructions()) {
    engine::use_instructions(set);
    const double two = survey_time(work, work.ranks, Plan::Kind::sobol, passes, 1, repeats).processor;
    if (first == 0) first = two;
    say(fmt::format("survey, {} sobol, exact quantiles and bounds", name(set)), two, passes, first);
  }
}

void threads_table(std::uint64_t passes, int repeats) {
  fmt::print("Threads, wall time; x: against one\n");
  for (const bool screw : {false, true}) {
    const Work work = screw ? screw_work() : standard_work();
    double one = 0;
    for (const unsigned threads : {1u, 2u}) {
      const double wall = survey_time(work, work.ranks, Plan::Kind::sobol, passes, threads, repeats).wall;
      if (threads == 1) one = wall;
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
    const double t = survey_time(work, work.ranks, Plan::Kind::sobol, passes, 1, 1).processor;
    say(fmt::format("standard, {} passes, {:.0f} MiB", passes, memory_mib()), t, passes, 0);
  }
  for (const auto& [inputs, outputs] : {std::pair(1, 1), std::pair(4, 1), std::pair(16, 1), std::pair(64, 1),
                                        std::pair(1, 4), std::pair(1, 16), std::pair(1, 64)}) {
    const Work sized = sized_work(static_cast<std::size_t>(inputs), static_cast<std::size_t>(outputs));
    const double t = survey_time(sized, sized.ranks, Plan::Kind::sobol, 1u << 18, 1, 3).processor;
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
  screw_table(passes, repeats);
  threads_table(passes, repeats);
  growth_table(longer ? 1u << 30 : 1u << 22);
}
