/// Pulled too hard: which part goes first, against a plain bisection on the torque of every part of every pass.
#include "models/screw/breaking.hpp"

#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>

#include "models/screw/screw_model.hpp"

using namespace models;

namespace {

constexpr double mm = 1e-3, MPa = 1e6, inf = std::numeric_limits<double>::infinity();
constexpr std::array<std::pair<Must, double Parts::*>, 5> breaking = {{{Must::yield, &Parts::yield},
                                                                       {Must::thread_root, &Parts::thread_root},
                                                                       {Must::nut_body, &Parts::nut_body},
                                                                       {Must::buckling, &Parts::buckling},
                                                                       {Must::stripping, &Parts::stripping}}};

/// Tr 40 x 7 in bronze on a 40/20 mm pad.
Design press(double nut_length = 60 * mm, double nut_outside = 64 * mm) {
  const Material steel{"steel", 310 * MPa, 570 * MPa, 207e9, 7800, false, "steel", "typical", 0, ""};
  const Material bronze{"bronze", 138 * MPa, 241 * MPa, 100e9, 8910, false, "bronze", "minimum", 0, ""};
  const Face pad{Face::Kind::pad, 40 * mm, 20 * mm, {}, Face::Law::wear, "", false};
  return {make_thread(Form::trapezoidal, 40 * mm, 7 * mm), nut_length, nut_outside, steel, bronze, "", pad};
}

/// One limit a part: that it goes first.
ScrewModel each_first(const Duty& duty, const Design& design) {
  std::vector<Limit> limits;
  for (const auto& [part, of] : breaking)
    limits.push_back({Must::goes_first, Limit::Kind::margin, 1, {}, StripBasis::yield, part});
  return {duty, design, {12 * MPa, 8 * MPa, 1, 1}, limits};
}

double margin(const ScrewModel& model, const Inputs& x, std::size_t part) {
  return model.evaluate_one(x)[output_count + part];
}

double bisected(const ScrewModel& model, const Inputs& x, double Parts::*part) {
  double low = 1e-6, high = 1e9;
  if (!(model.parts_at(high, x).*part <= 1)) return inf;
  for (int i = 0; i < 100; ++i) {
    const double middle = std::sqrt(low * high);
    (model.parts_at(middle, x).*part <= 1 ? high : low) = middle;
  }
  return high;
}

double bisected_margin(const ScrewModel& model, const Inputs& x, std::size_t marked) {
  const bool of_nut = breaking[marked].first == Must::nut_body || breaking[marked].first == Must::stripping;
  double others = inf;
  for (std::size_t k = 0; k < breaking.size(); ++k) {
    const bool screw_alone = of_nut && breaking[k].first == Must::thread_root;
    if (k != marked)
      others = std::min(others, bisected(model, x, screw_alone ? &Parts::screw_root : breaking[k].second));
  }
  const double own = bisected(model, x, breaking[marked].second);
  return own < inf ? others / own : 0;
}

struct Dice {
  std::mt19937_64 bits;
  double between(double low, double high) { return low + (high - low) * static_cast<double>(bits() >> 11) * 0x1p-53; }
};

/// Any way to load the section, any column, any handle.
Duty random_duty(Dice& dice) {
  Duty duty;
  duty.action = dice.bits() % 2 ? Action::clamp : Action::lift;
  duty.screw_in_compression = dice.bits() % 4 != 0;
  duty.torque_path = static_cast<TorquePath>(dice.bits() % 3);
  duty.free_length = dice.between(100 * mm, 1500 * mm);
  duty.handle = 0.4;
  if (dice.bits() % 2) duty.handle_overhang = dice.between(0, 100 * mm);
  if (dice.bits() % 2) duty.overload = Overload{dice.between(100, 400)};
  return duty;
}

Inputs random_inputs(Dice& dice, double drag) {
  const double strength = dice.between(200, 500) * MPa;
  return {200,
          20000,
          dice.between(0.05, 0.25),
          dice.between(0, 0.2),
          drag,
          strength,
          1.6 * strength,
          dice.between(40, 400) * MPa,
          207e9,
          dice.between(0.8, 1.2),
          dice.between(-0.1, 0.1) * mm};
}

/// The largest relative difference from bisection over parts and random passes.
double worst(double least_drag, double most_drag) {
  Dice dice{std::mt19937_64(5)};
  double most = 0;
  for (int i = 0; i < 1000; ++i) {
    const ScrewModel model = each_first(random_duty(dice), press(dice.between(10, 90) * mm, dice.between(44, 80) * mm));
    const Inputs x = random_inputs(dice, dice.between(least_drag, most_drag));
    for (std::size_t k = 0; k < breaking.size(); ++k) {
      const double right = bisected_margin(model, x, k), ours = margin(model, x, k);
      if (right < inf) most = std::max(most, std::abs(ours / right - 1));
      if (right == 0 || right == inf) CHECK(ours == right);
    }
  }
  return most;
}

}  // namespace

