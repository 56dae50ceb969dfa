#include "engine/matter/shares.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "engine/draw/plan.hpp"
#include "engine/pass/sweep.hpp"
#include "engine/summary/interval.hpp"

namespace engine {
namespace {

/// Groups of all parts or of none have shares that need no estimate.
bool is_exact(const Law& law, const Group& group) { return group.empty() || group.size() == law.parts().size(); }

/// Sums over some passes, every f less a constant close to its mean.
struct Sums {
  double first = 0, squares = 0;                ///< f(A) + f(B), f(A)² + f(B)²
  std::vector<double> step, product, distance;  ///< [group] f(A_g) − f(A), f(B)(f(A_g) − f(A)), (f(A) − f(A_g))²/2
  bool finite = true;

  explicit Sums(std::size_t groups) : step(groups), product(groups), distance(groups) {}
  void merge(const Sums& other) {
    first += other.first;
    squares += other.squares;
    for (std::size_t g = 0; g < step.size(); ++g) {
      step[g] += other.step[g];
      product[g] += other.product[g];
      distance[g] += other.distance[g];
    }
    finite = finite && other.finite;
  }
};

/// What one chunk adds to its net.
struct Record {
  std::uint64_t net = 0;
  Sums sums;
};

/// The model on A, B and the mixtures of both.
class Mixtures {
public:
  Mixtures(const Plan& plan, const Law& law, const BlockModel& model, std::size_t output,
           const std::vector<Group>& groups)
      : plan_(plan), law_(law), model_(model), output_(output), groups_(groups), chunks_(plan) {
    Working w(*this);
    draw(0, w);
    origin_ = evaluate(w.a, 1, w.scratch)[0];
    if (!std::isfinite(origin_)) origin_ = 0;
  }

  const Chunks& chunks() const { return chunks_; }
  double origin() const { return origin_; }

  Record chunk(std::uint64_t chunk) const {
    Record record{chunks_.net(chunk), Sums(groups_.size())};
    Working w(*this);
    for (std::uint64_t b = chunks_.first(chunk); b < chunks_.end(chunk); ++b) {
      draw(b, w);
      add(plan_.size(b), w, record.sums);
    }
    return record;
  }

private:
  /// One thread's working blocks: uniforms of one matrix, values of A's, of B's and of mixed parts.
  struct Working {
    explicit Working(const Mixtures& of)
        : scratch({of.plan_, of.law_, of.model_}),
          both(2 * std::max<std::size_t>(1, of.law_.dimensions())),
          a(of.law_.parts().size()),
          b(of.law_.parts().size()),
          mixed(of.law_.parts().size()) {}
    Scratch scratch;
    Block both, a, b, mixed;
  };

  /// Values of all parts in both matrices: A from the first half of the plan's dimensions, B from the second.
  void draw(std::uint64_t block, Working& w) const {
    const std::size_t n = plan_.size(block), dimensions = law_.dimensions();
    plan_.fill(block, w.both);
    for (const std::size_t half : {0, 1}) {
      for (std::size_t d = 0; d < dimensions; ++d)
        std::copy_n(w.both.row(half * dimensions + d), n, w.scratch.u.row(d));
      law_.values(w.scratch.u, half == 0 ? w.a : w.b, n);
    }
    for (std::size_t p = 0; p < law_.parts().size(); ++p) std::copy_n(w.a.row(p), n, w.mixed.row(p));
  }

  std::vector<double> evaluate(const Block& value, std::size_t n, Scratch& s) const {
    law_.compose(value, s.x, n, s.clipped);
    model_.evaluate(s.x, s.y, n);
    std::vector<double> f(s.y.row(output_), s.y.row(output_) + n);
    for (double& each : f) each -= origin_;
    return f;
  }

  void add(std::size_t n, Working& w, Sums& sums) const {
    const std::vector<double> a = evaluate(w.a, n, w.scratch), b = evaluate(w.b, n, w.scratch);
    for (std::size_t i = 0; i < n; ++i) {
      sums.first += a[i] + b[i];
      sums.squares += a[i] * a[i] + b[i] * b[i];
    }
    for (std::size_t g = 0; g < groups_.size(); ++g) {
      if (is_exact(law_, groups_[g])) continue;
      for (const std::size_t part : groups_[g]) std::copy_n(w.b.row(part), n, w.mixed.row(part));
      const std::vector<double> mixed = evaluate(w.mixed, n, w.scratch);
      for (const std::size_t part : groups_[g]) std::copy_n(w.a.row(part), n, w.mixed.row(part));
      for (std::size_t i = 0; i < n; ++i) {
        const double step = mixed[i] - a[i];
        sums.step[g] += step;
        sums.product[g] += b[i] * step;
        sums.distance[g] += step * step / 2;
      }
      sums.finite = sums.finite && std::isfinite(sums.distance[g]);
    }
    sums.finite = sums.finite && std::isfinite(sums.squares);
  }

