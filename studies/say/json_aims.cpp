#include "studies/ask/aim.hpp"
#include "studies/say/json_parts.hpp"

namespace studies::say {

Json aims_json(const Answer& answer, Notes& notes) {
  Json aims = Json::array();
  const std::vector<Aim>& asked = answer.study->aims;
  for (std::size_t i = 0; i < answer.aimed_at.size(); ++i)
    aims.push_back(Json{{"of", name(asked[i].of)},
                        {"most", asked[i].most},
                        {"value", quantity(notes, answer.aimed_at[i], dimension_of(asked[i].of), "aim")}});
  return aims;
}

Json caps_json(const Answer& answer, Notes& notes) {
  Json caps = Json::array();
  const std::vector<Cap>& asked = answer.study->caps;
  for (std::size_t i = 0; i < answer.under_caps.size(); ++i) {
    const engine::Dimension dimension = dimension_of(asked[i].of);
    caps.push_back(Json{{"of", name(asked[i].of)},
                        {"at_most", quantity(notes, asked[i].at_most, dimension, "cap")},
                        {"has", quantity(notes, answer.under_caps[i], dimension, "cap")}});
  }
  return caps;
}

Json trade_off_json(const Answer& answer, Notes& notes) {
  Json points = Json::array();
  for (const TradePoint& point : answer.trade_off) {
    Json object = design_json(point.screw, notes);
    object["values"] = Json::array();
    for (std::size_t i = 0; i < point.values.size(); ++i)
      object["values"].push_back(quantity(notes, point.values[i], dimension_of(answer.study->aims[i].of), "trade_off"));
    points.push_back(std::move(object));
  }
  return points;
}

}  // namespace studies::say
