#include "studies/ask/compare.hpp"

#include <algorithm>

#include "studies/ask/mixtures.hpp"
#include "studies/ask/paired.hpp"

namespace studies {
namespace {

using Kind = Measure::Kind;

constexpr std::uint64_t common_passes = 65536;

void refuse_unlike(const Study& a, const Study& b) {
  if (a.duty.action == b.duty.action) return;
  throw engine::Refusal(
      engine::ExitCode::usage,
      engine::Problem{b.path, 0, 0, "a clamp and a lift cannot be compared",
                      "A clamp is judged by the force that its torque makes, a lift by the torque that its load takes",
                      "compare results of the same action"});
}

/// The one nut length of a study that follows the thread; none where it is a length, or was chosen.
std::optional<Length> following(const Study& study) {
  const NutLengthChoice& nut = study.choices.nut_length;
  if (nut.range || nut.values.size() != 1 || !nut.values.front().times_diameter) return std::nullopt;
  return nut.values.front();
}

/// A side without its texts, which the mixtures have no use for.
Side side_of(const Study& study, const models::Design& screw, bool nut_follows) {
  Side side(study, screw);
  side.study.text.clear();
  side.study.tables.text.clear();
  side.study.tables.files.clear();
  side.study.draws_files.clear();
  side.study.echoes.clear();
  if (nut_follows) side.nut_length = *following(study);
  return side;
}

/// Passes of each net on which the first misses a limit and the second does not.
std::vector<std::uint64_t> only(const std::vector<char>& first, const std::vector<char>& second) {
  std::vector<std::uint64_t> nets(engine::net_count);
  for (std::size_t i = 0; i < first.size(); ++i) nets[i * nets.size() / first.size()] += first[i] && !second[i];
  return nets;
}

std::vector<double> net_medians(const std::vector<double>& values) {
  std::vector<double> all;
  const auto size = static_cast<std::ptrdiff_t>(values.size() / engine::net_count);
  for (auto at = values.begin(); at != values.end(); at += size) all.push_back(median({at, at + size}));
  return all;
}

/// The change of each measure with its bounds.
std::vector<Moved> moved(const Mixtures& mixtures, const Passed& a, const Passed& b, const std::vector<double>& from,
                         const std::vector<double>& to) {
  std::vector<Moved> all;
  std::size_t limit = 0;
  for (std::size_t m = 0; m < mixtures.measures().size(); ++m) {
    Moved it{mixtures.measures()[m], from[m], to[m], {}, {}};
    const double change = to[m] - from[m];
    it.change = {change, change, change};
    if (it.of.kind == Kind::median && a.output != b.output) {
      std::vector<double> nets = net_medians(b.output);
      const std::vector<double> were = net_medians(a.output);
      std::transform(nets.begin(), nets.end(), were.begin(), nets.begin(), std::minus<>());
      it.change = paired(change, nets);
    } else if (it.of.kind == Kind::shortfall) {
      const std::vector<char>&was = a.missed[limit], &now = b.missed[limit];
      it.change = paired_shortfall(only(now, was), only(was, now), was.size() / engine::net_count);
      it.change.estimate = change;  // but for rounding it was
      ++limit;
    }
    all.push_back(std::move(it));
  }
  return all;
}

/// The measures of every set of alterations needed, on all threads.
std::vector<std::vector<double>> of_sets(const Mixtures& mixtures, const CommonDraws& draws,
                                         const engine::Running& running) {
  const std::vector<Made> sets = sets_needed(mixtures.alterations().size());
  std::vector<std::vector<double>> all;
  engine::run_chunks(
      sets.size(), running,
      [&](std::uint64_t i) {
        const Side side = mixtures.made(sets[i]);
        const Ready ready = *settled(side);
        return mixtures.values(ready, mixtures.pass(ready, side, draws));
      },
      [&](std::vector<double>& values) { all.push_back(std::move(values)); });
  return all;
}

/// Each measure's values over the sets, shared out.
void attribute(Comparison& comparison, const std::vector<std::vector<double>>& of_sets) {
  for (std::size_t m = 0; m < comparison.moved.size(); ++m) {
    std::vector<double> values;
    for (const std::vector<double>& set : of_sets) values.push_back(set[m]);
    comparison.moved[m].by = shares(comparison.alterations.size(), values);
  }
}

}  // namespace

Comparison compare(const Study& a, const models::Design& screw_a, const Study& b, const models::Design& screw_b,
                   const engine::Running& running) {
  refuse_unlike(a, b);
  const std::optional<Length> one = following(a), other = following(b);
  const bool follows = one && other;
  const Mixtures mixtures(side_of(a, screw_a, follows), side_of(b, screw_b, follows));
  const CommonDraws draws(mixtures.first().inputs, mixtures.second().inputs, common_passes, a.passes.key);
  const std::size_t n = mixtures.alterations().size();
  const std::vector<std::vector<double>> values = of_sets(mixtures, draws, running);
  const auto pass = [&](Made set) {
    const Side side = mixtures.made(set);
    return mixtures.pass(*settled(side), side, draws);
  };
  Comparison comparison{mixtures.alterations(),    besides(a, b),         {},
                        n <= most_for_every_order, draws.plan().passes(), values.size()};
  comparison.moved = moved(mixtures, pass(0), pass(sets_needed(n).back()), values.front(), values.back());
  attribute(comparison, values);
  return comparison;
}

}  // namespace studies
