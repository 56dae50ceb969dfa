#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <map>
#include <numbers>
#include <set>
#include <vector>

#include "engine/base/error.hpp"
#include "models/thread/series.hpp"

// "Seen" = checked against a copy of the source; "from memory" = recalled and recomputed, not seen.

using namespace models;

namespace {

constexpr double inch = 0.0254, mm = 1e-3;

Thread in_inches(Form form, double diameter, double threads, int starts = 1) {
  return make_thread(form, diameter * inch, inch / threads, starts);
}

Thread in_mm(Form form, double diameter, double pitch, int starts = 1) {
  return make_thread(form, diameter * mm, pitch * mm, starts);
}

/// Half a unit of the last printed place, and the rounding of the check itself.
Approx printed(double value, double unit) { return Approx(value).epsilon(0).margin(unit / 2 * 1.000001); }

double lead_angle(const Thread& t) {
  return std::atan(t.lead() / (std::numbers::pi * t.pitch_diameter)) * 180 / std::numbers::pi;
}

/// Degrees and minutes as published tables print a lead angle; within one minute.
Approx angle(int degrees, int minutes) { return Approx(degrees + minutes / 60.0).epsilon(0).margin(0.5 / 60 + 1e-9); }

double circle(double diameter) { return std::numbers::pi / 4 * diameter * diameter; }

std::string refusal(Form form, double diameter, double pitch, int starts = 1) {
  try {
    in_mm(form, diameter, pitch, starts);
  } catch (const engine::Refusal& refused) {
    CHECK(refused.code() == engine::ExitCode::study);
    CHECK(refused.problems().size() == 1);
    CHECK_FALSE(refused.problems()[0].fix.empty());
    return refused.what();
  }
  return "";
}

const std::vector<Form> with_series{Form::acme, Form::stub_acme, Form::trapezoidal, Form::iso_metric, Form::unified};

}  // namespace

TEST_CASE("Acme pitch, minor and external minor diameters are those of ASME B1.5", "[published]") {
  // ASME B1.5 as reprinted in Machinery's Handbook 27; basic diameters and maximum external minor diameter, seen.
  struct Row {
    double d, n, pitch, minor, root;
  };
  const auto row = GENERATE(values<Row>(
      {{0.25, 16, 0.2188, 0.1875, 0.1775}, {0.5, 10, 0.4500, 0.4000, 0.3800}, {1, 5, 0.9000, 0.8000, 0.7800}}));
  const Thread t = in_inches(Form::acme, row.d, row.n);
  CHECK(t.pitch_diameter / inch == printed(row.pitch, 1e-4));
  CHECK(t.nut_minor / inch == printed(row.minor, 1e-4));
  CHECK(t.root_diameter / inch == printed(row.root, 1e-4));
}

TEST_CASE("Acme lead angles are those of ASME B1.5", "[published]") {
  // ASME B1.5, lead angle at the basic pitch diameter, one start; seen.
  CHECK(lead_angle(in_inches(Form::acme, 0.25, 16)) == angle(5, 12));
  CHECK(lead_angle(in_inches(Form::acme, 0.75, 6)) == angle(4, 33));
  CHECK(lead_angle(in_inches(Form::acme, 1.125, 5)) == angle(3, 33));
}

TEST_CASE("The Acme clearance is on diameter and is halved above ten threads per inch", "[published]") {
  // Machinery's Handbook 27, Acme table 1 (seen): height of thread = P/2 + half the allowance. The trap: 0.010 and
  // 0.005 in are the radial halves.
  const auto height = [](double n) {
    const Thread t = in_inches(Form::acme, 4, n);
    return (t.diameter - t.root_diameter) / 2 / inch;
  };
  CHECK(height(10) == printed(0.0600, 1e-4));
  CHECK(height(12) == printed(0.0467, 1e-4));
  CHECK(height(2.5) == printed(0.2100, 1e-4));
  const Thread coarse = in_inches(Form::acme, 1, 5), fine = in_inches(Form::acme, 0.375, 12);
  CHECK((coarse.nut_major - coarse.diameter) / inch == Approx(0.020));
  CHECK((fine.nut_major - fine.diameter) / inch == Approx(0.010));
}

