#include "studies/say/terminal.hpp"

#include <fmt/format.h>

#include "studies/say/aims.hpp"
#include "studies/say/cautions.hpp"
#include "studies/say/details.hpp"
#include "studies/say/limits.hpp"
#include "studies/say/matters.hpp"
#include "studies/say/neighbours.hpp"
#include "studies/say/page.hpp"
#include "studies/say/rare.hpp"
#include "studies/say/sentences.hpp"
#include "studies/say/window.hpp"
#include "studies/say/words.hpp"
#include "studies/say/worth.hpp"

namespace studies {
namespace {

using namespace say;

void limits(Page& page, const Answer& answer) {
  if (!answer.pick || answer.limits.empty()) return;
  page.gap();
  bool header = true;
  for (const std::string& line : limit_table(answer)) {
    page.line(line, header ? bold : line.find("missed") != std::string::npos ? bad : ordinary);
    header = false;
  }
  page.gap();
  page.paragraph(other_odds(answer));
  for (const std::string& words : rare_words(answer)) page.paragraph(words);
}

void curve(Page& page, const Answer& answer) {
  page.gap();
  page.paragraph(aims_sentence(answer));
  page.gap();
  for (const std::string& line : trade_off_table(answer)) page.line(line);
  page.gap();
}

void relaxations(Page& page, const Answer& answer) {
  for (std::size_t i = 1; i < answer.relax.size(); ++i)
    page.paragraph(fmt::format("Or {}: {}.", answer.relax[i].admits, relaxed_words(*answer.study, answer.relax[i])));
}

void cautions(Page& page, const Answer& answer) {
  page.gap();
  for (const Caution& caution : all_cautions(answer)) page.caution(caution);
}

/// What was not checked, held fixed or assumed.
void reservations(Page& page, const Answer& answer) {
  page.gap();
  if (!answer.not_checked.empty()) page.paragraph("Not checked: " + joined(answer.not_checked, ", ") + ".");
  std::vector<std::string> held;
  for (const std::string& input : answer.study->held_fixed) held.push_back(input_words(input));
  if (!held.empty()) page.paragraph("Held fixed, not stated: " + joined(held, ", ") + ".");
}

/// The other sizes, where the torque goes, winding back and what breaks first.
void consequences(Page& page, const Answer& answer) {
  page.gap();
  for (const auto& words : {size_down(answer), size_up(answer), window_words(answer), lighter_ones(answer)})
    page.paragraph(words);
  page.gap();
  for (const auto& words : {torque_path(answer), pressure_law(answer), winding_back(answer), pulled_too_hard(answer),
                            what_helps(answer), other_choices(answer)})
    page.paragraph(words);
}

}  // namespace

std::string terminal_text(const Answer& answer, bool colour) {
  Page page(colour);
  page.paragraph(headline(answer), bold, 2);
  page.paragraph(verdict_sentence(answer), answer.pick && answer.holds() && answer.settled() ? good : bad);
  limits(page, answer);
  relaxations(page, answer);
  curve(page, answer);
  if (answer.pick) consequences(page, answer);
  page.gap();
  page.paragraph(scattered(answer));
  page.paragraph(assumed(answer));
  std::vector<std::string> ending = {unused_aim(answer), proof(answer), passes_words(answer), answer.results_path};
  std::erase(ending, "");
  page.paragraph(joined(ending, " "));
  cautions(page, answer);
  reservations(page, answer);
  return page.text();
}

}  // namespace studies
