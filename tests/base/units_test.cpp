#include "engine/base/units.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <thread>
#include <vector>

#include "engine/base/nearest.hpp"

using namespace engine;

namespace {

double si(const char* text, Dimension dimension) { return parse_quantity(text, dimension).si; }

/// Problem, reason and fix in one line; fails the test when the text is accepted.
std::string refusal(const std::string& text, Dimension dimension) {
  try {
    parse_quantity(text, dimension);
  } catch (const QuantityError& error) {
    CHECK_FALSE(error.fix.empty());
    return error.problem + ". " + error.reason + ". " + error.fix;
  }
  FAIL("'" << text << "' was accepted");
  return "";
}

using Catch::Matchers::Contains;

}  // namespace

TEST_CASE("Conversions are those of NIST SP 811 (2008), appendix B", "[published]") {
  CHECK(si("1 lbf", Dimension::force) == Approx(4.4482216152605).epsilon(1e-14));
  CHECK(si("1 kgf", Dimension::force) == 9.80665);
  CHECK(si("1 kip", Dimension::force) == Approx(4448.2216152605).epsilon(1e-14));
  CHECK(si("1 short ton-force", Dimension::force) == Approx(8896.443).epsilon(1e-7));
  CHECK(si("1 ozf", Dimension::force) == Approx(0.2780139).epsilon(2e-7));
  CHECK(si("1 in", Dimension::length) == 0.0254);
  CHECK(si("1 ft", Dimension::length) == 0.3048);
  CHECK(si("1 mil", Dimension::length) == 2.54e-5);
  CHECK(si("1 lbf.ft", Dimension::torque) == Approx(1.3558179483314).epsilon(1e-13));
  CHECK(si("1 lbf.in", Dimension::torque) == Approx(0.1129848290276).epsilon(1e-12));
  CHECK(si("1 kgf.m", Dimension::torque) == 9.80665);
  CHECK(si("1 psi", Dimension::stress) == Approx(6894.757293168).epsilon(1e-13));
  CHECK(si("1 ksi", Dimension::stress) == Approx(6894757.293168).epsilon(1e-13));
  CHECK(si("1 bar", Dimension::stress) == 1e5);
  CHECK(si("1 lb", Dimension::mass) == 0.45359237);
  CHECK(si("1 lb/in3", Dimension::density) == Approx(27679.90).epsilon(2e-7));
  CHECK(si("1 ft/min", Dimension::speed) == Approx(0.00508).epsilon(1e-14));
  CHECK(si("1 hp", Dimension::power) == Approx(745.6999).epsilon(1e-7));
}

TEST_CASE("Decimal units are exact to the last bit", "[limit]") {
  CHECK(si("35 mm", Dimension::length) == 0.035);
  CHECK(si("3/8 in", Dimension::length) == 0.009525);
  CHECK(si("7.85 g/cm3", Dimension::density) == 7850);
  CHECK(si("22 kN", Dimension::force) == 22000);
  CHECK(in_unit(0.04, "mm", Dimension::length) == 40);
  CHECK(si("60 rpm", Dimension::rotation) == 1);
}

