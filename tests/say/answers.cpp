#include "tests/say/answers.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tests {
namespace {

using engine::Dimension;
using models::Must;
using models::Output;
using Kind = models::Limit::Kind;
using studies::Bounded;

constexpr double none = std::numeric_limits<double>::quiet_NaN();
constexpr std::uint64_t count = 1048576;

models::Design tr(double diameter, double nut_length) {
  models::Design design;
  design.thread.diameter = diameter;
  design.thread.pitch = 7e-3;
  design.thread.pitch_diameter = diameter - 3.5e-3;
  design.thread.root_diameter = diameter - 8e-3;
  design.nut_length = nut_length;
  design.screw.name = "steel 1045 hot rolled";
  design.screw.family = "steel";
  design.nut.name = "bearing bronze C93200";
  design.nut.family = "bronze";
  design.lubrication = "oil";
  design.face.mean_radius = 3.5e-3;
  design.face.on = "bronze";
  return design;
}

studies::CandidateVerdict screw(const std::string& designation, double diameter, double mass) {
  studies::CandidateVerdict it;
  it.design = tr(diameter, 1.5 * diameter);
  it.designation = designation;
  it.mass = mass;
  it.examined = true;
  return it;
}

studies::OutputSummary output(Output which, double nominal) {
  studies::OutputSummary it;
  it.name = models::row(which).name;
  it.dimension = models::row(which).dimension;
  it.nominal = it.mean = nominal;
  it.spread = 0.08 * nominal;
  for (std::size_t i = 0; i < it.quantiles.size(); ++i) {
    const double value = nominal * (0.76 + 0.06 * static_cast<double>(i));
    it.quantiles[i] = {value * 0.999, value, value * 1.001};
  }
  return it;
}

void outputs(studies::Answer& answer, double force, double torque) {
  answer.outputs = {output(Output::force, force),
                    output(Output::torque, torque),
                    output(Output::useful_torque, 0.2921 * torque),
                    output(Output::thread_torque, 0.6344 * torque),
                    output(Output::face_torque, 0.0735 * torque),
                    output(Output::drag_torque, 0),
                    output(Output::lock_margin, 2.0312),
                    output(Output::lock_margin_thread, 1.8312),
                    output(Output::lowering_torque, 0.4312 * torque)};
  studies::OutputSummary missing = output(Output::stroke_time, none);
  missing.quantiles.fill({none, none, none});
  missing.mean = missing.spread = none;
  missing.reason = "no speed is given";
  answer.outputs.push_back(missing);
}

Told base() {
  Told told;
  studies::Study& study = told.study;
  study.path = "studies/orchard_press.toml";
  study.title = "Orchard rack press, main screw";
  study.digest = "ab12";
  study.tables_digest = "cd34";
  study.duty.force = 22e3;
  study.duty.drive = models::Drive::hand_force;
  study.duty.drive_value = 140;
  study.duty.handle = 0.4;
  study.duty.hands = 2;
  study.duty.drive_to_torque = 0.8;
  study.units = {{Dimension::force, "kN"}, {Dimension::length, "mm"}, {Dimension::stress, "MPa"}};
  study.held_fixed = {"drag", "modulus"};
  study.passes.key = 20261125;
  studies::Answer& answer = told.answer;
  answer.passes = count;
  answer.hundred = "pulls";
  answer.not_checked = {"frame", "welds", "shock", "corrosion", "foundation"};
  answer.assumptions = {"The thread is cut."};
  answer.face_torque_by_pressure = none;
  answer.results_path = "results/orchard_press.h5";
  answer.scatter = {{"thread_friction", "lognormal", "every pull", "handbook", 0.13, Dimension::none,
                     "0.1 to 0.16 inside 80 of 100"}};
  answer.cautions = {{studies::Level::caution, "A pipe on the handle doubles the pull.", "hand_force is given"},
                     {studies::Level::warning, "The clamped frame stores energy.", "the duty clamps"}};
  answer.reached = {{"yield", 231.4},
                    {"thread_root", 298.7},
                    {"stripping", 411.3},
                    {"buckling", std::numeric_limits<double>::infinity()}};
  answer.pick = screw("Tr 40x7", 0.040, 5.8912);
  outputs(answer, 25.31e3, 112);
  return told;
}

void searched(studies::Answer& answer) {
  answer.sized = answer.searched = true;
  answer.search = {408, 37, 12, 4000000, true, 0, 16384, false, 0};
}

studies::Neighbour neighbour(const std::string& designation, double diameter, double mass, std::vector<Must> misses,
                             double has, double needs) {
  studies::Neighbour it{screw(designation, diameter, mass), misses};
  it.verdict.misses = misses.front();
  it.verdict.has = has;
  it.verdict.needs = needs;
  return it;
}

studies::Matter matter() {
  studies::Matter it;
  it.must = Must::force;
  it.judged = "margin.force";
  it.before = Bounded{0.03081, 0.0312, 0.03149};
  it.inputs = {{{"thread_friction", "face_friction"},
                {0.71, 0.72, 0.73},
                {0.72, 0.73, 0.74},
                {{0.0026, 0.00277, 0.0029}},
                {{-0.0288, -0.02843, -0.0281}}},
               {{"hand_force"},
                {0.26, 0.27, 0.28},
                {0.26, 0.27, 0.28},
                {{0.0251, 0.0255, 0.0259}},
                {{-0.006, -0.0057, -0.0054}}}};
  it.classes = {{{"every pull"}, {0.84, 0.85, 0.86}, {0.84, 0.85, 0.86}},
                {{"fixed"}, {0.14, 0.15, 0.16}, {0.14, 0.15, 0.16}}};
  it.swings = {{models::Input::drive, "hand_force", Dimension::force, 123, 158, 1.17, 1.51},
               {models::Input::thread_friction, "thread_friction", Dimension::none, 0.0935, 0.171, 1.6, 1.09},
               {models::Input::face_friction, "face_friction", Dimension::none, 0.06, 0.106, 1.36, 1.3}};
  return it;
}

studies::Worth worth(const char* change, const char* from, const char* to, double mean, double helps) {
  studies::Worth it;
  it.change = change, it.from = from, it.to = to;
  it.designation = "Tr 40x7";
  it.nominal = 1.01 * mean, it.mean = mean, it.share = mean / 25.31e3;
  it.helps = {std::max(0.0, helps - 1e-4), helps, std::min(1.0, helps + 1e-4)};
  it.passes = 65536;
  return it;
}

std::vector<studies::Worth> worths() {
  std::vector<studies::Worth> all = {
      worth("face", "point, mean radius 3.5 mm on bronze", "rolling, mean radius 3.5 mm", 1.512e3, 1),
      worth("pitch", "7 mm", "3 mm", 1.213e3, 0.731),
      worth("nut", "bearing bronze C93200", "aluminium bronze C95400", 0, 0), worth("starts", "1", "2", -4.2e3, 0.0021),
      worth("lubrication", "oil", "dry", -6.1234e3, 0)};
  all[1].designation = "Tr 40x3", all[1].mass = 0.412, all[1].misses = {Must::bearing, Must::overload};
  all[3].misses = {Must::force, Must::self_locking};
  all[4].offered = true, all[4].misses = {Must::force};
  all.push_back(worth("pitch", "7 mm", "60 mm", none, none));
  all.back().passes = 0, all.back().offered = true, all.back().why = "0.8 engaged turns, where at least 1 is needed";
  return all;
}

}  // namespace

