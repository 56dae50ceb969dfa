#include <algorithm>

#include "studies/ask/worth.hpp"
#include "studies/keep/schema.hpp"
#include "studies/keep/sections.hpp"

namespace studies {
namespace {

using engine::StoreWriter;

/// The rows of one group, a column at a time.
template <class Row>
class Columns {
public:
  Columns(StoreWriter& file, std::string group, const std::vector<Row>& rows)
      : file_(file), group_(std::move(group)), rows_(rows) {}

  template <class Value, class Get>
  void put(const char* name, Get get) const {
    file_.put(results_row(group_ + "/" + name), column<Value>(get));
  }
  template <class Value, class Get>
  void put(const char* name, const models::NameRow& output, Get get) const {
    const engine::StoredVariable& row = results_row(group_ + "/" + name);
    file_.put(spelled(row, std::string(output.name), output.dimension, std::string(output.meaning)),
              column<Value>(get));
  }
  /// `limit`, and which of the limits each row misses; nothing where none is asked.
  template <class Get>
  void missed(const Study& study, Get get) const {
    if (study.limits.empty()) return;
    std::vector<std::string> names;
    for (const models::Limit& limit : study.limits) names.emplace_back(models::row(limit.must).name);
    file_.put(results_row(group_ + "/limit"), names);
    std::vector<std::uint8_t> flags;
    for (const Row& row : rows_)
      for (const models::Limit& limit : study.limits) {
        const std::vector<models::Must>& all = get(row);
        flags.push_back(std::find(all.begin(), all.end(), limit.must) != all.end());
      }
    file_.put(results_row(group_ + "/missed"), flags);
  }

private:
  template <class Value, class Get>
  std::vector<Value> column(Get get) const {
    std::vector<Value> values;
    for (const Row& row : rows_) values.push_back(static_cast<Value>(get(row)));
    return values;
  }

  StoreWriter& file_;
  std::string group_;
  const std::vector<Row>& rows_;
};

}  // namespace

void write_window(StoreWriter& file, const Answer& answer) {
  if (answer.window.empty()) return;
  using Each = const Neighbour&;
  file.dimension("/window", "size", answer.window.size());
  const Columns columns(file, "/window", answer.window);
  columns.put<std::string>("designation", [](Each it) { return it.verdict.designation; });
  columns.put<double>("diameter", [](Each it) { return it.verdict.design.thread.diameter; });
  columns.put<double>("mass", [](Each it) { return it.verdict.mass; });
  columns.put<std::uint8_t>("holds", [](Each it) { return it.verdict.passes; });
  columns.missed(*answer.study, [](Each it) -> const std::vector<models::Must>& { return it.misses; });
  columns.put<std::string>("why", [](Each it) { return it.verdict.why; });
}

void write_worth(StoreWriter& file, const Answer& answer) {
  if (answer.worth.empty()) return;
  using Each = const Worth&;
  const models::NameRow& output = models::row(compared_output(answer.study->duty));
  file.dimension("/worth", "choice", answer.worth.size());
  const Columns columns(file, "/worth", answer.worth);
  columns.put<std::string>("change", [](Each it) { return it.change; });
  columns.put<std::string>("from", [](Each it) { return it.from; });
  columns.put<std::string>("to", [](Each it) { return it.to; });
  columns.put<std::string>("designation", [](Each it) { return it.designation; });
  columns.put<std::uint8_t>("offered", [](Each it) { return it.offered; });
  columns.put<double>("<output>.nominal", output, [](Each it) { return it.nominal; });
  columns.put<double>("<output>.mean", output, [](Each it) { return it.mean; });
  columns.put<double>("share", [](Each it) { return it.share; });
  columns.put<double>("mass", [](Each it) { return it.mass; });
  file.put(results_row("/worth/bound"), std::vector<std::string>{"low", "estimate", "high"});
  std::vector<double> helps;
  for (Each it : answer.worth) helps.insert(helps.end(), {it.helps.low, it.helps.estimate, it.helps.high});
  file.put(results_row("/worth/helps"), helps);
  columns.put<std::int64_t>("passes", [](Each it) { return it.passes; });
  columns.missed(*answer.study, [](Each it) -> const std::vector<models::Must>& { return it.misses; });
  columns.put<std::string>("why", [](Each it) { return it.why; });
}

}  // namespace studies