TEST_CASE("Spellings people type mean the same") {
  for (const char* text : {"150 ft-lb", "150 ft lb", "150 ft.lb", "150 ft-lbf", "150 lb-ft", "150 lb ft", "150 lbf.ft",
                           "150 ft-lbs", "150ftlb", "150 FT-LBS", "150 foot-pounds", "150 lbf·ft", "1800 in-lb",
                           "1800 in-lbf", "1800 inlb", "1800 lb-in", "1800 lbf in"}) {
    INFO(text);
    CHECK(si(text, Dimension::torque) == Approx(150 * 1.3558179483314).epsilon(1e-13));
  }
  for (const char* text : {"12 N.m", "12 N·m", "12 Nm", "12 N m", "12 N-m", "12 N*m", "12000 Nmm", "12000 N.mm",
                           "0.012 kNm", "0.012 kN.m"}) {
    INFO(text);
    CHECK(si(text, Dimension::torque) == Approx(12).epsilon(1e-14));
  }
  for (const char* text :
       {"22 kN", "22kN", "22 KN", "22 kn", " 22 kN\t", "2.2e4 N", "+22 kN", "0.022 MN", "2200 daN"}) {
    INFO(text);
    CHECK(si(text, Dimension::force) == Approx(22000).epsilon(1e-14));
  }
  for (const char* text : {"1 1/4 in", "1-1/4 in", "5/4 in", "1.25 inches", "1 1/4\"", "1 1/4''", "1¼″", "1250 thou",
                           "1250 mil", "0.8 tpi", "0.8 threads per inch"}) {
    INFO(text);
    CHECK(si(text, Dimension::length) == Approx(0.03175).epsilon(1e-14));
  }
  for (const char* text : {"60 rpm", "60 RPM", "60 rev/min", "60 r/min", "1 rev/s", "1/s", "1 1/s", "1 Hz", "360 deg/s",
                           "6.283185307179586 rad/s"}) {
    INFO(text);
    CHECK(si(text, Dimension::rotation) == Approx(1).epsilon(1e-14));
  }
  for (const char* text : {"1 MPa", "1 N/mm2", "1 N/mm^2", "1 N/mm²", "1 N mm-2", "1000 kPa", "10 bar", "0.001 GPa"}) {
    INFO(text);
    CHECK(si(text, Dimension::stress) == Approx(1e6).epsilon(1e-14));
  }
  CHECK(si("1 lb/in2", Dimension::stress) == Approx(si("1 psi", Dimension::stress)).epsilon(1e-14));
  CHECK(si("1 tonne-force", Dimension::force) == Approx(9806.65));
  CHECK(si("1 long ton-force", Dimension::force) == Approx(9964.016).epsilon(1e-7));
  CHECK(si("180 deg", Dimension::angle) == Approx(3.14159265358979).epsilon(1e-14));
  CHECK(si("1 MPa.m/s", Dimension::pv) == 1e6);
  CHECK(si("1 psi.fpm", Dimension::pv) == Approx(35.02537).epsilon(1e-6));
  CHECK(si("1e-6 mm3/(N.m)", Dimension::wear_rate) == Approx(1e-15));
  CHECK(si("1e-6 mm3/Nm", Dimension::wear_rate) == Approx(1e-15));
  CHECK(si("10 %", Dimension::none) == Approx(0.1));
  CHECK(si("-3 mm", Dimension::length) == -0.003);
  CHECK(si("90 s", Dimension::time) == Approx(si("1.5 min", Dimension::time)));
  CHECK(si("1 t", Dimension::mass) == 1000);
}

TEST_CASE("A quantity keeps the number and the spelling of the user") {
  const Quantity torque = parse_quantity(" 150 ft-lb ", Dimension::torque);
  CHECK(torque.given == 150);
  CHECK(torque.unit == "ft-lb");
  CHECK(parse_quantity("12 N·m", Dimension::torque).unit == "N·m");
  CHECK(parse_quantity("1 1/4 in", Dimension::length).given == 1.25);
  CHECK(parse_quantity("0.1", Dimension::none).unit.empty());
  CHECK(in_unit(parse_quantity("5 tpi", Dimension::length).si, "tpi", Dimension::length) == Approx(5).epsilon(1e-14));
  CHECK_THROWS_AS(in_unit(1, "kN", Dimension::torque), QuantityError);
}

TEST_CASE("A missing unit is named and a unit where none is due refused") {
  CHECK_THAT(refusal("22", Dimension::force),
             Contains("'22' has no unit") && Contains("A force is due here") && Contains("'22 kN' or '22 lbf'"));
  CHECK_THAT(refusal("10 mm", Dimension::none), Contains("'mm' measures length; a bare number is due here"));
  CHECK_THAT(refusal("10 %", Dimension::length), Contains("'%' is a count or a share; a length is due here"));
  CHECK_THAT(refusal("", Dimension::torque), Contains("no value"));
}

TEST_CASE("A wrong dimension is said with what is due") {
  CHECK_THAT(refusal("5 kN", Dimension::torque), Contains("'kN' measures force; a torque is due here"));
  CHECK_THAT(refusal("5 m", Dimension::torque), Contains("'m' measures length; a torque is due here"));
  CHECK_THAT(refusal("30 degC", Dimension::length), Contains("'degC' measures temperature; a length is due here"));
  CHECK_THAT(refusal("30 °C", Dimension::angle), Contains("measures temperature"));
  CHECK_THAT(refusal("10 nm", Dimension::torque), Contains("'nm' measures length"));
  CHECK_THAT(refusal("1 rad", Dimension::none), Contains("measures angle"));
  CHECK_THAT(refusal("5 1/s", Dimension::angle), Contains("number per time"));
  CHECK_THAT(refusal("5 m", Dimension::wear_rate), Contains("a wear rate is due here"));
}

