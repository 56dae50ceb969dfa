#include "studies/sheet/page.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "studies/keep/digest.hpp"
#include "studies/say/words.hpp"
#include "studies/sheet/html.hpp"
#include "studies/sheet/sections.hpp"

namespace studies::sheet {
namespace {

/// What stands at the head and foot of every printed page.
std::string page_margins(const Shown& shown) {
  const std::string font = "8pt Helvetica,Arial,sans-serif;color:#595959";
  const auto box = [&](const char* place, const std::string& content) {
    return fmt::format("@{}{{content:{};font:{}}}", place, content, font);
  };
  const std::string pick = shown.answer.pick ? " · " + shown.answer.pick->designation : "";
  std::string foot = shown.block.date;
  if (!shown.block.revision.empty()) foot = "rev. " + say::shortened(shown.block.revision, 12) + " · " + foot;
  if (!shown.block.number.empty()) foot = say::shortened(shown.block.number, 40) + " · " + foot;
  return "@page{" + box("top-left", css_string(say::shortened(shown.result.study.title, 44) + pick)) +
         box("bottom-left", css_string(foot)) +
         box("bottom-right", "\"Sheet \" counter(page) \" of \" counter(pages)") + "}";
}

/// Every text of a figure as it is printed: units with their dots, numbers with thin blanks.
void typeset(Json& json) {
  if (json.is_string())
    json = set_in_type(json.get<std::string>());
  else if (json.is_structured())
    for (Json& part : json) typeset(part);
}

}  // namespace

Json figure_data(const std::vector<Figure>& figures) {
  Json all = Json::object();
  for (const Figure& figure : figures) {
    all[figure.id] = figure.data;
    typeset(all[figure.id]);
  }
  return {{"figures", std::move(all)}};
}

std::string page(const Shown& shown, const Bundle& bundle) {
  const std::string script = as_script(std::string(bundle.script));
  const std::string data = figure_data(shown.figures).dump(-1, ' ', false, Json::error_handler_t::replace);
  const std::string pick = shown.answer.pick ? ": " + shown.answer.pick->designation : "";
  std::string html = "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n";
  html += "<meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">\n";
  html += "<meta name=\"generator\" content=\"screwtiny " SCREWTINY_VERSION "\">\n";
  html += fmt::format(
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; "
      "script-src "
      "'sha256-{}'; base-uri 'none'; form-action 'none'\">\n",
      sha256_base64(script));
  html += fmt::format("<title>{}{}, calculation sheet</title>\n", escaped(shown.result.study.title), escaped(pick));
  html += "<style>" + std::string(bundle.style) + page_margins(shown) + "</style></head>\n";
  html += "<body><a class=skip href=\"#figures\">Skip to the figures</a>\n<main>\n";
  html += first_sheet(shown);
  html +=
      "<noscript><p class=nodraw>The figures are drawn by a script that this viewer does not run. Every number in them "
      "is in the tables.</p></noscript>\n";
  html += case_in_figures(shown) + inputs(shown) + cautions(shown) + standing(shown);
  html += "</main>\n<script type=\"application/json\" id=\"sheet-data\">" + in_script(data) + "</script>\n";
  return html + "<script>" + script + "</script>\n</body></html>\n";
}

}  // namespace studies::sheet
