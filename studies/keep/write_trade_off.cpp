#include "studies/ask/aim.hpp"
#include "studies/keep/schema.hpp"
#include "studies/keep/sections.hpp"

namespace studies {

void write_trade_off(engine::StoreWriter& file, const Answer& answer) {
  if (answer.trade_off.empty()) return;
  const auto put = [&](const char* name, const auto& values) {
    file.put(results_row(std::string("/trade_off/") + name), values);
  };
  std::vector<std::string> aims, units;
  for (const Aim& aim : answer.study->aims) {
    aims.push_back(name(aim.of));
    units.push_back(file_unit(dimension_of(aim.of)));
  }
  put("aim", aims);
  put("unit", units);
  file.dimension("/trade_off", "point", answer.trade_off.size());
  std::vector<double> values;
  for (const TradePoint& point : answer.trade_off)
    values.insert(values.end(), point.values.begin(), point.values.end());
  put("value", values);
  const auto texts = [&](const char* name, auto of) {
    std::vector<std::string> all;
    for (const TradePoint& point : answer.trade_off) all.push_back(of(point.screw));
    put(name, all);
  };
  const auto numbers = [&](const char* name, auto of) {
    std::vector<double> all;
    for (const TradePoint& point : answer.trade_off) all.push_back(of(point.screw));
    put(name, all);
  };
  using Screw = const CandidateVerdict&;
  texts("designation", [](Screw it) { return it.designation; });
  numbers("nut_length", [](Screw it) { return it.design.nut_length; });
  texts("lubrication", [](Screw it) { return it.design.lubrication; });
  texts("screw", [](Screw it) { return it.design.screw.name; });
  texts("nut", [](Screw it) { return it.design.nut.name; });
  texts("face", [](Screw it) { return models::describe(it.design.face); });
  numbers("mass", [](Screw it) { return it.mass; });
}

}  // namespace studies
