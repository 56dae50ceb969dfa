/// Figures and the words between them.
#include <fmt/format.h>

#include <algorithm>

#include "studies/say/aims.hpp"
#include "studies/say/details.hpp"
#include "studies/say/matters.hpp"
#include "studies/say/neighbours.hpp"
#include "studies/say/rare.hpp"
#include "studies/say/sentences.hpp"
#include "studies/say/window.hpp"
#include "studies/say/words.hpp"
#include "studies/say/worth.hpp"
#include "studies/sheet/html.hpp"
#include "studies/sheet/sections.hpp"

namespace studies::sheet {
namespace {

/// Words that stand under a heading of their own and need not begin with it.
std::string without(const std::string& opening, const std::string& words) {
  return words.rfind(opening, 0) == 0 ? say::capital(words.substr(opening.size())) : words;
}

std::string block(const Study& study, const std::string& head, const std::vector<std::string>& paragraphs) {
  std::string html;
  for (const std::string& words : paragraphs)
    if (!words.empty()) html += "<p>" + with_other(words, study) + "</p>";
  return html.empty() ? "" : "<h3>" + head + "</h3>" + html;
}

/// Why not the next size down or up, nor the lighter ones.
std::string neighbours(const Shown& shown) {
  const Answer& answer = shown.result.answer;
  const Study& study = shown.result.study;
  std::string html = block(study, "One size down", {without("One size down, ", say::size_down(answer))}) +
                     block(study, "One size up", {without("One size up, ", say::size_up(answer))}) +
                     block(study, "Lighter ones, and the first limit that each misses",
                           {without("Lighter, with the first limit missed: ", say::lighter_ones(answer))});
  return html.empty() ? "" : "<div class=neighbours>" + html + "</div>";
}

/// Of a search in which nothing passed: what would have to give.
std::string would_pass(const Shown& shown) {
  const Answer& answer = shown.result.answer;
  if (answer.pick || answer.relax.empty()) return "";
  std::vector<std::string> words;
  for (const Relaxation& it : answer.relax)
    words.push_back(fmt::format("{}: {}.", it.admits, say::relaxed_words(shown.result.study, it)));
  return "<div class=neighbours>" + block(shown.result.study, "What would have to give", words) + "</div>";
}

std::string consequences(const Shown& shown) {
  const Answer& answer = shown.answer;
  const Study& study = shown.result.study;
  std::vector<std::string> odds = {say::other_odds(answer)};
  for (const std::string& words : say::rare_words(answer)) odds.push_back(words);
  std::string html = block(study, "The other odds", odds) +
                     block(study, "Winding back", {without("Winding back: ", say::winding_back(answer))}) +
                     block(study, "Pulled too hard", {without("Pulled too hard, ", say::pulled_too_hard(answer))}) +
                     block(study, "What would help", {without("What would help most: ", say::what_helps(answer))}) +
                     block(study, "Aim and caps", {say::aims_sentence(shown.result.answer)}) +
                     block(study, "By another law of the face", {say::pressure_law(answer)});
  return html.empty() ? "" : "<div class=neighbours>" + html + "</div>";
}

}  // namespace

std::string figure_html(const Figure& figure, std::size_t number) {
  std::string html = fmt::format("<figure{} data-draw=\"{}\" data-alt=\"{}\" id=\"fig-{}\">",
                                 figure.wide ? fmt::format(" class=\"two {}\"", figure.id) : "", figure.id,
                                 escaped(figure.alt), figure.id);
  html += fmt::format(
      "<figcaption><span class=n>Fig {}</span><span class=says>{}</span></figcaption><div class=plot></div>", number,
      printed(figure.says));
  if (!figure.note.empty()) html += "<p class=note>" + printed(figure.note) + "</p>";
  return html + fmt::format("<details><summary>The numbers in Fig {}</summary>{}</details></figure>\n", number,
                            table_html(figure.numbers.head, figure.numbers.rows));
}

std::string figure_html(const Shown& shown, const std::string& id) {
  const auto found =
      std::find_if(shown.figures.begin(), shown.figures.end(), [&](const Figure& f) { return f.id == id; });
  if (found == shown.figures.end()) return "";
  return figure_html(*found, static_cast<std::size_t>(found - shown.figures.begin()) + 1);
}

std::string case_in_figures(const Shown& shown) {
  std::string html = "<h2 id=figures>The case in figures</h2>\n<div class=grid id=figs>\n";
  html += would_pass(shown);
  for (const char* id : {"profile", "ramp", "torque", "ladder"}) html += figure_html(shown, id);
  html += neighbours(shown);
  for (const char* id : {"chance", "first", "window", "reach", "map", "matters", "handle"})
    html += figure_html(shown, id);
  html += consequences(shown);
  for (const char* id : {"nut", "worth", "trade"}) html += figure_html(shown, id);
  return html + "</div>\n";
}

}  // namespace studies::sheet
