#include "studies/sheet/summary_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "studies/say/cautions.hpp"
#include "studies/say/summary.hpp"
#include "studies/say/words.hpp"
#include "studies/sheet/figure.hpp"
#include "studies/sheet/html.hpp"

namespace studies::sheet {
namespace {

/// A path as the address of a link: everything that could be read otherwise is spelled in hexadecimal.
std::string address(const std::string& path) {
  std::string text;
  for (const char c : path) {
    const auto byte = static_cast<unsigned char>(c);
    const bool plain = std::isalnum(byte) || c == '/' || c == '.' || c == '-' || c == '_' || c == '~';
    text += plain ? std::string(1, c) : fmt::format("%{:02X}", byte);
  }
  return text.find('/') == std::string::npos || text.front() == '/' ? "./" + text : text;
}

std::string from_page(const std::string& sheet, const std::string& page) {
  namespace fs = std::filesystem;
  std::error_code none;
  const fs::path folder = fs::absolute(page, none).parent_path();
  return fs::relative(fs::absolute(sheet, none), folder, none).string();
}

std::string row_html(const SummaryRow& row, const std::string& path) {
  return fmt::format(
      "<tr{}><td data-l=\"Study\"><a href=\"{}\">{}</a><td data-l=\"Answer\">{}<td data-l=\"Pick\">{}<td "
      "data-l=\"Mass\">{}<td "
      "data-l=\"Least to spare\">{}<td data-l=\"Verdict\">{}",
      row.holds ? "" : " class=miss", escaped(address(from_page(row.sheet, path))), printed(row.title),
      printed(row.answer), printed(row.pick), softened(row.mass), printed(row.tightest), printed(row.sentence));
}

}  // namespace

SummaryRow summary_row(const Loaded& loaded, const std::string& sheet) {
  const RunLine line = run_line(loaded.answer);
  const say::HisUnits his(loaded.study);
  const std::string mass = loaded.answer.pick ? both(his, loaded.answer.pick->mass, engine::Dimension::mass) : "";
  return {loaded.study.title, line.answer,     line.pick, mass,
          line.tightest,      loaded.sentence, sheet,     loaded.answer.holds()};
}

std::string summary_page(const std::vector<SummaryRow>& rows, const std::string& path, const Bundle& bundle,
                         const std::string& date) {
  const auto holding = std::count_if(rows.begin(), rows.end(), [](const SummaryRow& row) { return row.holds; });
  const std::string verdict =
      static_cast<std::size_t>(holding) == rows.size()
          ? fmt::format("All {} hold.", rows.size())
          : fmt::format("{} of {} do not hold.", rows.size() - static_cast<std::size_t>(holding), rows.size());
  std::string html = "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n";
  html += "<meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">\n";
  html += "<meta name=\"generator\" content=\"screwtiny " SCREWTINY_VERSION "\">\n";
  html +=
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; base-uri "
      "'none'; "
      "form-action 'none'\">\n<title>Summary of studies</title>\n<style>" +
      std::string(bundle.style) + "</style></head>\n<body><main>\n";
  html += fmt::format("<section class=sheet1><p class=runner><span>Summary of studies</span><span>{}</span></p>",
                      escaped(date));
  html += fmt::format("<header class=verdict-block><p class=verdict>{}</p></header>", printed(verdict));
  html +=
      "<table class=\"cards summary\"><thead><tr><th scope=col>Study<th scope=col>Answer<th scope=col>Pick<th "
      "scope=col>Mass<th "
      "scope=col>Least to spare<th scope=col>Verdict</thead><tbody>";
  for (const SummaryRow& row : rows) html += row_html(row, path);
  return html + "</tbody></table><p class=note>" + printed(say::standing_caution().text) +
         "</p></section>\n</main></body></html>\n";
}

}  // namespace studies::sheet
