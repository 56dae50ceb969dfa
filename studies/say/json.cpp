#include "studies/say/json.hpp"

#include "studies/say/json_parts.hpp"
#include "studies/say/matters.hpp"
#include "studies/say/neighbours.hpp"
#include "studies/say/rare.hpp"
#include "studies/say/sentences.hpp"
#include "studies/say/window.hpp"
#include "studies/say/worth.hpp"

namespace studies {
namespace {

using namespace say;

Json opening(const std::string& study) {
  return Json{{"program", "screwtiny"}, {"version", SCREWTINY_VERSION}, {"study", study}};
}

/// A place in a file, or null where none is concerned.
Json place(int number) { return number > 0 ? Json(number) : Json(nullptr); }

}  // namespace

std::string answer_json(const Answer& answer) {
  Notes notes;
  Json object = opening(answer.study->path);
  object["title"] = answer.study->title;
  object["verdict"] = verdict_json(answer);
  object["pick"] = pick_json(answer, notes);
  object["outputs"] = outputs_json(answer, notes);
  object["limits"] = limits_json(answer, notes);
  if (answer.sized) {
    object["search"] = search_json(answer, notes);
    object["lighter"] = lighter_json(answer, notes);
    object["next_size_down"] = neighbour_json(*answer.study, answer.next_size_down, notes);
    object["next_size_up"] = neighbour_json(*answer.study, answer.next_size_up, notes);
    object["relax"] = relax_json(answer, notes);
    object["aims"] = aims_json(answer, notes);
    object["caps"] = caps_json(answer, notes);
    object["trade_off"] = trade_off_json(answer, notes);
    object["window"] = window_json(answer, notes);
  }
  object["worth"] = worth_json(answer, notes);
  object["reached"] = reached_json(answer, notes);
  object["scatter"] = scatter_json(answer);
  object["rare"] = rare_json(answer, notes);
  object["matters"] = matters_json(answer, notes);
  object["hundred"] = hundred_of(answer);
  object["settling"] = settling_json(answer, notes);
  object["assumptions"] = answer.assumptions;
  object["cautions"] = cautions_json(answer);
  object["not_checked"] = answer.not_checked;
  if (const std::string unused = unused_aim(answer); !unused.empty()) notes.add("aim", unused);
  object["notes"] = notes.list();
  object["provenance"] = provenance_json(answer);
  return one_line(object);
}

std::string errors_json(const std::string& study, const engine::Refusal& refusal) {
  Json object = opening(study);
  object["errors"] = Json::array();
  for (const engine::Problem& it : refusal.problems())
    object["errors"].push_back(Json{{"file", it.file},
                                    {"line", place(it.line)},
                                    {"column", place(it.column)},
                                    {"problem", it.problem},
                                    {"reason", it.reason},
                                    {"fix", it.fix}});
  return one_line(object);
}

}  // namespace studies
