#include "models/screw/limit.hpp"

#include <bit>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>

#include "models/screw/screw_model.hpp"

using namespace models;

namespace {

constexpr double mm = 1e-3, MPa = 1e6, inf = std::numeric_limits<double>::infinity();
constexpr Allowances allowed{12 * MPa, 8 * MPa, 1.4, 1.25};

using O = Output;
using Kind = Limit::Kind;

/// Tr 40 x 7 in bronze on a 40/20 mm pad.
Design press(double nut_length = 60 * mm) {
  const Material steel{"steel", 310 * MPa, 570 * MPa, 207e9, 7800, false, "steel", "typical", 0, ""};
  const Material bronze{"bronze", 138 * MPa, 241 * MPa, 100e9, 8910, false, "bronze", "minimum", 0, ""};
  const Face pad{Face::Kind::pad, 40 * mm, 20 * mm, {}, Face::Law::wear, "", false};
  return {make_thread(Form::trapezoidal, 40 * mm, 7 * mm), nut_length, 64 * mm, steel, bronze, "", pad};
}

/// Pulled up by hand, or lifting, with everything given.
Duty clamp(Action action = Action::clamp) {
  Duty duty;
  duty.action = action;
  duty.force = 20000;
  duty.drive_to_torque = 0.4;
  duty.handle = 0.4;
  duty.free_length = 500 * mm;
  duty.overload = Overload{250};
  return duty;
}
Duty lift() { return clamp(Action::lift); }

Inputs drawn(double drive, double load = 22000, double friction = 0.15) {
  return {drive, load, friction, 0.1, 1, 310 * MPa, 570 * MPa, 138 * MPa, 207e9, 1, 0};
}

std::vector<Limit> all_limits(Kind kind = Kind::margin, double asked = 1, StripBasis basis = StripBasis::yield) {
  std::vector<Limit> all;
  for (std::size_t k = 0; k < must_count; ++k) all.push_back({static_cast<Must>(k), kind, asked, {}, basis});
  return all;
}

/// Outputs and margins of one pass, by name.
struct Outcome {
  std::vector<double> y;
  double operator[](Output output) const { return y[static_cast<std::size_t>(output)]; }
  double operator[](Must must) const { return y[output_count + static_cast<std::size_t>(must)]; }
};

Outcome outcome(const Duty& duty, const Design& design, const Inputs& x, const std::vector<Limit>& all = all_limits()) {
  return {ScrewModel(duty, design, allowed, all).evaluate_one(x)};
}

double von_mises(const Outcome& o) {
  return std::hypot(o[O::axial_stress] + o[O::bending_stress], std::sqrt(3.0) * o[O::torsion_stress]);
}

std::uint64_t bits(double x) { return std::bit_cast<std::uint64_t>(x); }

/// Any duty, with half of its optional parts left out.
Duty random_duty(std::mt19937_64& dice) {
  const auto given = [&](double value) { return dice() % 2 ? std::optional<double>(value) : std::nullopt; };
  Duty duty = dice() % 2 ? Duty{} : lift();
  duty.screw_in_compression = dice() % 2;
  duty.handle = given(0.3);
  duty.hands = dice() % 2 ? 1 : 2;
  duty.handle_overhang = given(0.05);
  (dice() % 2 ? duty.screw_speed : duty.travel_speed) = given(2);
  duty.travel = given(0.2);
  duty.free_length = given(0.4);
  duty.torque_path = static_cast<TorquePath>(dice() % 3);
  if (dice() % 2) duty.overload.reset();
  return duty;
}

Inputs random_inputs(std::mt19937_64& dice) {
  const auto u = [&] { return static_cast<double>(dice() >> 11) * 0x1p-53; };
  const double friction = u() < 0.05 ? 20 : 0.3 * u(), strength = 400 * MPa * (u() + 0.1);
  return {200 * u(),      30000 * u(),         friction,        0.2 * u(),         8 * u(), strength, 2 * strength,
          0.5 * strength, 207e9 * (0.5 + u()), 0.8 + 0.4 * u(), 2e-4 * (u() - 0.5)};
}

}  // namespace

