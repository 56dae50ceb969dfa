#include "engine/matter/halved.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "engine/pass/sweep.hpp"

namespace engine {
namespace {

/// Passes of one group that changed sides.
struct Changed {
  std::uint64_t cured = 0, hurt = 0;
};

/// What one chunk adds to its net.
struct Record {
  std::uint64_t net = 0, misses = 0;
  std::vector<Changed> groups;
};

/// [net] counts.
struct Nets {
  std::vector<std::uint64_t> misses;
  std::vector<std::vector<Changed>> groups;  ///< [group][net]
};

/// One thread's working blocks.
struct Working {
  explicit Working(const Passed& passed)
      : scratch(passed), value(passed.law.parts().size()), halved(passed.law.parts().size()), missed(block_size) {}
  Scratch scratch;
  Block value, halved;
  std::vector<bool> missed;
};

/// The model on one block with a group halved; leaves the parts' values as they were.
void evaluate_halved(const Passed& passed, const Group& group, std::size_t n, Working& w) {
  for (const std::size_t part : group) {
    std::copy_n(w.value.row(part), n, w.halved.row(part));
    passed.law.halve(part, w.halved.row(part), n);
  }
  passed.law.compose(w.halved, w.scratch.x, n, w.scratch.clipped);
  passed.model.evaluate(w.scratch.x, w.scratch.y, n);
  for (const std::size_t part : group) std::copy_n(w.value.row(part), n, w.halved.row(part));
}

void count_block(const Passed& passed, const std::vector<Group>& groups, const Threshold& threshold, std::size_t n,
                 Working& w, Record& record) {
  const auto misses = [&](std::size_t i) { return !(w.scratch.y.row(threshold.output)[i] >= threshold.least); };
  for (std::size_t part = 0; part < passed.law.parts().size(); ++part)
    std::copy_n(w.value.row(part), n, w.halved.row(part));
  passed.law.compose(w.value, w.scratch.x, n, w.scratch.clipped);
  passed.model.evaluate(w.scratch.x, w.scratch.y, n);
  for (std::size_t i = 0; i < n; ++i) {
    w.missed[i] = misses(i);
    record.misses += w.missed[i];
  }
  for (std::size_t g = 0; g < groups.size(); ++g) {
    evaluate_halved(passed, groups[g], n, w);
    for (std::size_t i = 0; i < n; ++i) {
      record.groups[g].cured += w.missed[i] && !misses(i);
      record.groups[g].hurt += !w.missed[i] && misses(i);
    }
  }
}

Record count_chunk(const Passed& passed, const std::vector<Group>& groups, const Threshold& threshold,
                   const Chunks& chunks, std::uint64_t chunk) {
  Record record{chunks.net(chunk), 0, std::vector<Changed>(groups.size())};
  Working w(passed);
  for (std::uint64_t b = chunks.first(chunk); b < chunks.end(chunk); ++b) {
    const std::size_t n = passed.plan.size(b);
    passed.plan.fill(b, w.scratch.u);
    passed.law.values(w.scratch.u, w.value, n);
    count_block(passed, groups, threshold, n, w, record);
  }
  return record;
}

Nets count(const Passed& passed, const std::vector<Group>& groups, const Threshold& threshold, const Running& running) {
  const std::size_t nets = passed.plan.nets();
  Nets sum{std::vector<std::uint64_t>(nets),
           std::vector<std::vector<Changed>>(groups.size(), std::vector<Changed>(nets))};
  const Chunks chunks(passed.plan);
  run_chunks(
      chunks.count(), running,
      [&](std::uint64_t chunk) { return count_chunk(passed, groups, threshold, chunks, chunk); },
      [&](const Record& record) {
        sum.misses[record.net] += record.misses;
        for (std::size_t g = 0; g < groups.size(); ++g) {
          sum.groups[g][record.net].cured += record.groups[g].cured;
          sum.groups[g][record.net].hurt += record.groups[g].hurt;
        }
      });
  return sum;
}

Estimate share(const std::vector<std::uint64_t>& hits, std::uint64_t net_size) {
  const auto all = static_cast<double>(std::accumulate(hits.begin(), hits.end(), std::uint64_t{0}));
  const Interval bounds = share_interval(hits, net_size);
  return {bounds.low, all / static_cast<double>(hits.size() * net_size), bounds.high};
}

/// The change of the shortfall: (hurt − cured)/passes with its bounds.
Estimate change(const std::vector<Changed>& nets, const Changed& all, std::uint64_t net_size) {
  const auto count = static_cast<double>(nets.size()), size = static_cast<double>(net_size), n = count * size;
  const auto cured = static_cast<double>(all.cured), hurt = static_cast<double>(all.hurt);
  const double estimate = (hurt - cured) / n;
  double squares = 0;
  for (const Changed& net : nets)
    squares += std::pow((static_cast<double>(net.hurt) - static_cast<double>(net.cured)) / size - estimate, 2);
  if (nets.size() > 1 && cured + hurt >= 5 * count && squares > 0) {
    const double half = student_975(count - 1) * std::sqrt(squares / (count * (count - 1)));
    return {estimate - half, estimate, estimate + half};
  }
  const Interval up = clopper_pearson(hurt, n, 0.975), down = clopper_pearson(cured, n, 0.975);
  return {up.low - down.high, estimate, up.high - down.low};
}

Halved made_of(const std::vector<std::uint64_t>& misses, const std::vector<Changed>& nets, std::uint64_t net_size) {
  Halved halved;
  std::vector<std::uint64_t> after;
  for (std::size_t k = 0; k < nets.size(); ++k) {
    after.push_back(misses[k] + nets[k].hurt - nets[k].cured);
    halved.cured += nets[k].cured;
    halved.hurt += nets[k].hurt;
  }
  halved.after = share(after, net_size);
  halved.change = change(nets, {halved.cured, halved.hurt}, net_size);
  return halved;
}

}  // namespace

Halvings halved(const Plan& plan, const Law& law, const BlockModel& model, const Threshold& threshold,
                const std::vector<Group>& groups, const Running& running) {
  const Passed passed{plan, law, model};
  const Nets nets = count(passed, groups, threshold, running);
  Halvings result;
  result.before = share(nets.misses, plan.net_size());
  for (const auto& group : nets.groups) result.groups.push_back(made_of(nets.misses, group, plan.net_size()));
  return result;
}

}  // namespace engine
