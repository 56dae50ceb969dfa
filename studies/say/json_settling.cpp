#include "studies/say/json_parts.hpp"

namespace studies::say {

Json settling_json(const Answer& answer, Notes& notes) {
  if (!answer.settling) return nullptr;
  const SettlingReport& it = *answer.settling;
  Json estimates = Json::array();
  for (const SettledEstimate& e : it.estimates)
    estimates.push_back(
        Json{{"output", e.of},
             {"estimate", e.estimate},
             {"unit", unit(e.dimension)},
             {"tolerance", notes.number(e.tolerance, "settling." + e.of, "one batch tells no tolerance")},
             {"allowed", e.allowed},
             {"settled", e.settled}});
  return Json{{"settled", it.settled},           {"digits", it.digits},   {"batches", it.batches},
              {"batch_passes", it.batch_passes}, {"at_most", it.at_most}, {"estimates", std::move(estimates)}};
}

}  // namespace studies::say