TEST_CASE("A jammed clamp makes no force and a jammed lift has no torque that lifts it", "[limit]") {
  const Outcome tight = outcome(clamp(), press(), drawn(250, 0, 20));  // μ s tan λ > 1
  CHECK((tight[O::force] == 0 && tight[O::efficiency] == 0 && tight[Must::force] == 0));
  const Outcome up = outcome(lift(), press(), drawn(250, 22000, 20));
  CHECK((up[O::torque] == inf && up[Must::torque] == 0 && up[Must::hand_force] == 0 && up[O::efficiency] == 0));
  CHECK(up[O::bending_stress] == 0);  // nothing that is known becomes unknown
  CHECK((up[O::body_stress] == inf && up[Must::yield] == 0 && up[Must::thread_root] == 0));
}

TEST_CASE("Bearing and stripping margins are in proportion to the nut's length", "[limit]") {
  const Outcome one = outcome(lift(), press(), drawn(0)), two = outcome(lift(), press(120 * mm), drawn(0));
  for (const Must must : {Must::bearing, Must::stripping}) CHECK(two[must] == Approx(2 * one[must]).epsilon(1e-14));
  const double screw = one[O::screw_thread_shear] / MPa, nut = one[O::nut_thread_shear] / MPa;
  CHECK(one[Must::stripping] == Approx(0.577 * std::min(310 / screw, 138 / nut)).epsilon(1e-14));
  const Outcome ultimate = outcome(lift(), press(), drawn(0), all_limits(Kind::margin, 1, StripBasis::ultimate));
  CHECK(ultimate[Must::stripping] == Approx(0.6 * std::min(570 / screw, 241 / nut)).epsilon(1e-14));
}

TEST_CASE("A longer nut never weakens thread root or nut body", "[limit]") {
  double root = 0, body = 0;
  const double long_nut = outcome(lift(), press(), drawn(0))[O::nut_root_stress];
  for (double turns = 1; turns < 12; turns += 0.25) {
    const Outcome o = outcome(lift(), press(turns * 7 * mm), drawn(0));
    CHECK((o[Must::thread_root] >= root && o[Must::nut_body] >= body));
    CHECK(o[O::nut_root_stress] == Approx(long_nut * std::max(0.38, 1 / turns) / 0.38).epsilon(1e-13));  // the share k1
    root = o[Must::thread_root], body = o[Must::nut_body];
  }
}

TEST_CASE("Nut body and brittle shear follow their formulas", "[limit]") {
  const Outcome o = outcome(lift(), press(), drawn(0));
  const double D4 = 41 * mm, Do = 64 * mm, pr = 22000 * std::tan(15 * π / 180) / (π * 36.5 * mm * 60 * mm);
  const double hoop = pr * (Do * Do + D4 * D4) / (Do * Do - D4 * D4), tension = 22000 / (π / 4 * (Do * Do - D4 * D4));
  CHECK(o[O::nut_hoop_stress] == Approx(hoop).epsilon(1e-13));
  CHECK(o[Must::nut_body] == Approx(138 * MPa / std::max(hoop, tension)).epsilon(1e-13));
  CHECK(brittle_shear_strength(1) == Approx(0.7826).margin(5e-5));
  Design iron = press();
  iron.nut.brittle = true;  // weaker than the screw's threads
  const Outcome brittle = outcome(lift(), iron, drawn(0));
  CHECK(brittle[Must::stripping] == Approx(138 * MPa * 3.6 / 4.6 / brittle[O::nut_thread_shear]).epsilon(1e-13));
}

