/// What the figures are drawn from, against the answer and against plain formulas.
#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "studies/ask/question.hpp"
#include "studies/say/limits.hpp"
#include "studies/sheet/figures.hpp"
#include "tests/ask/read_text.hpp"

namespace {

using namespace studies;
using models::Output;
using sheet::Figure;
using sheet::Json;

/// A press (invented) with an answer to draw.
struct Drawn {
  Study study;
  Answer answer;
  std::optional<sheet::Scene> scene;

  explicit Drawn(const std::string& text, Verb verb = Verb::rate) : study(tests::study_of(text, verb)) {
    answer = verb == Verb::rate ? rate(study, {}) : size(study, {});
    scene.emplace(sheet::scene(answer, {}));
  }
  Drawn(const Drawn&) = delete;
  double nominal(Output output) const { return answer.outputs[static_cast<std::size_t>(output)].nominal; }
  const OutputSummary& of(Output output) const { return answer.outputs[static_cast<std::size_t>(output)]; }
};

const std::string press = R"(title = "Press, invented"
[duty]
action = "clamp"
force = "20 kN"
torque = "100 N.m"
free_length = "450 mm"
overload = { torque = "190 N.m" }
[choose]
thread = "Tr 36x6"
nut_length = "54 mm"
lubrication = "oil"
screw = "steel 1045 hot rolled"
nut = "bearing bronze C93200"
face = { kind = "pad", mean_radius = "5 mm", on = "bronze" }
[scatter]
torque = { spread = "5 %" }
drag = { mean = "2 N.m", spread = "10 %" }
[must]
force = { at_least = "20 kN", odds = 0.9 }
buckling = { margin = 2.5 }
bearing = { at_most = "12 MPa", odds = 0.9 }
overload = { margin = 1, odds = 0.9 }
yield = { margin = 1.5, odds = 0.99 }
[passes]
count = 65536
)";

const std::string jack = R"(title = "Jack, invented"
[duty]
action = "lift"
force = "3000 lbf"
hand_force = "40 lbf"
handle = "12 in"
travel = "8 in"
[choose]
thread = "buttress-7-45 32x5"
nut_length = "2 in"
lubrication = "oil"
screw = "steel 1018 cold drawn"
nut = "bearing bronze C93200"
face = { kind = "rolling", mean_radius = "0.8 in" }
[must]
hand_force = { at_most = "40 lbf", odds = 0.9 }
)";

const Json& first_line(const Figure& figure) { return figure.data.at("lines").at(0); }

/// y of a line at x, between its points.
double at(const Json& line, double x) {
  const Json& points = line.at("points");
  for (std::size_t i = 1; i < points.size(); ++i) {
    const double a = points[i - 1][0], b = points[i][0];
    if (a <= x && x <= b) {
      const double low = points[i - 1][1], high = points[i][1];
      return low + (high - low) * (x - a) / (b - a);
    }
  }
  return NAN;
}

}  // namespace

TEST_CASE("The passes drawn are those of the verdict: as many as were run, they have its very quantiles") {
  const Drawn d(press);
  REQUIRE(d.answer.passes == d.scene->passes());
  const std::vector<double>& force = d.scene->row(Output::force);
  const auto short_of = std::count_if(force.begin(), force.end(), [](double f) { return f < 20e3; });
  CHECK(sheet::quantile(force, 0.05) == Approx(d.of(Output::force).quantiles[2].estimate).epsilon(1e-4));
  CHECK(100.0 * static_cast<double>(short_of) / static_cast<double>(force.size()) ==
        Approx(say::shortfall(d.answer.limits[0]).estimate).epsilon(1e-12));
}

TEST_CASE("The chance curve passes where the answer has its quantiles, and the wall stands at the force asked") {
  const Drawn d(press);
  const Figure f = sheet::chance(*d.scene);
  for (const auto& [q, in_hundred] : {std::pair(2, 95.0), std::pair(4, 50.0), std::pair(6, 5.0)})
    CHECK(at(first_line(f), d.of(Output::force).quantiles[q].estimate / 1e3) == Approx(in_hundred).margin(0.3));
  CHECK(f.data.at("walls").at(0).at("at").get<double>() == Approx(20));
  CHECK(f.data.at("walls").at(0).at("side") == -1);
  const Figure lift = sheet::chance(*Drawn(jack).scene);
  CHECK(lift.data.at("walls").at(0).at("side") == 1);
  CHECK(lift.data.at("x").at("unit").at("own") == "lbf");
}