TEST_CASE("A 1-5 Acme has a root area 5 % below that of the textbook root without clearance", "[published]") {
  // 0.5027 in² at d − P (Shigley's root), 0.4778 in² at the standard's d − P − a: which diameter is meant matters.
  const Thread t = in_inches(Form::acme, 1, 5);
  CHECK(circle(t.nut_minor / inch) == printed(0.5027, 1e-4));
  CHECK(circle(t.root_diameter / inch) == printed(0.4778, 1e-4));
}

TEST_CASE("The pitch of ten threads an inch takes the coarse clearance however it was converted") {
  for (const double pitch : {0.1 * 0.0254, 0.0254 / 10, 2.54 / 1000, 2.54e-3 * (1 - 1e-12)})
    CHECK((make_thread(Form::acme, 0.0127, pitch).nut_major - 0.0127) / inch == Approx(0.020));
  CHECK((make_thread(Form::acme, 0.0127, 2.5399e-3).nut_major - 0.0127) / inch == Approx(0.010));
}

TEST_CASE("Stub Acme pitch and minor diameters and lead angles are those of ASME B1.8", "[published]") {
  // ASME B1.8-1988, seen. 1/4-16 prints 4°54', recomputed 4°55': the other rows bear the angle.
  struct Row {
    double d, n, pitch, minor;
  };
  const auto row = GENERATE(values<Row>({{0.25, 16, 0.2312, 0.2125}, {0.5, 10, 0.4700, 0.4400}, {3, 2, 2.850, 2.700}}));
  const Thread t = in_inches(Form::stub_acme, row.d, row.n);
  // The table cuts 0.23125 to 0.2312.
  CHECK(t.pitch_diameter / inch == printed(row.pitch, 1.01e-4));
  CHECK(t.nut_minor / inch == printed(row.minor, 1e-4));
  CHECK(lead_angle(in_inches(Form::stub_acme, 1, 5)) == angle(3, 52));
  CHECK(lead_angle(in_inches(Form::stub_acme, 1.5, 4)) == angle(3, 12));
  CHECK(lead_angle(in_inches(Form::stub_acme, 2, 4)) == angle(2, 22));
}

TEST_CASE("The root of a stub Acme screw has the same clearance as general purpose Acme", "[published]") {
  // ASME B1.8: "same major and minor clearances as B1.5", seen.
  CHECK(in_inches(Form::stub_acme, 1, 5).root_diameter / inch == Approx(0.88 - 0.020));
  CHECK(in_inches(Form::stub_acme, 0.375, 12).root_diameter / inch == Approx(0.375 - 0.05 - 0.010));
}

TEST_CASE("Trapezoidal diameters are those of the ISO 2904 tables", "[published]") {
  // d2, D4, d3, D1 in mm; rows seen.
  struct Row {
    double d, P, d2, D4, d3, D1;
  };
  const auto row = GENERATE(values<Row>({{8, 1.5, 7.250, 8.300, 6.200, 6.500},
                                         {12, 3, 10.500, 12.500, 8.500, 9.000},
                                         {48, 8, 44.000, 49.000, 39.000, 40.000}}));
  const Thread t = in_mm(Form::trapezoidal, row.d, row.P);
  CHECK(t.pitch_diameter / mm == printed(row.d2, 1e-3));
  CHECK(t.nut_major / mm == printed(row.D4, 1e-3));
  CHECK(t.root_diameter / mm == printed(row.d3, 1e-3));
  CHECK(t.nut_minor / mm == printed(row.D1, 1e-3));
}

TEST_CASE("The coarsest trapezoidal threads have a clearance of one millimetre", "[published]") {
  // ISO 2904, Tr 120x14: d3 104, D4 122 (a_c = 1.0 mm from P = 14 on is from memory).
  const Thread t = in_mm(Form::trapezoidal, 120, 14);
  CHECK(t.root_diameter / mm == printed(104.000, 1e-3));
  CHECK(t.nut_major / mm == printed(122.000, 1e-3));
}