TEST_CASE("Columns buckle as published, Euler and Johnson meeting at half the yield strength", "[published]") {
  // Shigley 9th ed., Ex. 4-17: pinned, 1.5 m, 88 kN, S_y 500 MPa, E 207 GPa: d 37.48 mm; 375 mm (Johnson): 19.02 mm.
  CHECK(buckling_load(37.485 * mm, 1.5, 1, 207e9, 500 * MPa) == Approx(88e3).epsilon(2e-4));
  CHECK(buckling_load(19.02 * mm, 0.375, 1, 207e9, 500 * MPa) == Approx(88e3).epsilon(1e-3));
  for (const double end : {0.25, 1.0, 1.2}) {
    const double transition = std::sqrt(2 * π * π * end * 207e9 / 500e6) * 25 * mm / 4;
    for (const double length : {transition * (1 - 1e-9), transition * (1 + 1e-9)})
      CHECK(buckling_load(25 * mm, length, end, 207e9, 500e6) == Approx(250e6 * π / 4 * 25e-3 * 25e-3).epsilon(1e-8));
  }
  Duty pulled = lift();
  pulled.screw_in_compression = false;
  const Outcome o = outcome(pulled, press(), drawn(0)), pushed = outcome(lift(), press(), drawn(0));
  CHECK((std::isnan(o[O::buckling_load]) && std::isnan(o[O::slenderness]) && o[Must::buckling] == inf));
  CHECK(pushed[Must::buckling] == Approx(pushed[O::buckling_load] / 22000).epsilon(1e-14));
}

TEST_CASE("The section carries the torque that its path says, and the handle end all of it", "[limit]") {
  Duty duty = lift();
  const auto torsion = [&](TorquePath path) { return duty.torque_path = path, outcome(duty, press(), drawn(0)); };
  const Outcome full = torsion(TorquePath::full), thread = torsion(TorquePath::thread);
  const Outcome face = torsion(TorquePath::face);
  const double per_torque = 16 / (π * std::pow(32 * mm, 3)), through = full[O::useful_torque] + full[O::thread_torque];
  CHECK(full[O::torsion_stress] == Approx(full[O::torque] * per_torque).epsilon(1e-13));
  CHECK(thread[O::torsion_stress] == Approx(through * per_torque).epsilon(1e-13));
  CHECK(face[O::torsion_stress] == Approx(full[O::face_torque] * per_torque).epsilon(1e-13));
  for (const Outcome& o : {full, thread, face})
    CHECK(o[O::body_stress] ==
          Approx(std::max(von_mises(o), std::sqrt(3.0) * full[O::torque] * per_torque)).epsilon(1e-13));
}

TEST_CASE("A one-armed handle bends the screw, two hands do not", "[limit]") {
  Duty duty = clamp();
  duty.handle_overhang = 60 * mm;
  const Outcome one = outcome(duty, press(), drawn(250));
  CHECK(one[O::bending_stress] == Approx(250 * 60 * mm * 32 / (π * std::pow(32 * mm, 3))).epsilon(1e-13));
  duty.hands = 2;
  CHECK(outcome(duty, press(), drawn(250))[O::bending_stress] == 0);
}

TEST_CASE("The overload margin is the least of its four parts at the stated pull, whatever the drive", "[limit]") {
  std::mt19937_64 dice(8);
  for (int i = 0; i < 300; ++i) {
    Duty duty = random_duty(dice);
    duty.overload = Overload{100 + static_cast<double>(dice() % 400)};
    const ScrewModel model(duty, press(), allowed, all_limits());
    Inputs x = random_inputs(dice);
    const Parts parts = model.parts_at(duty.overload->torque, x);
    const double least = std::min({parts.yield, parts.thread_root, parts.buckling, parts.stripping});
    CHECK(Outcome{model.evaluate_one(x)}[Must::overload] == least);
    x[0] *= 3, x[1] *= 2;
    CHECK(Outcome{model.evaluate_one(x)}[Must::overload] == least);
  }
}

