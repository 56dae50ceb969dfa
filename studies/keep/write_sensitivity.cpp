#include <limits>

#include "studies/keep/schema.hpp"
#include "studies/keep/sections.hpp"

namespace studies {
namespace {

using engine::StoreWriter;

constexpr double none = std::numeric_limits<double>::quiet_NaN();
constexpr Bounded unknown = {none, none, none};

const engine::StoredVariable& at(const std::string& name) { return results_row("/sensitivity/rated/" + name); }

std::string with_plus(const std::vector<std::string>& names) {
  std::string all;
  for (const std::string& name : names) all += (all.empty() ? "" : " + ") + name;
  return all;
}

/// Coordinate and bounded columns of rows.
template <class Row>
class Rows {
public:
  Rows(StoreWriter& file, const std::vector<Row>& rows) : file_(file), rows_(rows) {}

  void names(const char* variable, std::vector<std::string> Row::*get) const {
    std::vector<std::string> all;
    for (const Row& row : rows_) all.push_back(with_plus(row.*get));
    file_.put(at(variable), all);
  }
  template <class Get>
  void bounds(const char* variable, Get get) const {
    std::vector<double> all;
    for (const Row& row : rows_) {
      const Bounded it = get(row);
      all.insert(all.end(), {it.low, it.estimate, it.high});
    }
    file_.put(at(variable), all);
  }

private:
  StoreWriter& file_;
  const std::vector<Row>& rows_;
};

void write_swings(StoreWriter& file, const std::vector<InputSwing>& swings) {
  file.put(at("end"), std::vector<std::string>{"0.05", "0.95"});
  for (const InputSwing& it : swings) {
    const models::NameRow& row = models::row(it.input);
    const std::string name(row.name), meaning(row.meaning);
    file.put(spelled(at("<input>"), name, it.dimension, meaning), std::vector<double>{it.from, it.to});
    file.put(spelled(at("<input>.swing"), name, it.dimension, meaning), std::vector<double>{it.at_from, it.at_to});
  }
}

}  // namespace

void write_sensitivity(StoreWriter& file, const Answer& answer) {
  if (!answer.matter) return;
  const Matter& matter = *answer.matter;
  const Bounded before = matter.before.value_or(unknown);
  file.put(at("judged"), std::vector<std::string>{matter.judged});
  file.put(at("bound"), std::vector<std::string>{"low", "estimate", "high"});
  file.put(at("shortfall"), std::vector<double>{before.low, before.estimate, before.high});
  const Rows inputs(file, matter.inputs);
  inputs.names("inputs", &MatterInput::inputs);
  inputs.bounds("share", [](const MatterInput& it) { return it.share; });
  inputs.bounds("total", [](const MatterInput& it) { return it.total; });
  inputs.bounds("halved_shortfall", [](const MatterInput& it) { return it.after.value_or(unknown); });
  inputs.bounds("halved_change", [](const MatterInput& it) { return it.change.value_or(unknown); });
  const Rows classes(file, matter.classes);
  classes.names("varies", &MatterClass::varies);
  classes.bounds("class_share", [](const MatterClass& it) { return it.share; });
  classes.bounds("class_total", [](const MatterClass& it) { return it.total; });
  write_swings(file, matter.swings);
}

}  // namespace studies