TEST_CASE("Three misprints of a public trapezoidal table are not followed") {
  // The table prints d3 9.250 for Tr 9x2, d3 2.000 and D4 11.000 for Tr 10x1.5, d3 41.000 for Tr 42x10.
  CHECK(in_mm(Form::trapezoidal, 9, 2).root_diameter / mm == Approx(6.500));
  CHECK(in_mm(Form::trapezoidal, 10, 1.5).root_diameter / mm == Approx(8.200));
  CHECK(in_mm(Form::trapezoidal, 10, 1.5).nut_major / mm == Approx(10.300));
  CHECK(in_mm(Form::trapezoidal, 42, 10).root_diameter / mm == Approx(31.000));
}

TEST_CASE("A trapezoidal pitch between two listed ones takes the clearance of its band") {
  const auto clearance = [](double pitch) {
    const Thread t = in_mm(Form::trapezoidal, 100, pitch);
    CHECK((t.nut_minor - t.root_diameter) / mm == Approx(t.nut_major / mm - 100));
    return (t.nut_major / mm - 100) / 2;
  };
  CHECK(clearance(1.89) == Approx(0.15));
  CHECK(clearance(1.9) == Approx(0.25));
  CHECK(clearance(5.49) == Approx(0.25));
  CHECK(clearance(5.5) == Approx(0.5));
  CHECK(clearance(12.99) == Approx(0.5));
  CHECK(clearance(13) == Approx(1.0));
}

TEST_CASE("A rolled trapezoidal screw is 0.15 P smaller at the root and nowhere else", "[published]") {
  // ISO 2901:2016, seen.
  const Thread cut = make_thread(Form::trapezoidal, 0.04, 0.007),
               rolled = make_thread(Form::trapezoidal, 0.04, 0.007, 1, Made::rolled);
  CHECK(cut.root_diameter / mm == Approx(32.0));
  CHECK(rolled.root_diameter / mm == Approx(32.0 - 1.05));
  CHECK(rolled.pitch_diameter == cut.pitch_diameter);
  CHECK(rolled.nut_minor == cut.nut_minor);
  CHECK(rolled.made == Made::rolled);
  CHECK(make_thread(Form::acme, 0.04, 0.007, 1, Made::rolled).root_diameter ==
        make_thread(Form::acme, 0.04, 0.007).root_diameter);
}

TEST_CASE("Square threads have the core diameters and areas of IS 4694", "[published]") {
  // IS 4694, fine series, pitch 3 mm (Khurmi Table 17.2): core diameter mm, core area mm²; seen.
  struct Row {
    double d, core, area;
  };
  const auto row = GENERATE(values<Row>({{22, 19, 284}, {40, 37, 1075}, {60, 57, 2552}}));
  const Thread t = in_mm(Form::square, row.d, 3);
  CHECK(t.root_diameter / mm == Approx(row.core));
  CHECK(circle(t.root_diameter / mm) == printed(row.area, 1));
  CHECK(t.pitch_diameter / mm == Approx(row.d - 1.5));
}

TEST_CASE("The 7/45 buttress has the diameters of ASME B1.9", "[published]") {
  // ASME B1.9-1973, constants of Machinery's Handbook 27 Table 3 seen, rows recomputed from them (no allowance): E, Ks,
  // Kn, Dn.
  struct Row {
    double d, n, pitch, root, minor, major;
  };
  const auto row =
      GENERATE(values<Row>({{2, 4, 1.8500, 1.6686, 1.7000, 2.0314}, {1, 10, 0.9400, 0.8675, 0.8800, 1.0125}}));
  const Thread t = in_inches(Form::buttress_7_45, row.d, row.n);
  CHECK(t.pitch_diameter / inch == printed(row.pitch, 1e-4));
  CHECK(t.root_diameter / inch == printed(row.root, 1e-4));
  CHECK(t.nut_minor / inch == printed(row.minor, 1e-4));
  CHECK(t.nut_major / inch == printed(row.major, 1e-4));
}