TEST_CASE("A block gives bit for bit what one pass gives, and the margins alone are those margins", "[limit]") {
  std::mt19937_64 dice(9);
  for (int round = 0; round < 40; ++round) {
    const ScrewModel model(random_duty(dice), press(), allowed, all_limits(static_cast<Kind>(round % 3), 1.5));
    constexpr std::size_t passes = 37;
    engine::Block x(input_count), y(model.outputs()), margins(must_count);
    std::vector<Inputs> all(passes);
    for (std::size_t i = 0; i < passes; ++i) {
      all[i] = random_inputs(dice);
      for (std::size_t k = 0; k < input_count; ++k) x.row(k)[i] = all[i][k];
    }
    model.evaluate(x, y, passes);
    model.evaluate_margins(x, margins, passes);
    std::size_t wrong = 0;
    for (std::size_t i = 0; i < passes; ++i) {
      const std::vector<double> one = model.evaluate_one(all[i]);
      for (std::size_t k = 0; k < one.size(); ++k) wrong += bits(one[k]) != bits(y.row(k)[i]);
      for (std::size_t k = 0; k < must_count; ++k) wrong += bits(margins.row(k)[i]) != bits(y.row(output_count + k)[i]);
    }
    CHECK(wrong == 0);
  }
}

TEST_CASE("An output without a value says why, and a limit on it is never met", "[limit]") {
  std::mt19937_64 dice(10);
  for (int round = 0; round < 200; ++round) {
    Design design = press();
    if (round % 2) design.face = {Face::Kind::point, {}, {}, 5 * mm, Face::Law::wear, "", false};
    const ScrewModel model(random_duty(dice), design, allowed, all_limits(static_cast<Kind>(round % 3), 1e-6));
    const Outcome o{model.evaluate_one(drawn(150))};
    for (std::size_t k = 0; k < output_count; ++k) {
      CHECK(std::isnan(o.y[k]) == !model.missing(static_cast<Output>(k)).empty());
    }
    if (std::isnan(o[O::hand_force])) CHECK_FALSE(o[Must::hand_force] >= 1);
    if (std::isnan(o[O::face_pressure])) CHECK_FALSE(o[Must::face_bearing] >= 1);
  }
}

TEST_CASE("A margin is capacity over demand for every kind of limit", "[limit]") {
  const auto with = [](Kind kind) { return outcome(lift(), press(), drawn(250), all_limits(kind, 3)); };
  const Outcome o = with(Kind::margin), at_most = with(Kind::at_most), at_least = with(Kind::at_least);
  const Helix h = helix(7 * mm, 36.5 * mm, press().thread.tan_load_flank);  // 1.4 and 1.25 times the running frictions:
  CHECK(o[O::starting_torque] == Approx(22000 * (raising_arm(h, 0.21) + 0.125 * 15 * mm) + 1).epsilon(1e-14));
  CHECK(o[Must::torque] == Approx(250 * 0.4 / o[O::starting_torque]).epsilon(1e-14));
  CHECK(o[Must::hand_force] == Approx(250 / (o[O::starting_torque] / 0.4)).epsilon(1e-14));
  for (std::size_t k = 0; k < must_count; ++k) {
    const auto must = static_cast<Must>(k);
    if (!judged(must)) continue;
    const double value = must == Must::hand_force ? o[O::starting_torque] / 0.4 : o[*judged(must)];
    CHECK(at_most[must] == Approx(3 / value).epsilon(1e-14));
    CHECK(at_least[must] == Approx(value / 3).epsilon(1e-14));
  }
  CHECK(o[Must::force] == Approx(o[O::force] / 20000).epsilon(1e-14));
  CHECK(o[Must::yield] == Approx(310 * MPa / o[O::body_stress]).epsilon(1e-14));
  CHECK(o[Must::bearing] == Approx(12 * MPa / o[O::bearing_pressure]).epsilon(1e-14));
  CHECK(o[Must::face_bearing] == Approx(8 * MPa / o[O::face_pressure]).epsilon(1e-14));
  CHECK(o[Must::self_locking] == o[O::lock_margin_thread]);
  const double root = std::min(310 / o[O::thread_root_stress], 138 / o[O::nut_root_stress]) * MPa;
  CHECK(o[Must::thread_root] == Approx(root).epsilon(1e-14));
}
