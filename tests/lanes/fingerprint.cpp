#include "tests/lanes/fingerprint.hpp"

#include <bit>

#include "engine/pass/survey.hpp"
#include "models/screw/screw_model.hpp"

namespace tests {
namespace {

using namespace engine;

/// FNV-1a over words; all that is not a number counts as one.
class Digest {
public:
  void add(std::uint64_t word) {
    for (int byte = 0; byte < 8; ++byte) sum_ = (sum_ ^ ((word >> (8 * byte)) & 0xff)) * 0x100000001b3;
  }
  void add(double x) { add(x == x ? std::bit_cast<std::uint64_t>(x) : ~std::uint64_t{0}); }
  void add(const Survey& s) {
    for (const Moments& m : s.moments)
      add(m.n), add(m.mean), add(m.squares), add(m.least), add(m.most), add(m.missing), add(m.unbounded);
    for (const Histogram& h : s.histograms)
      for (std::size_t b = 0; b < Histogram::bins + 2; ++b) add(h.count(b));
    for (const auto& output : s.quantiles)
      for (const Ranked& r : output) add(r.low), add(r.estimate), add(r.high);
    for (const Ranked& r : s.reaches) add(r.low), add(r.estimate), add(r.high);
    for (const std::uint64_t hits : s.hits) add(hits);
    for (const auto& rows : {s.kept_inputs, s.kept_outputs})
      for (const std::vector<double>& row : rows)
        for (const double x : row) add(x);
  }
  std::uint64_t sum() const { return sum_; }

private:
  std::uint64_t sum_ = 0xcbf29ce484222325;
};

models::ScrewModel screw(models::Action action, bool pulled) {
  using namespace models;
  constexpr double mm = 1e-3, MPa = 1e6;
  const Material steel{"steel", 310 * MPa, 570 * MPa, 207e9, 7800, false, "steel", "typical", 0, ""};
  const Material bronze{"bronze", 138 * MPa, 241 * MPa, 100e9, 8910, false, "bronze", "minimum", 0, ""};
  const Face pad{Face::Kind::pad, 40 * mm, 20 * mm, {}, Face::Law::wear, "", false};
  const Design design{make_thread(Form::trapezoidal, 40 * mm, 7 * mm), 60 * mm, 64 * mm, steel, bronze, "", pad};
  Duty duty;
  duty.action = action;
  duty.force = 20000;
  duty.handle = 0.4;
  duty.handle_overhang = 0.1;
  duty.free_length = 500 * mm;
  duty.screw_speed = 0.5;
  if (pulled) duty.overload = Overload{250};
  std::vector<Limit> limits;
  for (std::size_t k = 0; k < must_count; ++k)
    limits.push_back(
        {static_cast<Must>(k), k % 3 ? Limit::Kind::margin : Limit::Kind::at_most, 2, {}, StripBasis::yield});
  return ScrewModel(duty, design, Allowances{12 * MPa, 8 * MPa, 1.4, 1.25}, limits);
}

/// Parts of every shape that has a loop of its own, and some of those that have a table, tied and alone, wide enough to
/// jam and to be clipped.
Law law() {
  const std::vector<Part> parts = {{0, true, normal(1, 0.4)},
                                   {1, true, lognormal(1, 0.1)},
                                   {2, false, lognormal(0.4, 0.9)},
                                   {3, false, lognormal(0.1, 0.02)},
                                   {4, false, triangular(0, 0.5, 2)},
                                   {5, true, normal(1, 0.06)},
                                   {10, false, uniform(-1e-4, 1e-4)},
                                   {6, true, weibull(1, 0.1)},
                                   {7, true, beta(1, 0.1, 0.5, 1.5)},
                                   {8, true, gumbel(1, 0.02)},
                                   {9, true, between(student(1, 0.02, 4), 0.5, 1.5)}};
  return Law({160, 20000, 0, 0, 0, 310e6, 570e6, 138e6, 207e9, 1, 0}, std::vector<double>(11, -1.0), parts,
             {{2, 3, 0.7}, {7, 8, 0.5}});
}

}  // namespace

std::uint64_t fingerprint(unsigned threads) {
  Digest digest;
  Ask ask;
  ask.quantiles = {0.01, 0.5, 0.999};
  ask.keep = true;
  const Law inputs = law();
  for (const Plan::Kind kind : {Plan::Kind::plain, Plan::Kind::sobol})
    for (const bool pulled : {false, true}) {
      const models::ScrewModel model = screw(pulled ? models::Action::lift : models::Action::clamp, pulled);
      ask.thresholds.assign(1, {model.outputs() - 3, 1});
      ask.reaches.assign(1, {model.outputs() - 1, 0.99});
      digest.add(survey(Plan(kind, inputs.dimensions(), 20000, 7, Stream::test), inputs, model, ask, 7,
                        {threads, {}, nullptr}));
    }
  return digest.sum();
}

}  // namespace tests
