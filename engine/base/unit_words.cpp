#include "engine/base/unit_words.hpp"

#include <algorithm>

namespace engine {
namespace {

constexpr std::string_view pound = "0.45359237 kg", pound_force = "4.4482216152605 N", ounce = "0.028349523125 kg",
                           ounce_force = "0.27801385095378125 N", short_ton = "907.18474 kg",
                           long_ton = "1016.0469088 kg", short_ton_force = "8896.443230521 N",
                           long_ton_force = "9964.01641818352 N", tonne_force = "9806.65 N",
                           foot_pound = "1.3558179483314004 N.m", inch_pound = "0.1129848290276167 N.m",
                           inch = "0.0254 m", foot = "0.3048 m", mil = "0.0000254 m", per_inch = "(0.0254 m)^-1",
                           degree = "0.0027777777777777778 rev", radian = "0.15915494309189535 rev",
                           horsepower = "745.69987158227022 W";

/// NIST SP 811 (2008), appendix B; the pound, the inch and the standard gravity are exact.
constexpr UnitWord words[] = {
    {"m", "m"},
    {"metre", "m", false, true},
    {"metres", "m", false, true},
    {"meter", "m", false, true},
    {"meters", "m", false, true},
    {"mm", "0.001 m"},
    {"MM", "0.001 m"},
    {"millimetre", "0.001 m", false, true},
    {"millimetres", "0.001 m", false, true},
    {"millimeter", "0.001 m", false, true},
    {"millimeters", "0.001 m", false, true},
    {"cm", "0.01 m", false, true},
    {"dm", "0.1 m"},
    {"km", "1000 m"},
    {"um", "0.000001 m"},
    {"micron", "0.000001 m", false, true},
    {"microns", "0.000001 m", false, true},
    {"nm", "0.000000001 m"},
    {"in", inch, true, true},
    {"inch", inch, true, true},
    {"inches", inch, true, true},
    {"\"", inch, true},
    {"''", inch, true},
    {"ft", foot, true, true},
    {"foot", foot, true, true},
    {"feet", foot, true, true},
    {"'", foot, true},
    {"yd", "0.9144 m", true, true},
    {"thou", mil, true, true},
    {"mil", mil, true, true},
    {"mils", mil, true, true},
    {"tpi", per_inch, true, true},
    {"threads", "1", false, true},
    {"thread", "1", false, true},

    {"N", "N"},
    {"newton", "N", false, true},
    {"newtons", "N", false, true},
    {"daN", "10 N", false, true},
    {"kN", "1000 N", false, true},
    {"MN", "1000000 N"},
    {"lbf", pound_force, true, true},
    {"lbsf", pound_force, true, true},
    {"pound.force", pound_force, true, true},
    {"pounds.force", pound_force, true, true},
    {"klbf", "4448.2216152605 N", true, true},
    {"kip", "4448.2216152605 N", true, true},
    {"kips", "4448.2216152605 N", true, true},
    {"ozf", ounce_force, true, true},
    {"ounce.force", ounce_force, true, true},
    {"kgf", "9.80665 N", false, true},
    {"kilogram.force", "9.80665 N", false, true},
    {"kilograms.force", "9.80665 N", false, true},
    {"kp", "9.80665 N"},
    {"tf", tonne_force},
    {"tonne.force", tonne_force, false, true},
    {"tonnes.force", tonne_force, false, true},
    {"metric.ton.force", tonne_force, false, true},
    {"metric.tons.force", tonne_force, false, true},
    {"short.ton.force", short_ton_force, true, true},
    {"short.tons.force", short_ton_force, true, true},
    {"short.tonf", short_ton_force, true, true},
    {"long.ton.force", long_ton_force, true, true},
    {"long.tons.force", long_ton_force, true, true},
    {"long.tonf", long_ton_force, true, true},
    {"tonf", short_ton_force, true, true},
    {"ton.force", short_ton_force, true, true},
    {"tons.force", short_ton_force, true, true},
    {"mN", "0.001 N"},

    {"Nm", "N.m"},
    {"Nmm", "0.001 N.m"},
    {"Ncm", "0.01 N.m"},
    {"kNm", "1000 N.m", false, true},
    {"kNmm", "N.m", false, true},
    {"daNm", "10 N.m"},
    {"kgfm", "9.80665 N.m"},
    {"J", "J"},
    {"kJ", "1000 J"},
    {"ftlb", foot_pound, true, true},
    {"ftlbs", foot_pound, true, true},
    {"ftlbf", foot_pound, true, true},
    {"lbft", foot_pound, true, true},
    {"lbfft", foot_pound, true, true},
    {"inlb", inch_pound, true, true},
    {"inlbs", inch_pound, true, true},
    {"inlbf", inch_pound, true, true},
    {"lbin", inch_pound, true, true},
    {"lbfin", inch_pound, true, true},

    {"Pa", "Pa", false, true},
    {"hPa", "100 Pa", false, true},
    {"kPa", "1000 Pa", false, true},
    {"MPa", "1000000 Pa"},
    {"GPa", "1000000000 Pa", false, true},
    {"mPa", "0.001 Pa"},
    {"bar", "100000 Pa", false, true},
    {"psi", "6894.757293168361 Pa", true, true},
    {"ksi", "6894757.293168361 Pa", true, true},
    {"Mpsi", "6894757293.168361 Pa", true},
    {"atm", "101325 Pa", false, true},

    {"s", "s"},
    {"sec", "s", false, true},
    {"second", "s", false, true},
    {"seconds", "s", false, true},
    {"ms", "0.001 s"},
    {"min", "60 s", false, true},
    {"minute", "60 s", false, true},
    {"minutes", "60 s", false, true},
    {"h", "3600 s"},
    {"hr", "3600 s", false, true},
    {"hour", "3600 s", false, true},
    {"hours", "3600 s", false, true},
    {"day", "86400 s", false, true},
    {"days", "86400 s", false, true},
    {"d", "86400 s"},
    {"fpm", "0.00508 m/s", true, true},
    {"sfpm", "0.00508 m/s", true, true},
    {"ipm", "(0.0254 m)/(60 s)", true, true},
    {"ips", "0.0254 m/s", true, true},

    {"rev", "rev", false, true},
    {"revs", "rev", false, true},
    {"revolution", "rev", false, true},
    {"revolutions", "rev", false, true},
    {"turn", "rev", false, true},
    {"turns", "rev", false, true},
    {"r", "rev"},
    {"rpm", "rev/(60 s)", false, true},
    {"rps", "rev/s", false, true},
    {"Hz", "s^-1", false, true},
    {"deg", degree, false, true},
    {"degree", degree, false, true},
    {"degrees", degree, false, true},
    {"rad", radian, false, true},
    {"radian", radian, false, true},
    {"radians", radian, false, true},
    {"mrad", "0.00015915494309189535 rev"},

    {"kg", "kg", false, true},
    {"kilogram", "kg", false, true},
    {"kilograms", "kg", false, true},
    {"g", "0.001 kg"},
    {"gram", "0.001 kg", false, true},
    {"grams", "0.001 kg", false, true},
    {"mg", "0.000001 kg"},
    {"t", "1000 kg"},
    {"tonne", "1000 kg", false, true},
    {"tonnes", "1000 kg", false, true},
    {"metric.ton", "1000 kg", false, true},
    {"metric.tons", "1000 kg", false, true},
    {"ton", short_ton, true, true},
    {"tons", short_ton, true, true},
    {"short.ton", short_ton, true, true},
    {"short.tons", short_ton, true, true},
    {"long.ton", long_ton, true, true},
    {"long.tons", long_ton, true, true},
    {"oz", ounce, true, true},
    {"ounce", ounce, true, true},
    {"ounces", ounce, true, true},
    {"lbm", pound, true, true},
    {"kgm", "kg.m"},

    {"W", "W"},
    {"watt", "W", false, true},
    {"watts", "W", false, true},
    {"kW", "1000 W", false, true},
    {"MW", "1000000 W"},
    {"mW", "0.001 W"},
    {"hp", horsepower, true, true},
    {"PS", "735.49875 W"},
    {"%", "0.01"},
    {"percent", "0.01", false, true},
};

/// Words that are a mass where a mass is due, and a force anywhere else.
constexpr std::string_view pounds[] = {"lb", "lbs", "pound", "pounds"};
constexpr UnitWord pound_as_force = {"lb", pound_force, true, true};
constexpr UnitWord pound_as_mass = {"lb", pound, true, true};

constexpr std::string_view tons = "It may be a short ton (2000 lb), a long ton (2240 lb) or a tonne (1000 kg)";
constexpr std::string_view ton_forces = "write short ton-force, long ton-force or tonne-force";
constexpr std::string_view ton_masses = "write short ton, long ton or tonne";

constexpr UnitDoubt doubts_of_force[] = {
    {"ton", tons, ton_forces},
    {"tons", tons, ton_forces},
    {"tonf", tons, ton_forces},
    {"ton.force", tons, ton_forces},
    {"tons.force", tons, ton_forces},
    {"t", tons, ton_forces},
    {"tonne", "A tonne is a mass", "write tonne-force"},
    {"tonnes", "A tonne is a mass", "write tonne-force"},
    {"metric.ton", "A metric ton is a mass", "write tonne-force"},
    {"metric.tons", "A metric ton is a mass", "write tonne-force"},
    {"short.ton", "A short ton is a mass", "write short ton-force"},
    {"short.tons", "A short ton is a mass", "write short ton-force"},
    {"long.ton", "A long ton is a mass", "write long ton-force"},
    {"long.tons", "A long ton is a mass", "write long ton-force"},
    {"oz", "It is a mass or a force", "write ozf for ounce-force"},
    {"ounce", "It is a mass or a force", "write ozf for ounce-force"},
    {"ounces", "It is a mass or a force", "write ozf for ounce-force"},
    {"kgm", "It may be kilogram-force times metre", "write kgf.m, or N.m"},
};
constexpr UnitDoubt doubts_of_mass[] = {{"ton", tons, ton_masses}, {"tons", tons, ton_masses}};
constexpr UnitDoubt doubts_of_capitals[] = {
    {"mPa", "mPa is millipascal, a thousand-millionth of MPa", "write MPa if megapascal is meant"},
    {"mN", "mN is millinewton, a thousand-millionth of MN", "write MN or N, whichever is meant"},
    {"mW", "mW is milliwatt, a thousand-millionth of MW", "write MW or W, whichever is meant"},
};

char lower(char letter) { return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter; }

bool same_but_capitals(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](char x, char y) { return lower(x) == lower(y); });
}