TEST_CASE("The 3/30 buttress has the diameters of DIN 513", "[published]") {
  // DIN 513 (from memory, its geometry verified): d2, d3, D1 in mm.
  struct Row {
    double d, P, d2, d3, D1;
  };
  const auto row = GENERATE(values<Row>(
      {{22, 5, 18.250, 13.322, 14.500}, {40, 7, 34.750, 27.851, 29.500}, {100, 12, 91.000, 79.174, 82.000}}));
  const Thread t = in_mm(Form::buttress_3_30, row.d, row.P);
  CHECK(t.pitch_diameter / mm == printed(row.d2, 1e-3));
  CHECK(t.root_diameter / mm == printed(row.d3, 1e-3));
  CHECK(t.nut_minor / mm == printed(row.D1, 1e-3));
}

TEST_CASE("Metric threads have the pitch and root diameters and stress areas of DIN 13", "[published]") {
  // DIN 13-1: d2, d3 in mm, A_s = π/4 ((d2 + d3)/2)² in mm² (ISO 898-1); seen.
  struct Row {
    double d, P, d2, d3, area, unit;
  };
  const auto row = GENERATE(values<Row>(
      {{10, 1.5, 9.026, 8.160, 58.0, 0.1}, {24, 3, 22.051, 20.319, 353, 1}, {48, 5, 44.752, 41.866, 1473, 1}}));
  const Thread t = in_mm(Form::iso_metric, row.d, row.P);
  CHECK(t.pitch_diameter / mm == printed(row.d2, 1e-3));
  CHECK(t.root_diameter / mm == printed(row.d3, 1e-3));
  CHECK(circle((t.pitch_diameter + t.root_diameter) / 2 / mm) == printed(row.area, row.unit));
}

TEST_CASE("Unified threads have the tensile stress areas of ASME B1.1", "[published]") {
  // Shigley 9th ed. Table 8-2, in², seen. Its area is at d − 9H/8 = d2 − 0.75 (d2 − D1), so it checks both.
  const auto area = [](double d, double n) {
    const Thread t = in_inches(Form::unified, d, n);
    return circle((t.pitch_diameter - 0.75 * (t.pitch_diameter - t.nut_minor)) / inch);
  };
  CHECK(area(0.25, 20) == printed(0.0318, 1e-4));
  CHECK(area(1, 8) == printed(0.606, 1e-3));
  CHECK(area(0.75, 16) == printed(0.373, 1e-3));
}

TEST_CASE("Unified and metric 60 degree threads of one size are one thread") {
  const Thread un = in_mm(Form::unified, 24, 3), iso = in_mm(Form::iso_metric, 24, 3);
  CHECK(un.root_diameter == iso.root_diameter);
  CHECK(un.nut_minor == iso.nut_minor);
  // ASME B1.1, ISO 68-1: 17H/12 with H = √3/2 P.
  CHECK((un.diameter - un.root_diameter) / un.pitch == Approx(17.0 / 12 * std::sqrt(3.0) / 2).epsilon(1e-6));
}

TEST_CASE("Every form has the flank angles of its standard, and buttress carries on the steep one", "[published]") {
  const std::map<Form, std::pair<double, double>> degrees{
      {Form::acme, {14.5, 14.5}},   {Form::stub_acme, {14.5, 14.5}}, {Form::trapezoidal, {15, 15}},
      {Form::square, {0, 0}},       {Form::buttress_7_45, {7, 45}},  {Form::buttress_3_30, {3, 30}},
      {Form::iso_metric, {30, 30}}, {Form::unified, {30, 30}}};
  REQUIRE(degrees.size() == all_forms().size());
  for (const auto& [form, angles] : degrees) {
    const Thread t = in_mm(form, 40, 6);
    CHECK(std::atan(t.tan_load_flank) * 180 / std::numbers::pi == Approx(angles.first).margin(1e-12));
    CHECK(std::atan(t.tan_other_flank) * 180 / std::numbers::pi == Approx(angles.second).margin(1e-12));
  }
}