TEST_CASE("A mass where its weight is due is refused with the weight to write") {
  CHECK_THAT(refusal("5 kg", Dimension::force),
             Contains("'kg' measures mass; a force is due here") && Contains("write kgf, or kN"));
  CHECK_THAT(refusal("5 kg/cm2", Dimension::stress), Contains("write kgf/cm2"));
  CHECK_THAT(refusal("5 kg.m", Dimension::torque), Contains("write kgf.m"));
}

TEST_CASE("Units in doubt are refused with the choices") {
  for (const char* text : {"1 ton", "1 tons", "1 t", "1 tonf", "1 ton-force"})
    CHECK_THAT(refusal(text, Dimension::force), Contains("short ton-force, long ton-force or tonne-force"));
  CHECK_THAT(refusal("1 ton", Dimension::mass), Contains("write short ton, long ton or tonne"));
  CHECK_THAT(refusal("1 tonne", Dimension::force), Contains("write tonne-force"));
  CHECK_THAT(refusal("1 oz", Dimension::force), Contains("write ozf"));
  CHECK_THAT(refusal("1 kgm", Dimension::torque), Contains("kgf.m"));
  CHECK_THAT(refusal("200 mPa", Dimension::stress), Contains("mPa is millipascal") && Contains("MPa"));
  CHECK_THAT(refusal("200 mN", Dimension::force), Contains("millinewton"));
  CHECK_THAT(refusal("1 mm3/N.m", Dimension::wear_rate), Contains("two ways") && Contains("mm3/(N.m)"));
}

TEST_CASE("An unknown unit brings the nearest spelling") {
  CHECK_THAT(refusal("200 MPA", Dimension::stress), Contains("Unknown unit 'MPA'") && Contains("Did you mean 'MPa'?"));
  CHECK_THAT(refusal("200 Mpa", Dimension::stress), Contains("Did you mean 'MPa'?"));
  CHECK_THAT(refusal("2 mmm", Dimension::length), Contains("Did you mean 'mm'?"));
  CHECK_THAT(refusal("2 milimeters", Dimension::length), Contains("Did you mean 'millimeters'?"));
  CHECK_THAT(refusal("2 lbf.fo", Dimension::torque), Contains("'fo' in 'lbf.fo'") && Contains("'lbf.ft'"));
  CHECK_THAT(refusal("2 furlong", Dimension::length), Contains("Unknown unit 'furlong'") && Contains("use mm, in"));
}

TEST_CASE("Numbers that are not one plain number are refused with the way to write them") {
  CHECK_THAT(refusal("1,5 mm", Dimension::length), Contains("comma") && Contains("write '1.5 mm'"));
  CHECK_THAT(refusal("1,500 N", Dimension::force), Contains("write '1500 N'"));
  CHECK_THAT(refusal("1 000 N", Dimension::force), Contains("in pieces") && Contains("write '1000 N'"));
  CHECK_THAT(refusal("1_000 N", Dimension::force), Contains("write '1000 N'"));
  CHECK_THAT(refusal("1'000 N", Dimension::force), Contains("write '1000 N'"));
  CHECK_THAT(refusal("2 3", Dimension::none), Contains("more than one number"));
  CHECK_THAT(refusal("10-20 mm", Dimension::length), Contains("more than one number"));
  CHECK_THAT(refusal("3 ft 2 in", Dimension::length), Contains("second number"));
  CHECK_THAT(refusal("9 m^0.5", Dimension::length), Contains("not whole"));
  CHECK_THAT(refusal("9 m^1/2", Dimension::length), Contains("not whole"));
  CHECK_THAT(refusal("3/0 in", Dimension::length), Contains("divides by zero"));
  CHECK_THAT(refusal("0 tpi", Dimension::length), Contains("gives no length"));
  CHECK_THAT(refusal("1.2.3 mm", Dimension::length), Contains("cannot be read"));
  CHECK_THAT(refusal("1e999 mm", Dimension::length), Contains("too large"));
  CHECK_THAT(refusal("1e305 GPa", Dimension::stress), Contains("too large"));
  for (const char* text : {"abc", "inf mm", "nan mm", "--3 mm", "- 3 mm", "mm", ".", "-", "e5 mm"})
    CHECK_THAT(refusal(text, Dimension::length), Contains("does not begin with a number"));
  for (const char* text : {"22 mm)", "22 mm(", "22 mm/", "22 mm..", "22 /", "22 mm!", "22 mm\n3", "22 1/(mm"})
    CHECK_FALSE(refusal(text, Dimension::length).empty());
  CHECK_THAT(refusal(std::string(300, '1') + " mm", Dimension::length), Contains("too long"));
  CHECK_FALSE(refusal("5 \xff\xfe", Dimension::length).empty());
}

