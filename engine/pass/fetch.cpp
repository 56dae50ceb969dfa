#include "engine/pass/fetch.hpp"

#include <algorithm>

namespace engine {
namespace {

/// Calls `use(span, value)` for every value of a chunk that lies in a span: which bins are open without a branch, then
/// a search for the few values that lie in them.
template <class Use>
void each_found(const Passed& passed, const Counts& counts, const Chunks& chunks, std::uint64_t chunk,
                const Spans& spans, Scratch& scratch, Use use) {
  std::uint32_t bin[block_size], place[block_size];
  for (std::uint64_t b = chunks.first(chunk); b < chunks.end(chunk); ++b) {
    const std::size_t n = pass_block(passed, b, scratch);
    for (std::size_t k = 0; k < passed.model.outputs(); ++k) {
      if (!spans.any(k)) continue;
      const double* row = scratch.y.row(k);
      counts.all[k].find_bins(row, n, bin);
      const unsigned char* is_open = spans.open(k);
      std::size_t open = 0;
      for (std::size_t i = 0; i < n; ++i) {
        place[open] = static_cast<std::uint32_t>(i);
        open += is_open[bin[i]];
      }
      for (std::size_t j = 0; j < open; ++j)
        if (const std::size_t span = spans.find(k, row[place[j]]); span != Spans::nowhere) use(span, row[place[j]]);
    }
  }
}

/// One sweep that counts the parts of the spans to be cut.
std::vector<std::uint64_t> count_parts(const Spans& spans, const std::vector<std::size_t>& cut, const Passed& passed,
                                       const Counts& counts, const Running& running) {
  std::vector<std::size_t> place(spans.size(), Spans::nowhere);
  for (std::size_t i = 0; i < cut.size(); ++i) place[cut[i]] = i * Span::parts;
  std::vector<std::uint64_t> sum(cut.size() * Span::parts);
  using Record = std::vector<std::uint32_t>;
  const Chunks chunks(passed.plan);
  Pool<Scratch> pool([&] { return std::make_unique<Scratch>(passed); });
  run_chunks(
      chunks.count(), running,
      [&](std::uint64_t chunk) {
        Record counted(sum.size());
        each_found(passed, counts, chunks, chunk, spans, *pool.take(), [&](std::size_t span, double value) {
          if (place[span] != Spans::nowhere) ++counted[place[span] + spans[span].part(order_key(value))];
        });
        return counted;
      },
      [&](Record& counted) {
        for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += counted[i];
      });
  return sum;
}

/// The values in each span of more than one key, sorted.
std::vector<std::vector<double>> collect(const Spans& spans, const Passed& passed, const Counts& counts,
                                         const Running& running) {
  std::vector<std::vector<double>> values(spans.size());
  for (std::size_t i = 0; i < spans.size(); ++i)
    if (!spans[i].single()) values[i].reserve(spans[i].count);
  struct Found {
    std::size_t span;
    double value;
  };
  using Record = std::vector<Found>;
  const Chunks chunks(passed.plan);
  Pool<Scratch> pool([&] { return std::make_unique<Scratch>(passed); });
  run_chunks(
      chunks.count(), running,
      [&](std::uint64_t chunk) {
        Record found;
        each_found(passed, counts, chunks, chunk, spans, *pool.take(), [&](std::size_t span, double value) {
          if (!spans[span].single()) found.push_back({span, value});
        });
        return found;
      },
      [&](Record& found) {
        for (const Found& f : found) values[f.span].push_back(f.value);
      });
  for (auto& list : values) std::sort(list.begin(), list.end());
  return values;
}

}  // namespace

std::vector<double> fetch(const std::vector<Sought>& sought, const Counts& counts, const Passed& passed,
                          const Running& running, std::uint64_t budget) {
  Spans spans(counts, sought);
  double done = 0;
  const auto sweeping = [&](double share) {
    Running part = running;
    if (running.progress)
      part.progress = [&running, from = done, share](double s) { running.progress(from + s * share); };
    return part;
  };
  for (auto cut = spans.fat(budget); !cut.empty(); cut = spans.fat(budget)) {
    const double share = (1 - done) / 2;  // nobody knows how many more sweeps it takes
    spans.refine(cut, count_parts(spans, cut, passed, counts, sweeping(share)), sought);
    done += share;
  }
  std::vector<std::vector<double>> values(spans.size());
  if (spans.values() > 0)
    values = collect(spans, passed, counts, sweeping(1 - done));
  else if (running.progress)
    running.progress(1);
  std::vector<double> found;
  for (const Sought& s : sought) {
    const Span& span = spans.holding(s);
    const auto i = static_cast<std::size_t>(&span - &spans[0]);
    found.push_back(span.single() ? of_key(span.low) : values[i][s.rank - span.before - 1]);
  }
  return found;
}

}  // namespace engine