studies::LimitVerdict judged(Must must, Kind kind, double asked, double has, std::optional<double> odds,
                             Bounded reached, bool holds) {
  studies::LimitVerdict it;
  it.limit = {must, kind, asked, odds, models::StripBasis::yield};
  it.name = models::row(must).name;
  it.dimension = kind == Kind::margin ? Dimension::none : models::row(must).dimension;
  it.asked_value = asked;
  it.has = has;
  it.spare = kind == Kind::at_most ? 1 - has / asked : has / asked - 1;
  it.nominal_margin = 1.2 * has / asked;
  it.odds = reached;
  it.misses = static_cast<std::uint64_t>(std::llround((1 - reached.estimate) * count));
  it.holds = holds;
  return it;
}

Told press() {
  Told told = base();
  studies::Answer& answer = told.answer;
  searched(answer);
  answer.limits = {judged(Must::force, Kind::at_least, 22e3, 22.768e3, 0.95, {0.96851, 0.9688, 0.96919}, true),
                   judged(Must::buckling, Kind::margin, 3, 3.3091, std::nullopt, {0.93, 0.931, 0.932}, true),
                   judged(Must::bearing, Kind::at_most, 12e6, 10.764e6, 0.95, {0.9981, 0.9982, 0.9983}, true),
                   judged(Must::self_locking, Kind::margin, 1, 1.4723, 0.98, {1 - 1.41e-5, 1, 1}, true),
                   judged(Must::overload, Kind::margin, 1, 1.0292, 0.99, {0.9951, 0.9953, 0.9955}, true)};
  for (const auto& limit : answer.limits) told.study.limits.push_back(limit.limit);
  answer.matter = matter();
  answer.governs = Must::buckling;
  answer.tightest = Must::overload;
  answer.next_size_down =
      neighbour("Tr 38x7", 0.038, 5.2123, {Must::buckling, Must::bearing, Must::overload}, 2.4713, 3);
  answer.next_size_up = neighbour("Tr 42x7", 0.042, 6.6312, {Must::force}, 21.968e3, 22e3);
  answer.lighter = {answer.next_size_down->verdict};
  answer.window = {*answer.next_size_down, {*answer.pick, {}}, *answer.next_size_up};
  answer.window[1].verdict.passes = true;
  answer.worth = worths();
  return told;
}