TEST_CASE("Shop units follow the size") {
  const auto metric = [](double value, Dimension dimension) { return in_metric(value, dimension).unit; };
  const auto inch = [](double value, Dimension dimension) { return in_inch(value, dimension).unit; };
  CHECK(metric(999, Dimension::force) == "N");
  CHECK(metric(-1000, Dimension::force) == "kN");
  CHECK(metric(0.2, Dimension::torque) == "N.m");
  CHECK(metric(0.05e6, Dimension::stress) == "kPa");
  CHECK(metric(200e6, Dimension::stress) == "MPa");
  CHECK(metric(210e9, Dimension::stress) == "GPa");
  CHECK(metric(0.5, Dimension::mass) == "g");
  CHECK(metric(1500, Dimension::power) == "kW");
  CHECK(in_metric(0.04, Dimension::length).value == 40);
  CHECK(inch(si("9 lbf.ft", Dimension::torque), Dimension::torque) == "lbf.in");
  CHECK(inch(si("10 lbf.ft", Dimension::torque), Dimension::torque) == "lbf.ft");
  CHECK(inch(si("9999 psi", Dimension::stress), Dimension::stress) == "psi");
  CHECK(inch(si("10 ksi", Dimension::stress), Dimension::stress) == "ksi");
  CHECK(in_inch(0.0254, Dimension::length).value == Approx(1).epsilon(1e-14));
}

TEST_CASE("Every unit that is shown can be typed, and zero and the largest values too") {
  for (int i = 0; i <= static_cast<int>(Dimension::wear_rate); ++i) {
    const auto dimension = static_cast<Dimension>(i);
    INFO(dimension_name(dimension));
    for (const double value : {0.0, 1e-9, 1.0, 1e12}) {
      for (const Shown& shown : {in_metric(value, dimension), in_inch(value, dimension)}) {
        const Quantity again = parse_quantity("2 " + shown.unit, dimension);
        CHECK(in_unit(again.si, shown.unit, dimension) == Approx(2).epsilon(1e-13));
      }
    }
    const std::string unit = si_unit(dimension);
    CHECK(parse_quantity("3 " + unit, dimension).si == Approx(3).epsilon(1e-14));
  }
}

TEST_CASE("Inch units are told from metric ones") {
  for (const char* unit : {"in", "lbf", "psi", "short ton-force", "ft-lb", "tpi", "\"", "lb/in3", "hp", "kip"})
    CHECK(is_inch_unit(unit));
  for (const char* unit : {"mm", "N.m", "MPa", "rpm", "", "deg", "tonne-force", "?!", "%"})
    CHECK_FALSE(is_inch_unit(unit));
}

TEST_CASE("Many threads may read quantities at once") {
  std::vector<std::thread> threads;
  std::vector<int> wrong(4, 0);
  for (int& count : wrong)
    threads.emplace_back([&count] {
      for (int i = 0; i < 200; ++i) count += parse_quantity("150 ft-lb", Dimension::torque).given != 150;
    });
  for (std::thread& thread : threads) thread.join();
  CHECK(wrong == std::vector<int>(4, 0));
}

TEST_CASE("The nearest word forgives a slip and swapped letters but not a different word") {
  const std::vector<std::string> words = {"pitch", "diameter", "starts", "length"};
  CHECK(nearest("ptich", words) == "pitch");
  CHECK(nearest("Pitch", words) == "pitch");
  CHECK(nearest("diamter", words) == "diameter");
  CHECK(nearest("diam", words) == "diameter");
  CHECK(nearest("temperature", words).empty());
  CHECK(nearest("", words).empty());
  CHECK(nearest("x", words).empty());
  CHECK(nearest(std::string(100000, 'a'), words).empty());
}
