#include "engine/pass/count.hpp"

namespace engine {
namespace {

constexpr std::uint64_t pilot_passes = 4096;

/// Ranges of the histograms from passes that no other run uses, with half their width to spare on each side.
std::vector<Histogram> ranges(const Passed& passed, std::uint64_t key) {
  const Plan plan(Plan::Kind::plain, passed.law.dimensions(), pilot_passes, key, Stream::pilot);
  const Passed pilot{plan, passed.law, passed.model};
  std::vector<Moments> moments(passed.model.outputs());
  Scratch scratch(pilot);
  for (std::uint64_t b = 0; b < plan.blocks(); ++b) {
    const std::size_t n = pass_block(pilot, b, scratch);
    for (std::size_t k = 0; k < moments.size(); ++k) moments[k].merge(Moments::of(scratch.y.row(k), n));
  }
  std::vector<Histogram> histograms;
  for (const Moments& m : moments) {
    const double spare = m.n > 0 ? (m.most - m.least) / 2 : 0;
    histograms.emplace_back(m.n > 0 ? m.least - spare : 0, m.n > 0 ? m.most + spare : 1);
  }
  return histograms;
}

/// What one chunk adds.
struct Counted {
  std::uint64_t net = 0;
  std::vector<Moments> moments;
  std::vector<Histogram> histograms;
  std::vector<std::uint64_t> hits, clipped;
};

/// Every pass has a place of its own, so threads do not meet.
void keep(const Passed& passed, const Scratch& s, std::size_t n, std::uint64_t at, Survey& kept) {
  for (std::size_t k = 0; k < passed.law.inputs(); ++k) std::copy_n(s.x.row(k), n, kept.kept_inputs[k].data() + at);
  for (std::size_t k = 0; k < passed.model.outputs(); ++k) std::copy_n(s.y.row(k), n, kept.kept_outputs[k].data() + at);
}

Counted count_chunk(const Passed& passed, const Ask& ask, const Chunks& chunks, std::uint64_t chunk,
                    const std::vector<Histogram>& empty, Survey& kept) {
  const std::size_t outputs = passed.model.outputs();
  Counted counted{
      chunks.net(chunk), std::vector<Moments>(outputs), empty, std::vector<std::uint64_t>(ask.thresholds.size()), {}};
  Scratch scratch(passed);
  for (std::uint64_t b = chunks.first(chunk); b < chunks.end(chunk); ++b) {
    const std::size_t n = pass_block(passed, b, scratch);
    for (std::size_t k = 0; k < outputs; ++k) {
      counted.moments[k].merge(Moments::of(scratch.y.row(k), n));
      counted.histograms[k].add(scratch.y.row(k), n);
    }
    for (std::size_t t = 0; t < ask.thresholds.size(); ++t) {
      const double* row = scratch.y.row(ask.thresholds[t].output);
      for (std::size_t i = 0; i < n; ++i) counted.hits[t] += row[i] >= ask.thresholds[t].least;
    }
    if (ask.keep) keep(passed, scratch, n, passed.plan.first(b), kept);
  }
  counted.clipped = std::move(scratch.clipped);
  return counted;
}

}  // namespace

Counts count(const Passed& passed, const Ask& ask, std::uint64_t key, const Running& running, Survey& kept) {
  const std::size_t outputs = passed.model.outputs(), inputs = passed.law.inputs();
  const std::uint64_t nets = passed.plan.nets();
  const std::vector<Histogram> empty = ranges(passed, key);
  Counts sum{std::vector<Moments>(outputs), empty, std::vector<std::vector<Histogram>>(nets, empty),
             std::vector<std::vector<std::uint64_t>>(ask.thresholds.size(), std::vector<std::uint64_t>(nets)),
             std::vector<std::uint64_t>(inputs)};
  const Chunks chunks(passed.plan);
  run_chunks(
      chunks.count(), running,
      [&](std::uint64_t chunk) { return count_chunk(passed, ask, chunks, chunk, empty, kept); },
      [&](Counted& counted) {
        for (std::size_t k = 0; k < outputs; ++k) {
          sum.moments[k].merge(counted.moments[k]);
          sum.all[k].merge(counted.histograms[k]);
          sum.nets[counted.net][k].merge(counted.histograms[k]);
        }
        for (std::size_t t = 0; t < ask.thresholds.size(); ++t) sum.hits[t][counted.net] += counted.hits[t];
        for (std::size_t k = 0; k < inputs; ++k) sum.clipped[k] += counted.clipped[k];
      });
  return sum;
}

}  // namespace engine
