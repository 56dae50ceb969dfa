#include "tests/bench/works.hpp"

#include <limits>

#include "engine/lanes/instructions.hpp"
#include "models/screw/screw_model.hpp"
#include "tests/bench/standard.hpp"

namespace bench {

SCREWTINY_LOOPS_OF_SETS(Loops, loops)

const Loops& loops_in_use() { return engine::in_use(baseline::loops, v3::loops, v4::loops); }

namespace {

using namespace engine;

constexpr double no_floor = -std::numeric_limits<double>::infinity();

class Standard : public BlockModel {
public:
  explicit Standard(bool lean) : lean_(lean) {}
  std::size_t inputs() const override { return input_count; }
  std::size_t outputs() const override { return output_count; }
  void evaluate(const Block& x, Block& y, std::size_t passes) const override {
    (lean_ ? loops_in_use().lean : loops_in_use().as_written)(x.row(0), y.row(0), Block::stride, passes);
  }

private:
  bool lean_;
};

/// Output k is the sum of all inputs, times k + 1.
class Sums : public BlockModel {
public:
  Sums(std::size_t inputs, std::size_t outputs) : inputs_(inputs), outputs_(outputs) {}
  std::size_t inputs() const override { return inputs_; }
  std::size_t outputs() const override { return outputs_; }
  void evaluate(const Block& x, Block& y, std::size_t passes) const override {
    for (std::size_t i = 0; i < passes; ++i) y.row(0)[i] = 0;
    for (std::size_t k = 0; k < inputs_; ++k)
      for (std::size_t i = 0; i < passes; ++i) y.row(0)[i] += x.row(k)[i];
    for (std::size_t k = 1; k < outputs_; ++k)
      for (std::size_t i = 0; i < passes; ++i) y.row(k)[i] = y.row(0)[i] * static_cast<double>(k + 1);
  }

private:
  std::size_t inputs_, outputs_;
};

void ask_for(Work& work, std::size_t from) {
  for (std::size_t k = from; k < work.model->outputs(); ++k) {
    work.counts.thresholds.push_back({k, 1});
    work.ranks.reaches.push_back({k, 0.99});
  }
  work.ranks.thresholds = work.counts.thresholds;
  work.ranks.quantiles = {0.01, 0.05, 0.5, 0.95, 0.99};
}

}  // namespace

Work standard_work(bool lean) {
  const Marginal friction{Shape::lognormal, -2.0, 0.15, 0}, face{Shape::lognormal, -2.3, 0.15, 0},
      model{Shape::lognormal, 0, 0.05, 0};
  const std::vector<Marginal> all = {normal(40, 2),        friction,           face,
                                     normal(400e6, 20e6),  normal(207e9, 4e9), model,
                                     uniform(-1e-4, 1e-4), uniform(0.5, 1.5)};
  std::vector<Part> parts;
  for (std::size_t k = 0; k < all.size(); ++k) parts.push_back({k, false, all[k]});
  const std::vector<double> base(input_count), floors(input_count, no_floor);
  Work work{Law(base, floors, parts, {}), std::make_unique<Standard>(lean), {}, {}};
  ask_for(work, first_limit);
  return work;
}

Work screw_work() {
  using namespace models;
  constexpr double mm = 1e-3, MPa = 1e6;
  const Material steel{"steel", 310 * MPa, 570 * MPa, 207e9, 7800, false, "steel", "typical", 0, ""};
  const Material bronze{"bronze", 138 * MPa, 241 * MPa, 100e9, 8910, false, "bronze", "minimum", 0, ""};
  const Face pad{Face::Kind::pad, 40 * mm, 20 * mm, {}, Face::Law::wear, "", false};
  const Design design{make_thread(Form::trapezoidal, 40 * mm, 7 * mm), 60 * mm, 64 * mm, steel, bronze, "", pad};
  Duty duty;
  duty.force = 20000;
  duty.drive_to_torque = duty.handle.emplace(0.4);
  duty.free_length = 500 * mm;
  duty.travel = 200 * mm;
  duty.screw_speed = 0.5;
  duty.overload = Overload{250};
  std::vector<Limit> limits;
  for (const Must must : {Must::force, Must::yield, Must::thread_root, Must::buckling, Must::bearing, Must::stripping,
                          Must::self_locking})
    limits.push_back({must, Limit::Kind::margin, 1, {}, StripBasis::yield});
  const std::vector<Part> parts = {{0, true, lognormal(1, 0.1)},
                                   {2, false, lognormal(0.13, 0.02)},
                                   {3, false, lognormal(0.1, 0.02)},
                                   {5, false, normal(310 * MPa, 20 * MPa)},
                                   {9, true, triangular(0.9, 1, 1.1)}};
  Work work{
      Law({400, 0, 0, 0, 1, 0, 570 * MPa, 138 * MPa, 207e9, 1, 0}, std::vector<double>(11, 0.0), parts, {{1, 2, 0.7}}),
      std::make_unique<ScrewModel>(duty, design, Allowances{12 * MPa, 8 * MPa, 1.4, 1.25}, limits),
      {},
      {}};
  ask_for(work, models::output_count);
  return work;
}

Work shapes_work(bool normals) {
  std::vector<Marginal> all = {beta(1, 0.1, 0.5, 1.5), weibull(1, 0.1), gumbel(1, 0.1),
                               student(1, 0.1, 4),     weibull(1, 0.2), between(normal(1, 0.1), 0.8, 1.3)};
  std::vector<Part> parts;
  for (std::size_t k = 0; k < all.size(); ++k) parts.push_back({k, false, normals ? normal(1, 0.1) : all[k]});
  Work work{Law(std::vector<double>(all.size()), std::vector<double>(all.size(), no_floor), parts, {{3, 4, 0.7}}),
            std::make_unique<Sums>(all.size(), 1),
            {},
            {}};
  ask_for(work, 1);
  return work;
}

Work sized_work(std::size_t inputs, std::size_t outputs) {
  std::vector<Part> parts;
  for (std::size_t k = 0; k < inputs; ++k) parts.push_back({k, false, lognormal(1, 0.1)});
  Work work{Law(std::vector<double>(inputs), std::vector<double>(inputs, no_floor), parts, {}),
            std::make_unique<Sums>(inputs, outputs),
            {},
            {}};
  ask_for(work, outputs);
  return work;
}

}  // namespace bench
