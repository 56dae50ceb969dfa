#include <limits>

#include "studies/keep/schema.hpp"
#include "studies/keep/sections.hpp"

namespace studies {
namespace {

using engine::StoreWriter;
using Each = const RareVerdict&;

const engine::StoredVariable& at(const std::string& name) { return results_row("/rare/rated/" + name); }

template <class Value, class Get>
void column(StoreWriter& file, const Answer& answer, const char* name, Get get) {
  std::vector<Value> values;
  for (Each it : answer.rare) values.push_back(static_cast<Value>(get(it)));
  file.put(at(name), values);
}

template <class Get>
void bounds(StoreWriter& file, const Answer& answer, const char* name, Get get) {
  std::vector<double> values;
  for (Each it : answer.rare) {
    const Bounded value = get(it);
    values.insert(values.end(), {value.low, value.estimate, value.high});
  }
  file.put(at(name), values);
}

constexpr double none = std::numeric_limits<double>::quiet_NaN();

void write_other(StoreWriter& file, const Answer& answer) {
  column<std::string>(file, answer, "other_shape", [](Each it) { return it.other ? it.other->shape : ""; });
  bounds(file, answer, "other_shortfall", [](Each it) {
    return it.other ? it.other->shortfall : Bounded{none, none, none};
  });
  column<std::uint8_t>(file, answer, "other_trusted", [](Each it) { return it.other && it.other->trusted; });
  column<std::string>(file, answer, "other_reason", [](Each it) { return it.other ? it.other->reason : ""; });
}

void write_points(StoreWriter& file, const Answer& answer) {
  std::vector<std::string> of;
  std::vector<double> distance;
  std::vector<std::vector<double>> inputs(models::input_count);
  for (Each it : answer.rare)
    for (const FailurePoint& point : it.points) {
      of.push_back(it.name);
      distance.push_back(point.distance);
      for (std::size_t k = 0; k < models::input_count; ++k) inputs[k].push_back(point.inputs[k]);
    }
  if (of.empty()) return;
  file.dimension("/rare/rated", "point", of.size());
  file.put(at("of"), of);
  file.put(at("distance"), distance);
  for (std::size_t k = 0; k < models::input_count; ++k) {
    const auto input = static_cast<models::Input>(k);
    const models::NameRow& row = models::row(input);
    const engine::Dimension dimension = input != models::Input::drive ? row.dimension
                                        : answer.study->duty.drive == models::Drive::hand_force
                                            ? engine::Dimension::force
                                            : engine::Dimension::torque;
    file.put(spelled(at("<input>"), std::string(row.name), dimension, std::string(row.meaning)), inputs[k]);
  }
}

}  // namespace

void write_rare(StoreWriter& file, const Answer& answer) {
  if (!answer.pick || answer.rare.empty()) return;
  column<std::string>(file, answer, "limit", [](Each it) { return it.name; });
  file.put(at("bound"), std::vector<std::string>{"low", "estimate", "high"});
  column<std::uint8_t>(file, answer, "judges", [](Each it) { return it.judges; });
  bounds(file, answer, "shortfall", [](Each it) { return it.shortfall; });
  column<std::uint8_t>(file, answer, "trusted", [](Each it) { return it.trusted; });
  column<std::string>(file, answer, "reason", [](Each it) { return it.reason; });
  column<double>(file, answer, "beta", [](Each it) { return it.beta; });
  column<double>(file, answer, "first_order", [](Each it) { return it.first_order; });
  bounds(file, answer, "importance", [](Each it) { return it.importance; });
  bounds(file, answer, "subset", [](Each it) { return it.subset; });
  column<std::int64_t>(file, answer, "calls", [](Each it) { return it.calls; });
  write_other(file, answer);
  write_points(file, answer);
}

}  // namespace studies
