#include "studies/read/vet.hpp"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <sstream>

#include "engine/base/format.hpp"
#include "studies/read/not_checked.hpp"

namespace studies {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t page_width = 80;

std::size_t columns(const std::string& text) {
  std::size_t count = 0;
  for (const char letter : text) count += (static_cast<unsigned char>(letter) & 0xC0) != 0x80 ? 1 : 0;
  return count;
}

/// Words in lines of a page, those after the first set in by `hang`.
std::string wrapped(const std::string& text, std::size_t hang) {
  std::string page, line;
  std::istringstream words(text);
  for (std::string word; words >> word;) {
    if (!line.empty() && columns(line) + 1 + columns(word) > page_width) {
      page += line + "\n";
      line = std::string(hang, ' ') + word;
    } else {
      line += (line.empty() ? "" : " ") + word;
    }
  }
  return page + line + "\n";
}

std::string with_unit(double value, const std::string& unit) {
  return engine::three_figures(value) + (unit.empty() ? "" : " " + unit);
}

/// "22 kN, 4950 lbf"; empty for words and bare numbers.
std::string in_both(const Echo& echo) {
  if (!echo.si || !std::isfinite(*echo.si) || echo.dimension == engine::Dimension::none) return "";
  const engine::Shown metric = engine::in_metric(*echo.si, echo.dimension),
                      inch = engine::in_inch(*echo.si, echo.dimension);
  const std::string one = with_unit(metric.value, metric.unit), other = with_unit(inch.value, inch.unit);
  return one == other ? one : one + ", " + other;
}

/// "duty.force: 22 kN (22 kN, 4950 lbf), typed in line 4".
std::string said(const Echo& echo) {
  const std::string both = in_both(echo);
  return fmt::format("{}: {}{}, {}", echo.path, echo.given, both.empty() ? "" : " (" + both + ")",
                     echo.line > 0 ? fmt::format("{} in line {}", echo.source, echo.line) : echo.source);
}

bool of_one_row(const Echo& a, const Echo& b) {
  return a.source.rfind("table: ", 0) == 0 && a.source == b.source && a.given == b.given;
}

/// What the study says, line by line; the values of one row of a table stand together.
std::string quantities_text(const std::vector<Echo>& echoes) {
  std::string page;
  for (std::size_t i = 0; i < echoes.size(); ++i) {
    std::size_t end = i + 1;
    while (end < echoes.size() && of_one_row(echoes[i], echoes[end])) ++end;
    if (end == i + 1) {
      page += wrapped(said(echoes[i]), 4);
      continue;
    }
    std::string values;
    for (std::size_t k = i; k < end; ++k) {
      const Echo& echo = echoes[k];
      const std::string both = in_both(echo);
      values += (k == i ? "" : "; ") + echo.path.substr(echo.path.rfind('.') + 1) + " " +
                (both.empty() ? engine::plain(*echo.si) : both);
    }
    page += wrapped(fmt::format("{}: {}; {}", echoes[i].given, values, echoes[i].source), 4);
    i = end - 1;
  }
  return page;
}

Json quantity_json(const Echo& echo) {
  Json object{{"path", echo.path}, {"line", nullptr}, {"given", echo.given},  {"si", nullptr},
              {"unit", nullptr},   {"inch", nullptr}, {"inch_unit", nullptr}, {"source", echo.source}};
  if (echo.line > 0) object["line"] = echo.line;
  if (!echo.si || !std::isfinite(*echo.si)) return object;
  const engine::Shown inch = engine::in_inch(*echo.si, echo.dimension);
  object["si"] = *echo.si;
  object["unit"] = engine::si_unit(echo.dimension);
  object["inch"] = inch.value;
  object["inch_unit"] = inch.unit;
  return object;
}

}  // namespace

std::string vet_text(const Study& study) {
  std::string page = wrapped(fmt::format("{}: {}", study.path, study.title), 2) + "\n";
  page += quantities_text(study.echoes);
  std::string held;
  for (const std::string& name : study.held_fixed) held += (held.empty() ? "" : ", ") + name;
  if (!held.empty()) page += "\n" + wrapped("Held fixed, as no scatter is stated: " + held + ".", 2);
  if (!study.cautions.empty()) page += "\n";
  for (const Caution& caution : study.cautions)
    page += wrapped(fmt::format("{} {} ({})", name(caution.level), caution.text, caution.why), 2);
  std::string unchecked;
  for (const std::string& item : not_checked(study)) unchecked += (unchecked.empty() ? "" : ", ") + item;
  return page + "\n" + wrapped("Not checked: " + unchecked + ".", 2);
}

std::string vet_json(const Study& study) {
  Json quantities = Json::array(), cautions = Json::array();
  for (const Echo& echo : study.echoes) quantities.push_back(quantity_json(echo));
  for (const Caution& it : study.cautions)
    cautions.push_back(Json{{"level", name(it.level)}, {"text", it.text}, {"why", it.why}});
  const Json object{{"program", "screwtiny"},
                    {"version", SCREWTINY_VERSION},
                    {"study", study.path},
                    {"title", study.title},
                    {"quantities", quantities},
                    {"cautions", cautions},
                    {"not_checked", not_checked(study)}};
  return object.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace studies