Told failing_rate() {
  Told told = base();
  studies::Answer& answer = told.answer;
  answer.limits = {judged(Must::force, Kind::at_least, 22e3, 21.97e3, 0.95, {0.9491, 0.94962, 0.94997}, false),
                   judged(Must::buckling, Kind::margin, 3, 2.4713, std::nullopt, {0.4, 0.41, 0.42}, false)};
  for (const auto& limit : answer.limits) told.study.limits.push_back(limit.limit);
  answer.tightest = Must::buckling;
  return told;
}

Told nothing_passes() {
  Told told = press();
  studies::Answer& answer = told.answer;
  answer.pick.reset();
  answer.passes = 0;
  answer.matter.reset();
  answer.outputs.clear();
  answer.limits.clear();
  answer.reached.clear();
  answer.governs = answer.tightest = std::nullopt;
  answer.next_size_down = answer.next_size_up = std::nullopt;
  answer.lighter.clear();
  answer.window.clear();
  answer.worth.clear();
  answer.relax = {{Must::force, 20.1e3, 22e3, Dimension::force, false, "Tr 40x7"},
                  {Must::bearing, 13.4e6, 12e6, Dimension::stress, false, "Tr 44x7"},
                  {Must::buckling, 2.47, 3, Dimension::none, true, "Tr 38x7"},
                  {Must::force, 0.48, 0.52, Dimension::length, false, "Tr 38x7", studies::Change::Kind::free_length},
                  {Must::force, 1.12, 1, Dimension::none, false, "Tr 38x7", studies::Change::Kind::screw_strength}};
  told.study.duty.free_length = 0.52;
  answer.results_path = "results/orchard_press.h5";
  return told;
}

Told no_must() {
  Told told = base();
  told.study.duty.force.reset();
  return told;
}

Told lift() {
  Told told = base();
  studies::Study& study = told.study;
  study.path = "gate.toml";
  study.duty.action = models::Action::lift;
  study.duty.force = 15e3;
  study.duty.drive = models::Drive::motor;
  study.duty.handle.reset();
  told.answer.limits = {judged(Must::torque, Kind::margin, 1, 1.0823, 0.99, {0.99962, 0.99971, 0.99979}, true)};
  study.limits = {told.answer.limits.front().limit};
  told.answer.hundred = "screws built";
  told.answer.tightest = Must::torque;
  return told;
}

Told inch_press() {
  Told told = press();
  told.study.units = {{Dimension::force, "lbf"}, {Dimension::length, "in"}};
  told.study.inch = true;
  told.study.duty.force = 5000 * 4.4482216152605;
  studies::LimitVerdict& force = told.answer.limits.front();
  force.limit.asked = force.asked_value = *told.study.duty.force;
  force.has = 5168 * 4.4482216152605;
  told.study.limits.front() = force.limit;
  return told;
}

}  // namespace tests