TEST_CASE("What goes first is what bisection finds, to rounding unless drag is most of the torque", "[limit]") {
  CHECK(worst(0, 0) < 1e-14);
  CHECK(worst(0, 50) < 1e-14);
  CHECK(worst(50, 100) < 1e-12);
  CHECK(worst(100, 300) < 1e-7);  // from here on some screws break before the drag is overcome
  CHECK(worst(300, 1000) < 1e-4);
  CHECK(worst(1000, 5000) < 1e-4);
}

TEST_CASE("A weak enough nut goes first on every pass and a strong enough one on none", "[limit]") {
  Dice dice{std::mt19937_64(6)};
  constexpr std::size_t stripping = 4;
  for (int i = 0; i < 500; ++i) {
    const ScrewModel model = each_first(random_duty(dice), press(14 * mm, 90 * mm));
    Inputs x = random_inputs(dice, dice.between(0, 5));
    x[static_cast<std::size_t>(Input::nut_strength)] = 1 * MPa;
    CHECK(margin(model, x, stripping) >= 1);
    x[static_cast<std::size_t>(Input::nut_strength)] = 1e6 * MPa;
    CHECK(margin(model, x, stripping) < 1);
  }
}

TEST_CASE("Without drag margin times torque is constant, so margins at one torque tell what goes first", "[limit]") {
  Dice dice{std::mt19937_64(7)};
  for (int i = 0; i < 200; ++i) {
    const ScrewModel model = each_first(random_duty(dice), press());
    const Inputs x = random_inputs(dice, 0);
    const Parts at = model.parts_at(77, x);
    const double screw = std::min({at.yield, at.screw_root, at.buckling});
    CHECK(margin(model, x, 4) == Approx(std::min(screw, at.nut_body) / at.stripping).epsilon(1e-13));
    CHECK(margin(model, x, 2) == Approx(std::min(screw, at.stripping) / at.nut_body).epsilon(1e-13));
    CHECK(margin(model, x, 1) ==
          Approx(std::min({at.yield, at.buckling, at.nut_body, at.stripping}) / at.thread_root).epsilon(1e-13));
  }
}

TEST_CASE("What no torque breaks does not go first, and what alone can break does", "[limit]") {
  Duty duty;
  duty.screw_in_compression = false;
  const Inputs jams = {200, 20000, 20, 0.1, 2, 310 * MPa, 570 * MPa, 138 * MPa, 207e9, 1, 0};  // μ s tan λ > 1
  const ScrewModel model = each_first(duty, press());
  CHECK(margin(model, jams, 3) == 0);                                   // there is no column
  CHECK(margin(model, jams, 4) == 0);                                   // no force strips a screw that jams
  CHECK((margin(model, jams, 0) > 0.9 && margin(model, jams, 0) < 2));  // the torque still twists it off
  duty.torque_path = TorquePath::face;  // and without force only the handle end carries any
  CHECK(margin(each_first(duty, press()), jams, 0) == inf);
  CHECK(margin(each_first(duty, press()), jams, 1) == 0);
  Inputs nothing = jams;
  nothing[static_cast<std::size_t>(Input::screw_yield)] = inf;
  for (std::size_t part = 0; part < breaking.size(); ++part) CHECK(margin(model, nothing, part) == 0);
  nothing[static_cast<std::size_t>(Input::screw_yield)] = 0;
  CHECK(margin(model, nothing, 0) >= 1);
}

TEST_CASE("The handle bends the screw as in the overload pull, else as in the working pull", "[limit]") {
  Duty duty;
  duty.handle = 0.3;
  duty.handle_overhang = 0.2;
  const Inputs x = {200, 20000, 0.15, 0.1, 0, 310 * MPa, 570 * MPa, 138 * MPa, 207e9, 1, 0};
  const auto yields = [&] { return bisected(each_first(duty, press()), x, &Parts::yield); };
  const double one_hand = yields();
  duty.hands = 2;
  const double two_hands = yields();
  CHECK(two_hands > 1.1 * one_hand);
  duty.overload = Overload{100};
  CHECK(yields() == one_hand);
  duty.overload->handle = 0.6;
  CHECK((yields() > one_hand && yields() < two_hands));
}