  const Plan& plan_;
  const Law& law_;
  const BlockModel& model_;
  std::size_t output_;
  const std::vector<Group>& groups_;
  Chunks chunks_;
  double origin_ = 0;  ///< f of the first pass, taken off all others so that their squares keep their digits
};

/// Ratio of the sums of two quantities over the nets, kept in [0, 1], with bounds from how the nets scatter about it.
Estimate ratio(const std::vector<double>& over, const std::vector<double>& under) {
  const auto nets = static_cast<double>(over.size());
  double top = 0, bottom = 0, squares = 0;
  for (std::size_t k = 0; k < over.size(); ++k) top += over[k], bottom += under[k];
  for (std::size_t k = 0; k < over.size(); ++k) squares += std::pow(over[k] - top / bottom * under[k], 2);
  const double half = student_975(nets - 1) * std::sqrt(squares * nets / (nets - 1)) / bottom;
  const double kept = std::clamp(top / bottom, 0.0, 1.0);
  return {std::max(0.0, kept - half), kept, std::min(1.0, kept + half)};
}

/// @param n       passes of a net
/// @param origin  taken off every f
Shares made_of(const std::vector<Sums>& nets, double n, double origin, std::size_t groups) {
  constexpr double none = std::numeric_limits<double>::quiet_NaN();
  Shares result;
  result.groups.assign(groups, {{none, none, none}, {none, none, none}});
  const auto count = static_cast<double>(nets.size());
  for (const Sums& net : nets) {
    if (!net.finite) result.why = Shares::Why::unbounded;
    result.mean += net.first / (2 * n * count);
  }
  if (result.why == Shares::Why::unbounded) return result;
  const double mean = result.mean;
  std::vector<double> variances;
  for (const Sums& net : nets) {
    variances.push_back(net.squares / (2 * n) - mean * net.first / n + mean * mean);
    result.variance += variances.back() / count;
  }
  result.mean += origin;
  // A constant computed by different ways differs in its last bits.
  if (!(result.variance > 1e-26 * result.mean * result.mean)) result.why = Shares::Why::constant;
  for (std::size_t g = 0; result.why == Shares::Why::known && g < groups; ++g) {
    std::vector<double> first, total;
    for (const Sums& net : nets) {
      first.push_back((net.product[g] - mean * net.step[g]) / n);
      total.push_back(net.distance[g] / n);
    }
    result.groups[g] = {ratio(first, variances), ratio(total, variances)};
  }
  return result;
}

void set_exact(const Law& law, const std::vector<Group>& groups, Shares& shares) {
  for (std::size_t g = 0; shares.why == Shares::Why::known && g < groups.size(); ++g)
    if (is_exact(law, groups[g])) {
      const double exact = groups[g].empty() ? 0 : 1;
      shares.groups[g] = {{exact, exact, exact}, {exact, exact, exact}};
    }
}

}  // namespace

Shares shares(const Law& law, const BlockModel& model, std::size_t output, const std::vector<Group>& groups,
              std::uint64_t count, std::uint64_t key, const Running& running) {
  for (const Group& group : groups)
    if (!closed(law, group)) throw std::invalid_argument("a group for variance shares splits parts that are tied");
  const Plan plan(Plan::Kind::sobol, 2 * law.dimensions(), count, key, Stream::shares);
  std::vector<Sums> nets(plan.nets(), Sums(groups.size()));
  const Mixtures mixtures(plan, law, model, output, groups);
  run_chunks(
      mixtures.chunks().count(), running, [&](std::uint64_t chunk) { return mixtures.chunk(chunk); },
      [&](const Record& record) { nets[record.net].merge(record.sums); });
  Shares result = made_of(nets, static_cast<double>(plan.net_size()), mixtures.origin(), groups.size());
  set_exact(law, groups, result);
  return result;
}

}  // namespace engine