TEST_CASE("What the torque goes into adds up to what the force asked takes, by the work of one turn") {
  const Drawn d(press);
  const Json bar = sheet::torque(*d.scene)->data.at("bars").at(0);
  const double total = bar.at("lifts").get<double>() + bar.at("thread").get<double>() + bar.at("face").get<double>() +
                       bar.at("drag").get<double>();
  CHECK(bar.at("lifts").get<double>() == Approx(20e3 * 6e-3 / (2 * std::numbers::pi)).epsilon(1e-12));
  // T = T_0 + F (T_n − T_0)/F_n: Coulomb friction is proportional to the force.
  const double drag = d.nominal(Output::drag_torque);
  CHECK(total == Approx(drag + 20e3 * (d.nominal(Output::torque) - drag) / d.nominal(Output::force)).epsilon(1e-12));
}

TEST_CASE("A rung of the ladder stands at one plus what the limit has to spare") {
  const Drawn d(press);
  const Json rungs = sheet::ladder(*d.scene)->data.at("rungs");
  REQUIRE(rungs.size() == d.answer.limits.size());
  const auto by_spare = say::by_spare(d.answer);
  for (std::size_t i = 0; i < rungs.size(); ++i) {
    const LimitVerdict& v = *by_spare[i];
    const double judged = rungs[i].at("states").at(0).at("judged");
    const bool at_most = v.limit.kind == models::Limit::Kind::at_most;
    CHECK((at_most ? 1 - 1 / judged : judged - 1) == Approx(v.spare).margin(1e-12));
    CHECK(rungs[i].at("holds") == v.holds);
  }
}

TEST_CASE("Thread and gap are equally wide at the pitch line, and the loaded flank has the form's own slope") {
  for (const char* thread :
       {"Tr 36x6", "square 36x6", "buttress-7-45 36x6", "buttress-3-30 36x6", "M36x4", "acme 36x6", "stub-acme 36x6"}) {
    INFO(thread);
    std::string text = press;
    text.replace(text.find("Tr 36x6"), 7, thread);
    const Drawn d(text);
    const models::Thread& t = d.scene->design.thread;
    const Json data = sheet::profile(*d.scene).data;
    const Json& c = data.at("screw");
    const auto axial = [&](std::size_t i) { return c[i][0].get<double>(); };
    const auto radius = [&](std::size_t i) { return c[i][1].get<double>(); };
    CHECK(radius(1) == Approx(t.diameter * 500));
    CHECK(radius(0) == Approx(t.root_diameter * 500));
    // On each flank, where it crosses the pitch line.
    const double pitch_line = t.pitch_diameter * 500;
    const auto crossing = [&](std::size_t a, std::size_t b) {
      return axial(a) + (axial(b) - axial(a)) * (pitch_line - radius(a)) / (radius(b) - radius(a));
    };
    CHECK(crossing(3, 2) - crossing(0, 1) == Approx(t.pitch * 500).epsilon(1e-9));
    const Json& flank = data.at("load_flank");
    const double run = std::abs(flank[1][0].get<double>() - flank[0][0].get<double>()),
                 rise = flank[1][1].get<double>() - flank[0][1].get<double>();
    CHECK(run / rise == Approx(t.tan_load_flank).margin(1e-12));
    CHECK(rise == Approx(t.working_depth() * 1e3));
  }
}

TEST_CASE("The ramp rises by the lead, and friction holds where the margin of self-locking is one") {
  const Drawn d(press);
  const Json data = sheet::ramp(*d.scene).data;
  const double slope = std::tan(data.at("lead_angle").get<double>() * std::numbers::pi / 180),
               holds = std::tan(data.at("holds").at("nominal").get<double>() * std::numbers::pi / 180);
  CHECK(slope == Approx(6 / (std::numbers::pi * 33)).epsilon(1e-12));
  CHECK(holds / slope == Approx(d.nominal(Output::lock_margin_thread)).epsilon(1e-12));
}

TEST_CASE("The reach chart gives the buckling load that the model has, over the margin asked") {
  const Drawn d(press);
  const Figure f = *sheet::reach(*d.scene);
  CHECK(at(first_line(f), 450) == Approx(d.nominal(Output::buckling_load) / 2.5 / 1e3).epsilon(2e-3));
  CHECK(f.data.at("here").at(0).at("at").get<double>() == Approx(450));
  CHECK_FALSE(sheet::reach(*Drawn([] {
                              std::string text = press;
                              text.replace(text.find("free_length"), 0, "screw_in = \"tension\"\n");
                              text.replace(text.find("buckling = { margin = 2.5 }"), 27, "");
                              return text;
                            }())
                                .scene));
}

TEST_CASE("The handle chart goes through the answer where the handle is as it is, and is right elsewhere") {
  const Drawn d(press);
  const Figure f = *sheet::handle(*d.scene);
  CHECK(at(first_line(f), 100) == Approx(d.of(Output::force).quantiles[2].estimate / 1e3).epsilon(5e-3));
  // Half as much torque again, drag as it is: typed, and rated.
  std::string more = press;
  more.replace(more.find("100 N.m"), 7, "150 N.m");
  CHECK(at(first_line(f), 150) == Approx(Drawn(more).of(Output::force).quantiles[2].estimate / 1e3).epsilon(5e-3));
}

