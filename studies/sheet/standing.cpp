/// Cautions, what was not checked, provenance, sources, and lines to sign on.
#include <fmt/format.h>

#include "engine/base/format.hpp"
#include "models/thread/form.hpp"
#include "studies/say/cautions.hpp"
#include "studies/say/details.hpp"
#include "studies/say/neighbours.hpp"
#include "studies/say/words.hpp"
#include "studies/sheet/html.hpp"
#include "studies/sheet/sections.hpp"

namespace studies::sheet {
namespace {

constexpr const char* triangle =
    "<svg viewBox=\"0 0 15 14\" aria-hidden=\"true\"><path d=\"M7.5 .8 14.3 13H.7Z\" fill=\"none\" "
    "stroke=\"currentColor\" "
    "stroke-width=\"1.3\" stroke-linejoin=\"round\"/><path d=\"M7.5 4.8v4M7.5 10v1.4\" stroke=\"currentColor\" "
    "stroke-width=\"1.5\"/></svg>";

constexpr const char* level_class(Level level) {
  switch (level) {
    case Level::danger:
      return "danger";
    case Level::warning:
      return "warning";
    case Level::caution:
      return "caution";
    case Level::notice:
      break;
  }
  return "notice";
}

std::string caution_html(const Caution& it, const Study& study) {
  return fmt::format("<li><span class=\"signal {}\">{}{}</span><div>{}{}</div>", level_class(it.level),
                     it.level == Level::notice ? "" : triangle, name(it.level), with_other(it.text, study),
                     it.why.empty() ? "" : "<p class=why>" + with_other(it.why, study) + "</p>");
}

std::string pair(const std::string& name, const std::string& value) {
  return value.empty() ? "" : fmt::format("<dt>{}</dt><dd>{}</dd>", printed(name), printed(value));
}

std::string provenance(const Shown& shown) {
  const Study& study = shown.result.study;
  const Answer& answer = shown.result.answer;
  std::string html = "<div><h3>Provenance</h3><dl class=provenance>";
  html += pair("Study", fmt::format("{}, SHA-256 {}", study.path, study.digest));
  html += pair("Tables", "SHA-256 " + study.tables_digest);
  html += pair("Search", say::proof(answer));
  html += pair("Passes", say::passes_words(answer) + fmt::format(" Plan {}.", name(study.passes.plan)));
  html += pair("Program", "screwtiny " SCREWTINY_VERSION);
  html += pair("Results", shown.result.path);
  html += pair("Again", fmt::format("screwtiny {} {} --key {}", shown.result.verb, study.path, study.passes.key));
  return html + "</dl></div>";
}

/// What every number rests on.
std::string formulas(const Shown& shown) {
  std::string html = "<div class=formulas><h3>Formulas</h3><dl class=provenance>";
  if (shown.answer.pick) html += pair("Thread", models::source(shown.answer.pick->design.thread.form));
  html += pair("Torque",
               "Shigley, Mechanical Engineering Design, 9th ed., Eqs. 8-1 to 8-6, exact in the normal flank angle");
  html += pair("Stresses", "Shigley 9th ed., Eqs. 8-7 to 8-11, for any flank angles");
  html += pair("Column", "Shigley 9th ed., Eqs. 4-42 and 4-46, Table 4-2: Euler and J. B. Johnson");
  html += pair("Stripping", "form of ASME B1.5 and B1.1, Appendix B");
  html += pair("Odds",
               "95 % bounds: Student’s t over 16 independent nets, or Clopper and Pearson; rare ones by importance "
               "sampling held against subset simulation");
  html += pair("Rounding", "values beside a limit are rounded so that they hold or miss as the value does");
  return html + "</dl></div>";
}

std::string sign_off() {
  std::string html =
      "<div class=signoff><p>Signed below: the cautions and the list of what was not checked have been read.</p>";
  for (const char* role : {"Made", "Checked", "Approved"})
    html += fmt::format("<div><h3>{}</h3><p>Name</p><p>Date</p><p>Signature</p></div>", role);
  return html + "</div>\n";
}

}  // namespace

std::string cautions(const Shown& shown) {
  std::string html = "<h2>Cautions</h2>\n<div class=grid><ul class=\"cautions two\">";
  for (const Caution& it : say::all_cautions(shown.answer)) html += caution_html(it, shown.result.study);
  html += "</ul>\n<div class=unchecked><h3>Not checked</h3><ul class=boxes>";
  for (const std::string& item : shown.answer.not_checked) html += "<li>" + printed(say::capital(item));
  html += "</ul><p class=note>Tick what was checked elsewhere.</p></div></div>\n";
  return html;
}

std::string standing(const Shown& shown) {
  std::string html = "<h2>Where it stands, and who signs</h2>\n<div class=grid>";
  html += provenance(shown) + formulas(shown) + figure_html(shown, "settling") + "</div>\n";
  const std::string assumed = say::assumed(shown.answer);
  if (!assumed.empty()) html += "<p class=note>" + with_other(assumed, shown.result.study) + "</p>\n";
  return html + sign_off();
}

}  // namespace studies::sheet
