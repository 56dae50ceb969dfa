#include "studies/ask/judge.hpp"

#include <algorithm>
#include <cmath>

#include "engine/pass/survey.hpp"

namespace studies {
namespace {

void draw(const SharedInputs& shared, std::uint64_t block, engine::Block& x) {
  const engine::Law& law = shared.inputs.law;
  std::vector<std::uint64_t> clipped(law.inputs());
  engine::Block u(std::max<std::size_t>(1, law.dimensions()));
  shared.plan.fill(block, u);
  law.transform(u, x, shared.plan.size(block), clipped);
}

}  // namespace

bool Judgement::all() const { return !first_missed(); }

std::optional<std::size_t> Judgement::first_missed() const {
  for (std::size_t k = 0; k < holds.size(); ++k)
    if (!holds[k]) return k;
  return std::nullopt;
}

std::vector<std::optional<double>> asked_odds(const Study& study) {
  std::vector<std::optional<double>> odds;
  for (const models::Limit& limit : study.limits) odds.push_back(limit.odds);
  return odds;
}

std::vector<std::optional<double>> loosened(std::vector<std::optional<double>> odds, std::uint64_t passes) {
  const auto n = static_cast<double>(passes);
  for (std::optional<double>& o : odds) {
    if (!o) continue;
    const auto allowed = static_cast<double>(engine::misses_allowed(*o, passes));
    const double spare = std::ceil(5 * std::sqrt(allowed + 1));
    o = std::max(1 - (allowed + spare) / n, 0.5 / n);
  }
  return odds;
}

double reached_by(std::vector<double> margins, double odds) {
  const auto k = static_cast<std::ptrdiff_t>(
      std::min<std::uint64_t>(engine::misses_allowed(odds, margins.size()), margins.size() - 1));
  std::nth_element(margins.begin(), margins.begin() + k, margins.end());
  return margins[static_cast<std::size_t>(k)];
}

engine::Plan::Kind plan_kind(const Study& study) {
  using Kind = engine::Plan::Kind;
  switch (study.passes.plan) {
    case Passes::Plan::plain:
      return Kind::plain;
    case Passes::Plan::latin:
      return Kind::latin;
    case Passes::Plan::sobol:
      return Kind::sobol;
  }
  return Kind::sobol;
}

SharedPasses::SharedPasses(const Study& study, engine::Plan::Kind kind, std::uint64_t count, engine::Stream stream,
                           const std::atomic<bool>* interrupted, engine::Batches batches, std::uint64_t hold)
    : study_(study),
      kind_(kind),
      count_(engine::whole_nets(kind, count) * batches.count),
      a_batch_(count),
      stream_(stream),
      interrupted_(interrupted),
      batches_(batches),
      hold_(hold) {}

SharedPasses::SharedPasses(const Study& study, const SharedPasses& other, bool drawn_alike)
    : study_(study),
      kind_(other.kind_),
      count_(other.count_),
      a_batch_(other.a_batch_),
      stream_(other.stream_),
      interrupted_(other.interrupted_),
      batches_(other.batches_),
      hold_(other.hold_),
      drawn_by_(drawn_alike ? &other : nullptr) {}

const SharedInputs& SharedPasses::inputs(const Candidate& candidate) const {
  if (drawn_by_) return drawn_by_->inputs(candidate);
  const std::scoped_lock lock(mutex_);
  std::unique_ptr<SharedInputs>& shared = inputs_[{candidate.surface_index, candidate.surface.screw.up_to}];
  if (shared) return *shared;
  InputLaw law = input_law(study_, candidate.surface);
  engine::Plan plan(kind_, law.law.dimensions(), a_batch_, study_.passes.key, stream_, batches_);
  auto made = std::make_unique<SharedInputs>(SharedInputs{std::move(law), std::move(plan), {}});
  for (std::uint64_t b = 0; held() && b < made->plan.blocks(); ++b) {
    made->held.emplace_back(models::input_count);
    draw(*made, b, made->held.back());
  }
  shared = std::move(made);
  return *shared;
}

template <class Use>
void SharedPasses::each_block(const Candidate& candidate, const models::ScrewModel& screw, Use use) const {
  const SharedInputs& shared = inputs(candidate);
  engine::Block margins(std::max<std::size_t>(1, study_.limits.size())),
      drawn(shared.held.empty() ? models::input_count : 1);
  for (std::uint64_t b = 0; b < shared.plan.blocks(); ++b) {
    if (interrupted_ && *interrupted_) throw engine::Interrupted{};
    const std::size_t n = shared.plan.size(b);
    if (shared.held.empty()) draw(shared, b, drawn);
    screw.evaluate_margins(shared.held.empty() ? drawn : shared.held[b], margins, n);
    calls_ += n;
    if (!use(margins, n)) return;
  }
}

models::ScrewModel SharedPasses::model(const Candidate& candidate, const models::Design& design) const {
  const bool from_table = inputs(candidate).inputs.face_from_table;
  return {study_.duty, design, models::allowances(study_.tables, study_.duty, design, from_table), study_.limits};
}

bool SharedPasses::passes_all(const Candidate& candidate, const models::Design& design,
                              const std::vector<std::optional<double>>& odds) const {
  return passes_all(candidate, model(candidate, design), odds);
}

bool SharedPasses::passes_all(const Candidate& candidate, const models::Design& design,
                              const std::vector<std::optional<double>>& odds, double free_length) const {
  models::Duty duty = study_.duty;
  duty.free_length = free_length;
  const bool from_table = inputs(candidate).inputs.face_from_table;
  return passes_all(candidate,
                    {duty, design, models::allowances(study_.tables, duty, design, from_table), study_.limits}, odds);
}

std::vector<double> SharedPasses::nominal(const Candidate& candidate, const models::ScrewModel& screw) const {
  ++calls_;
  return screw.evaluate_one(inputs(candidate).inputs.nominal);
}

bool SharedPasses::passes_all(const Candidate& candidate, const models::ScrewModel& screw,
                              const std::vector<std::optional<double>>& odds) const {
  const std::vector<double> nominal = this->nominal(candidate, screw);
  std::vector<std::uint64_t> allowed(odds.size()), missed(odds.size());
  bool any = false;
  for (std::size_t k = 0; k < odds.size(); ++k) {
    if (!odds[k] && !(nominal[models::output_count + k] >= study_.limits[k].least_margin())) return false;
    any = any || odds[k];
    if (odds[k]) allowed[k] = engine::misses_allowed(*odds[k], count_);
  }
  if (!any) return true;
  bool decided = false;
  each_block(candidate, screw, [&](const engine::Block& margin, std::size_t n) {
    for (std::size_t k = 0; k < odds.size() && !decided; ++k) {
      if (!odds[k]) continue;
      const double least = study_.limits[k].least_margin();
      for (std::size_t i = 0; i < n; ++i) missed[k] += !(margin.row(k)[i] >= least);
      decided = missed[k] > allowed[k];
    }
    return !decided;
  });
  return !decided;
}

std::vector<std::vector<double>> SharedPasses::margins(const Candidate& candidate, const models::Design& design) const {
  std::vector<std::vector<double>> all(study_.limits.size());
  for (std::vector<double>& row : all) row.reserve(count_);
  each_block(candidate, model(candidate, design), [&](const engine::Block& margin, std::size_t n) {
    for (std::size_t k = 0; k < all.size(); ++k) all[k].insert(all[k].end(), margin.row(k), margin.row(k) + n);
    return true;
  });
  return all;
}

std::vector<double> SharedPasses::shares(const Candidate& candidate, const models::Design& design) const {
  std::vector<std::uint64_t> hits(study_.limits.size());
  each_block(candidate, model(candidate, design), [&](const engine::Block& margin, std::size_t n) {
    for (std::size_t k = 0; k < hits.size(); ++k) {
      const double least = study_.limits[k].least_margin();
      for (std::size_t i = 0; i < n; ++i) hits[k] += margin.row(k)[i] >= least;
    }
    return true;
  });
  std::vector<double> shares;
  for (const std::uint64_t h : hits) shares.push_back(static_cast<double>(h) / static_cast<double>(count_));
  return shares;
}

std::vector<double> SharedPasses::judged(const Candidate& candidate, const models::Design& design,
                                         std::vector<double> nominal,
                                         const std::vector<std::optional<double>>& odds) const {
  const SharedInputs& shared = inputs(candidate);
  if (!shared.held.empty()) {
    std::vector<std::vector<double>> all = margins(candidate, design);
    for (std::size_t k = 0; k < odds.size(); ++k)
      if (odds[k]) nominal[k] = reached_by(std::move(all[k]), *odds[k]);
    return nominal;
  }
  engine::Ask ask;
  for (std::size_t k = 0; k < odds.size(); ++k)
    if (odds[k]) ask.reaches.push_back({models::output_count + k, *odds[k]});
  const engine::Survey survey = engine::survey(shared.plan, shared.inputs.law, model(candidate, design), ask,
                                               study_.passes.key, {1, {}, interrupted_});
  calls_ += 2 * count_;
  auto reach = survey.reaches.begin();
  for (std::size_t k = 0; k < odds.size(); ++k)
    if (odds[k]) nominal[k] = (reach++)->estimate;
  return nominal;
}

Judgement SharedPasses::judge(const Candidate& candidate, const models::Design& design,
                              const std::vector<std::optional<double>>& odds) const {
  const SharedInputs& shared = inputs(candidate);
  const std::vector<double> nominal = model(candidate, design).evaluate_one(shared.inputs.nominal);
  Judgement judgement;
  judgement.nominal.assign(nominal.begin() + models::output_count, nominal.end());
  judgement.judged = judgement.nominal;
  if (std::any_of(odds.begin(), odds.end(), [](const auto& o) { return o.has_value(); }))
    judgement.judged = judged(candidate, design, judgement.nominal, odds);
  for (std::size_t k = 0; k < odds.size(); ++k)
    judgement.holds.push_back(judgement.judged[k] >= study_.limits[k].least_margin());
  return judgement;
}

}  // namespace studies