template <typename Doubts>
const UnitDoubt* find_in(const Doubts& doubts, std::string_view spelling) {
  for (const UnitDoubt& doubt : doubts)
    if (doubt.spelling == spelling || (spelling.size() > 1 && same_but_capitals(doubt.spelling, spelling)))
      return &doubt;
  return nullptr;
}

}  // namespace

const UnitWord* find_unit_word(std::string_view spelling, bool as_mass) {
  for (const std::string_view word : pounds)
    if (same_but_capitals(word, spelling)) return as_mass ? &pound_as_mass : &pound_as_force;
  for (const UnitWord& word : words)
    if (word.spelling == spelling) return &word;
  for (const UnitWord& word : words)
    if (word.any_case && same_but_capitals(word.spelling, spelling)) return &word;
  return nullptr;
}

const UnitDoubt* find_unit_doubt(std::string_view spelling, bool as_mass) {
  for (const UnitDoubt& doubt : doubts_of_capitals)
    if (doubt.spelling == spelling) return &doubt;
  return as_mass ? find_in(doubts_of_mass, spelling) : find_in(doubts_of_force, spelling);
}

std::vector<std::string> unit_words() {
  std::vector<std::string> all;
  for (const UnitWord& word : words)
    if (word.spelling.find('.') == std::string_view::npos) all.emplace_back(word.spelling);
  for (const std::string_view word : pounds) all.emplace_back(word);
  return all;
}

}  // namespace engine