TEST_CASE(
    "In every form the diameters stand in order and the pitch diameter is midway between major and nut minor but for "
    "60 degrees",
    "[limit]") {
  // The crest of a 60° screw is cut less (H/8) than that of its nut (H/4): d2 lies H/8 below the middle.
  for (const Form form : all_forms()) {
    const Thread t = in_mm(form, 40, 6);
    const bool sixty = form == Form::iso_metric || form == Form::unified;
    CHECK(t.pitch_diameter / mm == Approx((t.diameter + t.nut_minor) / 2 / mm + (sixty ? -0.108253 * 6 : 0)));
    CHECK(t.root_diameter <= t.nut_minor);
    CHECK(t.nut_minor < t.pitch_diameter);
    CHECK(t.diameter <= t.nut_major);
    CHECK(t.working_depth() == Approx((t.diameter - t.nut_minor) / 2));
  }
}

TEST_CASE("Starts multiply the lead and nothing else") {
  const Thread one = in_mm(Form::trapezoidal, 40, 7), three = in_mm(Form::trapezoidal, 40, 7, 3);
  CHECK(three.lead() == Approx(0.021));
  CHECK(three.pitch_diameter == one.pitch_diameter);
  CHECK(three.root_diameter == one.root_diameter);
}

TEST_CASE("A thread that cannot be cut is refused with what to do") {
  CHECK(refusal(Form::trapezoidal, 40, 40).find("not below the diameter") != std::string::npos);
  CHECK(refusal(Form::trapezoidal, 40, 1.4).find("1.5 mm to 44 mm") != std::string::npos);
  CHECK(refusal(Form::trapezoidal, 100, 45).find("1.5 mm to 44 mm") != std::string::npos);
  CHECK(refusal(Form::trapezoidal, 40, 7, 0).find("0 starts") != std::string::npos);
  CHECK(refusal(Form::buttress_3_30, 10, 6).find("no core") != std::string::npos);
  CHECK(refusal(Form::square, 0, 5).find("above zero") != std::string::npos);
  CHECK(refusal(Form::square, std::numeric_limits<double>::quiet_NaN(), 5).find("above zero") != std::string::npos);
  CHECK(refusal(Form::square, 40, -5).find("above zero") != std::string::npos);
  CHECK(refusal(Form::trapezoidal, 40, 1.5).empty());
  CHECK(refusal(Form::trapezoidal, 100, 44).empty());
}

TEST_CASE("The root diameter jumps at the borders that are told and nowhere else") {
  CHECK(pitch_borders(Form::trapezoidal, 1.5e-3, 44e-3).size() == 3);
  CHECK(pitch_borders(Form::trapezoidal, 1.9e-3, 5.5e-3).empty());
  CHECK(pitch_borders(Form::acme, 1e-3, 10e-3) == std::vector<double>{0.1 * inch});
  CHECK(pitch_borders(Form::square, 1e-3, 40e-3).empty());
  for (const Form form : all_forms()) {
    std::vector<double> jumps;
    double before = 0;
    for (int i = 1500; i <= 20000; ++i) {
      const double pitch = i * 1e-6;
      const Thread t = make_thread(form, 0.1, pitch);
      const double deeper = t.nut_minor - t.root_diameter;
      if (i > 1500 && deeper - before > 0.1e-3) jumps.push_back(pitch);
      before = deeper;
    }
    const std::vector<double> told = pitch_borders(form, 1.5e-3, 20e-3);
    REQUIRE(jumps.size() == told.size());
    for (std::size_t i = 0; i < told.size(); ++i) CHECK(jumps[i] == Approx(told[i]).margin(1.01e-6));
  }
}

TEST_CASE("A form is found again by its name, and no other name is a form") {
  CHECK(all_forms().size() == 8);
  for (const Form form : all_forms()) {
    CHECK(form_named(name(form)) == form);
    CHECK_FALSE(source(form).empty());
  }
  CHECK(name(Form::buttress_7_45) == "buttress-7-45");
  CHECK_FALSE(form_named("Acme"));
  CHECK_FALSE(form_named(""));
}

