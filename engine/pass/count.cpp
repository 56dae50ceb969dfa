#include "engine/pass/count.hpp"

#include "engine/summary/tally.hpp"

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

/// What one chunk adds, and the blocks that it is worked out in.
struct Counted {
  Counted(const Passed& passed, std::size_t thresholds)
      : scratch(passed), moments(passed.model.outputs()), tallies(passed.model.outputs()), hits(thresholds) {}
  void clear(std::uint64_t of_net) {
    net = of_net;
    moments.assign(moments.size(), {});
    for (Tally& tally : tallies) tally.clear();
    hits.assign(hits.size(), 0);
    scratch.clipped.assign(scratch.clipped.size(), 0);
  }

  Scratch scratch;
  std::uint64_t net = 0;
  std::vector<Moments> moments;
  std::vector<Tally> tallies;
  std::vector<std::uint64_t> hits;
};

/// Every pass has a place of its own, so threads do not meet.
void keep(const Passed& passed, const Scratch& s, std::size_t n, std::uint64_t at, Survey& kept) {
  for (std::size_t k = 0; k < passed.law.inputs(); ++k) std::copy_n(s.x.row(k), n, kept.kept_inputs[k].data() + at);
  for (std::size_t k = 0; k < passed.model.outputs(); ++k) std::copy_n(s.y.row(k), n, kept.kept_outputs[k].data() + at);
}

/// One output over one block; a constant or a value that does not exist is quickly counted.
void count_row(const double* row, std::size_t n, const Histogram& bins, Moments& moments, Tally& tally) {
  const Moments m = Moments::of(row, n);
  moments.merge(m);
  if (m.n == n && m.least == m.most)
    tally.add_same(bins, m.least, n);
  else if (m.missing < n)
    tally.add(bins, row, n);
}

void count_chunk(const Passed& passed, const Ask& ask, const Chunks& chunks, std::uint64_t chunk,
                 const std::vector<Histogram>& bins, Counted& counted, Survey& kept) {
  static_assert(Chunks::most_blocks * block_size <= Tally::most);
  counted.clear(chunks.net(chunk));
  Scratch& scratch = counted.scratch;
  for (std::uint64_t b = chunks.first(chunk); b < chunks.end(chunk); ++b) {
    const std::size_t n = pass_block(passed, b, scratch);
    for (std::size_t k = 0; k < bins.size(); ++k)
      count_row(scratch.y.row(k), n, bins[k], counted.moments[k], counted.tallies[k]);
    for (std::size_t t = 0; t < ask.thresholds.size(); ++t)
      counted.hits[t] += block_counts().reach(scratch.y.row(ask.thresholds[t].output), ask.thresholds[t].least, n);
    if (ask.keep) keep(passed, scratch, n, passed.plan.first(b), kept);
  }
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
  Pool<Counted> pool([&] { return std::make_unique<Counted>(passed, ask.thresholds.size()); });
  run_chunks(
      chunks.count(), running,
      [&](std::uint64_t chunk) {
        auto counted = pool.take();
        count_chunk(passed, ask, chunks, chunk, empty, *counted, kept);
        return counted;
      },
      [&](const Pool<Counted>::Held& counted) {
        for (std::size_t k = 0; k < outputs; ++k) {
          sum.moments[k].merge(counted->moments[k]);
          sum.nets[counted->net][k].merge_counts(counted->tallies[k]);
        }
        for (std::size_t t = 0; t < ask.thresholds.size(); ++t) sum.hits[t][counted->net] += counted->hits[t];
        for (std::size_t k = 0; k < inputs; ++k) sum.clipped[k] += counted->scratch.clipped[k];
      });
  for (const std::vector<Histogram>& net : sum.nets)
    for (std::size_t k = 0; k < outputs; ++k) sum.all[k].merge(net[k]);
  return sum;
}

}  // namespace engine