TEST_CASE("Half of the screws have lost a part about where its nominal value breaks, and none long before") {
  const Drawn d(press);
  const Figure f = *sheet::first_to_go(*d.scene);
  const double torque = d.answer.reached.front().torque;
  CHECK(at(first_line(f), torque) == Approx(50).margin(12));
  CHECK(at(first_line(f), 0.4 * torque) < 1);
}

TEST_CASE("The map counts every pass once, and as many short as the answer does") {
  const Drawn d(press);
  const Figure f = *sheet::friction_map(*d.scene);
  std::size_t all = 0;
  for (const Json& cell : f.data.at("cells"))
    for (const std::size_t k : {2, 3, 4, 5}) all += cell[k].get<std::size_t>();
  CHECK(static_cast<double>(all) > 0.995 * static_cast<double>(d.scene->passes()));  // a few lie beyond the frame
  CHECK(all <= d.scene->passes());
  double shares = 0;
  for (const auto& row : f.numbers.rows) shares += std::stod(row[1]);
  CHECK(shares == Approx(100).margin(0.1));
  // The line of the force crosses where a rated study with these frictions just reaches it.
  for (const Json& curve : f.data.at("curves")) {
    if (curve.at("label") != "force") continue;
    const Json& point = curve.at("points").at(curve.at("points").size() / 2);
    std::string fixed = press;
    fixed.replace(fixed.find("[scatter]\n"), 10,
                  fmt::format("[scatter]\nthread_friction = {:.9f}\nface_friction = {:.9f}\n", point[0].get<double>(),
                              point[1].get<double>()));
    CHECK(Drawn(fixed).nominal(Output::force) == Approx(20e3).epsilon(1e-6));
  }
}

TEST_CASE("The settling chart ends with the answer's own shortfall and bounds") {
  const Drawn d(press);
  const Figure f = *sheet::settling(*d.scene, {});
  const Json last = first_line(f).at("points").back(), band = first_line(f).at("band").back();
  const Bounded shortfall = say::shortfall(d.answer.limits[0]);
  CHECK(last[0].get<double>() == 65536);
  CHECK(last[1].get<double>() == Approx(shortfall.estimate));
  CHECK(band[1].get<double>() == Approx(shortfall.low));
  CHECK(band[2].get<double>() == Approx(shortfall.high));
}

TEST_CASE("The nut chart has of every limit what the verdict has, at the nut there is") {
  const Drawn d(press);
  const Figure f = *sheet::nut_length(*d.scene, {});
  const auto bearing = std::find_if(d.answer.limits.begin(), d.answer.limits.end(),
                                    [](const LimitVerdict& v) { return v.name == "bearing"; });
  REQUIRE(bearing != d.answer.limits.end());
  CHECK(at(first_line(f), 54) == Approx(12e6 / bearing->has).epsilon(0.02));
}

TEST_CASE("A study that asks nothing has figures all the same, and none of what it does not have") {
  std::string text = press;
  text.erase(text.find("[must]"), text.find("[passes]") - text.find("[must]"));
  text.replace(text.find("force = \"20 kN\"\n"), 16, "");
  text.replace(text.find("free_length = \"450 mm\"\n"), 23, "");
  const Drawn d(text);
  std::vector<std::string> ids;
  for (const Figure& figure : sheet::all_figures(*d.scene, {})) {
    ids.push_back(figure.id);
    INFO(figure.id);
    CHECK_FALSE(figure.says.empty());
    CHECK_FALSE(figure.alt.empty());
    CHECK_FALSE(figure.numbers.rows.empty());
    for (const auto& row : figure.numbers.rows) CHECK(row.size() == figure.numbers.head.size());
  }
  for (const char* none : {"ladder", "window", "reach", "nut", "trade", "settling"})
    CHECK(std::find(ids.begin(), ids.end(), none) == ids.end());
  for (const char* some : {"view", "profile", "ramp", "torque", "chance", "first", "handle"})
    CHECK(std::find(ids.begin(), ids.end(), some) != ids.end());
}

TEST_CASE("Figures have the same bits on one thread and on three") {
  const Study study = tests::study_of(press, Verb::rate);
  const Answer answer = rate(study, {});
  const auto drawn = [&](unsigned threads) {
    const engine::Running running{threads, {}, nullptr};
    const sheet::Scene scene = sheet::scene(answer, running);
    std::string all;
    for (const Figure& figure : sheet::all_figures(scene, running)) all += figure.data.dump() + figure.says;
    return all;
  };
  CHECK(drawn(1) == drawn(3));
}