TEST_CASE("The trapezoidal series holds every size of ISO 2904 from 8 to 120 mm", "[published]") {
  // ISO 2904 as listed by several tables (from memory; 115 mm only from memory).
  std::map<double, std::size_t> pitches;
  for (const Size& size : series(Form::trapezoidal)) ++pitches[std::round(size.diameter / mm)];
  CHECK(pitches.size() == 39);
  CHECK(series(Form::trapezoidal).size() == 107);
  for (const double often_left_out : {28, 36, 52, 85, 105, 110, 115}) CHECK(pitches[often_left_out] == 3);
  CHECK(pitches[8] == 1);
  CHECK(pitches[20] == 2);
  CHECK(size_on_series(Form::trapezoidal, 0.04, 0.007));
  CHECK(size_on_series(Form::trapezoidal, 0.085, 0.018));
  CHECK_FALSE(size_on_series(Form::trapezoidal, 0.04, 0.006));
  CHECK_FALSE(size_on_series(Form::trapezoidal, 0.041, 0.007));
}

TEST_CASE("The Acme series holds the pitches of the textbook and stub Acme shares it", "[published]") {
  // Shigley 9th ed. Table 8-3, preferred pitches, seen.
  CHECK(series(Form::acme).size() == 23);
  CHECK(series(Form::stub_acme).size() == 23);
  CHECK(size_on_series(Form::acme, 0.25 * inch, inch / 16));
  CHECK(size_on_series(Form::acme, 1.5 * inch, inch / 4));
  CHECK(size_on_series(Form::acme, 3 * inch, inch / 2));
  CHECK_FALSE(size_on_series(Form::acme, 1.5 * inch, inch / 5));
}

TEST_CASE("The 60 degree series hold coarse and fine sizes", "[published]") {
  // ISO 261 coarse pitches of DIN 13-1 (seen for these); UNC of Shigley Table 8-2 (seen).
  CHECK(coarse_size(Form::iso_metric, 0.024)->pitch == Approx(0.003));
  CHECK(coarse_size(Form::iso_metric, 0.012)->pitch == Approx(0.00175));
  CHECK(coarse_size(Form::iso_metric, 0.025) == nullptr);
  CHECK(coarse_size(Form::unified, 1.5 * inch)->pitch == Approx(inch / 6));
  CHECK(coarse_size(Form::trapezoidal, 0.04) == nullptr);
  CHECK(size_on_series(Form::iso_metric, 0.012, 0.00125));
  CHECK(size_on_series(Form::unified, 0.75 * inch, inch / 16));
  CHECK(size_on_series(Form::unified, 2 * inch, inch / 4.5));
  CHECK(series(Form::square).empty());
  CHECK(series(Form::buttress_7_45).empty());
}

TEST_CASE("Every series is in order, without repeats, and every size on it is a thread") {
  for (const Form form : with_series) {
    const std::vector<Size>& sizes = series(form);
    for (std::size_t i = 1; i < sizes.size(); ++i)
      CHECK(std::pair(sizes[i - 1].diameter, sizes[i - 1].pitch) < std::pair(sizes[i].diameter, sizes[i].pitch));
    for (const Size& size : sizes) CHECK_NOTHROW(make_thread(form, size.diameter, size.pitch));
  }
}

TEST_CASE("The nearest sizes keep the diameter before the pitch") {
  const std::vector<Size> near = nearest_sizes(Form::trapezoidal, 0.040, 0.006, 2);
  REQUIRE(near.size() == 2);
  CHECK(near[0].diameter == Approx(0.040));
  CHECK(near[0].pitch == Approx(0.007));
  CHECK(nearest_sizes(Form::square, 0.04, 0.007, 2).empty());
  CHECK(nearest_sizes(Form::acme, 0.04, 0.007, 500).size() == 23);
}
