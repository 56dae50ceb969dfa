#include "studies/say/reckon.hpp"

#include <fmt/format.h>

#include "studies/say/cautions.hpp"
#include "studies/say/details.hpp"
#include "studies/say/json.hpp"
#include "studies/say/json_value.hpp"
#include "studies/say/limits.hpp"
#include "studies/say/neighbours.hpp"
#include "studies/say/page.hpp"
#include "studies/say/reach.hpp"
#include "studies/say/sentences.hpp"
#include "studies/say/words.hpp"

namespace studies {
namespace {

using namespace say;
using models::Output;

/// What a limit judges is told by the verdict; its band, which the limit leaves unsaid, stands here.
std::string band_beside_limit(const Answer& answer) {
  if (answer.limits.empty()) return "";
  if (answer.study->duty.action == models::Action::lift) return task_sentence(answer);
  const std::string band = band_words(answer, Output::force);
  return band.empty() ? "" : band + ".";
}

/// Of a lift: what it takes from rest, on the screw and on its handle.
std::string from_rest(const Answer& answer) {
  if (answer.study->duty.action != models::Action::lift) return "";
  std::vector<std::string> words = {band_sentence(answer, Output::starting_torque, "Starting it from rest takes"),
                                    band_sentence(answer, Output::hand_force, "On the handle, each hand, that is")};
  std::erase(words, "");
  return joined(words, " ");
}

/// What makes the bands: nothing but friction can be typed to scatter here.
std::string what_scatters(const Answer& answer) {
  const std::string words = scattered(answer);
  return (words.empty() ? "Nothing scatters, so there are no bands. " : words + " All else is held fixed. ") +
         passes_words(answer);
}

void gravest(Page& page, const Answer& answer) {
  std::size_t lesser = 0;
  for (const Caution& caution : all_cautions(answer)) {
    if (caution.level >= Level::warning)
      page.caution(caution);
    else
      ++lesser;
  }
  page.paragraph(
      fmt::format("{} lesser caution{}, what other choices would do and what was not checked: see `screwtiny "
                  "rate` of the study below.",
                  capital(number_in_words(lesser)), lesser == 1 ? "" : "s"));
}

}  // namespace

std::string reckon_text(const Answer& answer, bool colour) {
  Page page(colour);
  page.paragraph(verdict_sentence(answer), answer.holds() ? good : bad);
  for (const std::string& words : {band_beside_limit(answer), from_rest(answer)}) page.paragraph(words);
  page.paragraph(headline(answer), bold, 2);
  page.gap();
  for (const std::string& words :
       {torque_path(answer), winding_back(answer), pulled_too_hard(answer), what_scatters(answer)})
    page.paragraph(words);
  page.gap();
  gravest(page, answer);
  page.gap();
  page.line("The study this amounts to:", bold);
  return page.text() + "\n" + answer.study->text;
}

std::string reckon_json(const Answer& answer) {
  Json object = Json::parse(answer_json(answer));
  object["study_text"] = answer.study->text;
  return one_line(object);
}

}  // namespace studies
