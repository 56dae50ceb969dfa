#include "studies/keep/archive.hpp"

#include <nlohmann/json.hpp>

#include "studies/ask/explain.hpp"

namespace nlohmann {

template <class T>
struct adl_serializer<std::optional<T>> {
  static void to_json(json& j, const std::optional<T>& value) {
    if (value)
      j = *value;
    else
      j = nullptr;
  }
  static void from_json(const json& j, std::optional<T>& value) {
    if (j.is_null())
      value.reset();
    else
      value = j.get<T>();
  }
};

}  // namespace nlohmann

namespace models {

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(File, path, text)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Material, name, yield, ultimate, modulus, density, brittle, family, kind, up_to,
                                   source)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Face, kind, outer, inner, mean_radius, law, on, hard)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Thread, form, made, diameter, pitch, starts, pitch_diameter, nut_minor,
                                   root_diameter, nut_major, tan_load_flank, tan_other_flank)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Design, thread, nut_length, nut_outside, screw, nut, lubrication, face)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Limit, must, kind, asked, odds, basis, part)

}  // namespace models

namespace studies {

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Bounded, low, estimate, high)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Ends, low, high)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(OutputSummary, name, dimension, meaning, nominal, mean, spread, least, most,
                                   quantiles, symmetric, shortest, tolerance, missing, reason, histogram, histogram_low,
                                   histogram_high)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(LimitVerdict, limit, name, dimension, asked_value, has, spare, nominal_margin, odds,
                                   misses, holds, bounds_straddle, by_rare)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(FailurePoint, distance, inputs)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(OtherShape, shape, from, reason, shortfall, trusted)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(RareVerdict, must, name, judges, trusted, reason, shortfall, beta, first_order,
                                   points, importance, subset, calls, other)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Relaxation, must, to, was, dimension, of_margin, admits, kind, cap)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(CandidateVerdict, index, design, designation, mass, torque, value, over_cap,
                                   examined, ruled_out, passes, fresh_failed, misses, has, needs, margins, at_odds, why,
                                   admit)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(TradePoint, screw, values)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(SearchReport, candidates, examined, ruled_out, model_calls, proven, gap,
                                   shared_passes, continuous, starts)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Neighbour, verdict, misses)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Worth, change, from, to, designation, offered, nominal, mean, share, mass, helps,
                                   passes, misses, why)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Reached, limit, torque, of_screw)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(ScatterUsed, name, shape, varies, source, nominal, dimension, said)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(MatterInput, inputs, share, total, after, change)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(MatterClass, varies, share, total)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(InputSwing, input, name, dimension, from, to, at_from, at_to)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Matter, must, judged, reason, before, inputs, classes, swings)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(SettledEstimate, of, estimate, dimension, tolerance, allowed, settled)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(SettlingReport, settled, digits, batches, batch_passes, at_most, estimates)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Caution, level, text, why)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Answer, searched, sized, pick, outputs, limits, search, candidates, lighter,
                                   next_size_down, next_size_up, window, worth, governs, tightest, aimed_at, under_caps,
                                   trade_off, relax, no_single_change, reached, scatter, rare, matter, cautions,
                                   not_checked, assumptions, face_torque_by_pressure, hundred, passes, settling,
                                   clipped, jammed, results_path)

std::vector<std::uint8_t> archive(const Answer& answer) {
  Answer kept = answer;
  kept.kept_inputs.clear();
  kept.kept_outputs.clear();
  kept.candidates.clear();
  if (const CandidateVerdict* near = nearest(answer); near && !answer.pick) kept.candidates = {*near};
  return nlohmann::json::to_cbor(
      {{"answer", kept}, {"tables", answer.study->tables.files}, {"draws", answer.study->draws_files}});
}

Archived unarchived(const std::vector<std::uint8_t>& bytes) {
  const nlohmann::json all = nlohmann::json::from_cbor(bytes);
  return {all.at("answer").get<Answer>(), all.at("tables").get<std::vector<models::File>>(),
          all.at("draws").get<std::vector<models::File>>()};
}

}  // namespace studies
