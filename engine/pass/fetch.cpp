#include "engine/pass/fetch.hpp"

#include <cmath>
#include <limits>
#include <map>

namespace engine {
namespace {

double bin_width(const Histogram& h) { return (h.high() - h.low()) / Histogram::bins; }

/// Share of a net at or below a value, taking a bin's values as evenly spread.
double share_below(const Histogram& h, double value, std::uint64_t total) {
  const std::size_t bin = h.bin(value);
  double below = 0;
  for (std::size_t b = 0; b < bin; ++b) below += static_cast<double>(h.count(b));
  const bool inner = bin > 0 && bin <= Histogram::bins;
  const double within = inner ? (value - h.low()) / bin_width(h) - static_cast<double>(bin - 1) : 0.5;
  return (below + within * static_cast<double>(h.count(bin))) / static_cast<double>(total);
}

/// Value of a rank as far as the histogram tells.
double roughly(const Histogram& h, std::uint64_t rank) {
  const Histogram::Found found = h.find(rank);
  if (found.bin == 0) return h.low();
  if (found.bin > Histogram::bins) return h.high();
  const double within = (static_cast<double>(rank - found.before) - 0.5) / static_cast<double>(h.count(found.bin));
  return h.low() + bin_width(h) * (static_cast<double>(found.bin - 1) + within);
}

/// Half the 95 % interval of the share of passes below a value, by the disagreement of the nets.
double half_share(const Counts& counts, std::size_t output, double value, std::uint64_t net_size) {
  const auto nets = static_cast<double>(counts.nets.size());
  std::vector<double> shares;
  double mean = 0, squares = 0;
  for (const auto& net : counts.nets) shares.push_back(share_below(net[output], value, net_size));
  for (const double s : shares) mean += s / nets;
  for (const double s : shares) squares += (s - mean) * (s - mean);
  return student_975(nets - 1) * std::sqrt(squares / (nets * (nets - 1)));
}

/// The values of the open bins of each output.
using Values = std::vector<std::map<std::size_t, std::vector<double>>>;

/// For every output, whether a bin is open; empty where none is. The last bin is of what is not a number.
using Open = std::vector<std::vector<unsigned char>>;

/// Adds the values of a row that lie in open bins: which they are without a branch, then the few that there are.
void fetch_row(const double* row, std::size_t n, const Histogram& bins, const std::vector<unsigned char>& open,
               std::map<std::size_t, std::vector<double>>& found) {
  std::uint32_t bin[block_size], place[block_size];
  bins.find_bins(row, n, bin);
  std::size_t count = 0;
  for (std::size_t i = 0; i < n; ++i) {
    place[count] = static_cast<std::uint32_t>(i);
    count += open[bin[i]];
  }
  for (std::size_t j = 0; j < count; ++j) found[bin[place[j]]].push_back(row[place[j]]);
}

Values fetch_chunk(const Passed& passed, const Counts& counts, const Open& open, const Chunks& chunks,
                   std::uint64_t chunk, Scratch& scratch) {
  Values found(open.size());
  for (std::uint64_t b = chunks.first(chunk); b < chunks.end(chunk); ++b) {
    const std::size_t n = pass_block(passed, b, scratch);
    for (std::size_t k = 0; k < open.size(); ++k)
      if (!open[k].empty()) fetch_row(scratch.y.row(k), n, counts.all[k], open[k], found[k]);
  }
  return found;
}

}  // namespace

Wanted wanted(const Counts& counts, std::size_t output, std::uint64_t rank, std::uint64_t passes) {
  const std::size_t nets = counts.nets.size();
  const auto n = static_cast<double>(passes), r = static_cast<double>(rank);
  Interval share = clopper_pearson(r, n);
  if (nets > 1 && std::min(r, n - r) >= 5 * static_cast<double>(nets)) {
    const double half = half_share(counts, output, roughly(counts.all[output], rank), passes / nets);
    if (half > 0) share = {r / n - half, r / n + half};
  }
  const double low = std::floor(share.low * n), high = std::ceil(share.high * n) + 1;
  Wanted w;
  w.output = output;
  w.ranks[0] = low < 1 ? 0 : std::min(static_cast<std::uint64_t>(low), rank);
  w.ranks[1] = rank;
  w.ranks[2] = high > n ? passes + 1 : std::max(static_cast<std::uint64_t>(high), rank);
  return w;
}

void fetch(std::vector<Wanted>& all, const Counts& counts, const Passed& passed, const Running& running) {
  if (all.empty() && running.progress) running.progress(1);
  if (all.empty()) return;
  const std::uint64_t passes = passed.plan.passes();
  const auto open_ended = [&](std::uint64_t rank) { return rank < 1 || rank > passes; };
  const std::size_t outputs = counts.all.size();
  Open open(outputs);
  for (const Wanted& w : all) {
    open[w.output].resize(Histogram::bins + 3);
    for (const std::uint64_t rank : w.ranks)
      if (!open_ended(rank)) open[w.output][counts.all[w.output].find(rank).bin] = 1;
  }
  Values values(outputs);
  const Chunks chunks(passed.plan);
  Pool<Scratch> pool([&] { return std::make_unique<Scratch>(passed); });
  run_chunks(
      chunks.count(), running,
      [&](std::uint64_t chunk) { return fetch_chunk(passed, counts, open, chunks, chunk, *pool.take()); },
      [&](Values& found) {
        for (std::size_t k = 0; k < outputs; ++k)
          for (auto& [bin, list] : found[k]) values[k][bin].insert(values[k][bin].end(), list.begin(), list.end());
      });
  for (auto& output : values)
    for (auto& [bin, list] : output) std::sort(list.begin(), list.end());
  for (Wanted& w : all)
    for (int i = 0; i < 3; ++i) {
      constexpr double unbounded = std::numeric_limits<double>::infinity();
      w.values[i] = w.ranks[i] < 1 ? -unbounded : unbounded;
      if (open_ended(w.ranks[i])) continue;
      const Histogram::Found found = counts.all[w.output].find(w.ranks[i]);
      w.values[i] = values[w.output][found.bin][w.ranks[i] - found.before - 1];
    }
}

}  // namespace engine
