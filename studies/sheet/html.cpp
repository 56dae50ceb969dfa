#include "studies/sheet/html.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <optional>

#include "studies/say/figures.hpp"
#include "studies/say/words.hpp"

namespace studies::sheet {
namespace {

constexpr const char* thin_blank = "\u202f";
constexpr const char* fixed_blank = "\u00a0";
constexpr const char* minus = "\u2212";

bool digit(char c) { return c >= '0' && c <= '9'; }

constexpr std::array<std::string_view, 31> unit_words = {
    "mm",   "cm",   "m",      "in",     "ft",    "N",  "kN",  "MN",  "lbf", "kip", "N.m",
    "N.mm", "kN.m", "lbf.ft", "lbf.in", "ft-lb", "Pa", "kPa", "MPa", "GPa", "psi", "ksi",
    "kg",   "g",    "lb",     "%",      "rpm",   "s",  "W",   "kW",  "hp"};

bool is_unit(std::string_view word) {
  return std::find(unit_words.begin(), unit_words.end(), word) != unit_words.end();
}

/// The word that begins at a place: up to a blank or a mark that ends a phrase.
std::string_view word_at(std::string_view text, std::size_t from) {
  std::size_t end = from;
  while (end < text.size() && text[end] != ' ' && std::string_view(",;:()[]").find(text[end]) == std::string_view::npos)
    ++end;
  std::string_view word = text.substr(from, end - from);
  while (!word.empty() && word.back() == '.') word.remove_suffix(1);
  return word;
}

/// Whether a blank stands between groups of three of one number.
bool groups(std::string_view text, std::size_t blank) {
  if (blank == 0 || !digit(text[blank - 1])) return false;
  for (std::size_t i = 1; i <= 3; ++i)
    if (blank + i >= text.size() || !digit(text[blank + i])) return false;
  const bool ends = blank + 4 >= text.size() || !digit(text[blank + 4]);
  // At most three digits stand before the first blank of a number.
  std::size_t before = 0;
  while (before < blank && digit(text[blank - 1 - before])) ++before;
  return ends && before <= 3;
}

/// A sign that stands before a number, not between two.
bool is_sign(std::string_view text, std::size_t at) {
  const bool opens = at == 0 || text[at - 1] == ' ' || text[at - 1] == '(' || text[at - 1] == '[';
  return opens && at + 1 < text.size() && digit(text[at + 1]);
}

std::string entity(char c) {
  switch (c) {
    case '&':
      return "&amp;";
    case '<':
      return "&lt;";
    case '>':
      return "&gt;";
    case '"':
      return "&quot;";
    case '\'':
      return "&#39;";
    default:
      return std::string(1, c);
  }
}

/// A quantity found in a text.
struct Found {
  std::size_t begin = 0, end = 0;
  double si = 0;
  engine::Dimension dimension = engine::Dimension::none;
};

bool uses_inches(const Study& study) {
  return study.inch ||
         std::any_of(study.units.begin(), study.units.end(), [](const auto& u) { return u.second == "in"; });
}

/// The quantity whose number begins at a place; none where there is no unit behind it.
std::optional<Found> quantity_at(std::string_view text, std::size_t begin, const Study& study) {
  using engine::Dimension;
  if (!digit(text[begin]) || (begin > 0 && text[begin - 1] != ' ' && text[begin - 1] != '(')) return std::nullopt;
  std::size_t end = begin;
  while (end < text.size() && (digit(text[end]) || text[end] == '.' || (text[end] == ' ' && groups(text, end)))) ++end;
  if (end + 1 >= text.size() || text[end] != ' ') return std::nullopt;
  const std::string_view unit = word_at(text, end + 1);
  const std::size_t after = end + 1 + unit.size();
  const bool counted = after + 1 < text.size() && text[after] == ' ' && digit(text[after + 1]);  // "3.12 in 100"
  if (!is_unit(unit) || (unit == "in" && (counted || !uses_inches(study)))) return std::nullopt;
  std::string number(text.substr(begin, end - begin));
  number.erase(std::remove(number.begin(), number.end(), ' '), number.end());
  for (const Dimension dimension :
       {Dimension::length, Dimension::mass, Dimension::force, Dimension::torque, Dimension::stress}) {
    try {
      return Found{begin, after, engine::parse_quantity(number + " " + std::string(unit), dimension).si, dimension};
    } catch (const engine::QuantityError&) {  // of another dimension
    }
  }
  return std::nullopt;
}

std::string other_system(const Found& found, std::string_view unit) {
  const engine::Shown other = engine::is_inch_unit(unit) ? engine::in_metric(found.si, found.dimension)
                                                         : engine::in_inch(found.si, found.dimension);
  return say::number(other.value) + " " + other.unit;
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string html;
  for (const char c : say::cleaned(text)) html += entity(c);
  return html;
}

std::string unit_in_type(std::string unit) {
  for (const auto& [from, to] : {std::pair("N.m", "N·m"), std::pair("lbf.ft", "lbf·ft"), std::pair("lbf.in", "lbf·in")})
    if (const auto at = unit.find(from); at != std::string::npos) unit.replace(at, std::string_view(from).size(), to);
  return unit;
}

std::string printed(std::string_view text) {
  std::string html;
  for (const char c : set_in_type(text)) html += entity(c);
  return html;
}

std::string set_in_type(std::string_view raw) {
  const std::string text = say::cleaned(raw);
  std::string set;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == ' ' && groups(text, i)) {
      set += thin_blank;
    } else if (c == ' ' && i > 0 && digit(text[i - 1]) && is_unit(word_at(text, i + 1))) {
      const std::string_view unit = word_at(text, i + 1);
      set += fixed_blank + unit_in_type(std::string(unit));
      i += unit.size();
    } else if (c == '-' && is_sign(text, i)) {
      set += minus;
    } else {
      set += c;
    }
  }
  return set;
}

std::string with_other(std::string_view raw, const Study& study) {
  const std::string text = say::cleaned(raw);
  std::string all;
  for (std::size_t i = 0; i < text.size();) {
    const std::optional<Found> found = quantity_at(text, i, study);
    if (!found) {
      all += text[i++];
      continue;
    }
    const std::string own = text.substr(found->begin, found->end - found->begin);
    all += own + " [" + other_system(*found, own.substr(own.rfind(' ') + 1)) + "]";
    i = found->end;
  }
  return softened(all);
}

std::string softened(std::string_view text) {
  std::string html = printed(text);
  for (std::size_t at = html.find('['); at != std::string::npos; at = html.find('[', at)) {
    const std::size_t end = html.find(']', at);
    if (end == std::string::npos) break;
    const std::string inside = fmt::format("<span class=o>{}</span>", html.substr(at, end - at + 1));
    html.replace(at, end - at + 1, inside);
    at += inside.size();
  }
  return html;
}

std::string css_string(std::string_view text) {
  std::string css = "\"";
  const std::string clean = say::cleaned(text);
  for (const char c : clean) {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isalnum(byte) || c == ' ' || byte >= 0x80)
      css += c;
    else
      css += fmt::format("\\{:x} ", byte);
  }
  return css + "\"";
}

namespace {

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
}

}  // namespace

std::string in_script(std::string json) {
  replace_all(json, "<", "\\u003c");
  replace_all(json, "\u2028", "\\u2028");
  replace_all(json, "\u2029", "\\u2029");
  return json;
}

std::string as_script(std::string script) {
  replace_all(script, "</script", "<\\/script");
  replace_all(script, "<!--", "<\\!--");
  return script;
}

std::string table_html(const std::vector<std::string>& head, const std::vector<std::vector<std::string>>& rows) {
  std::string html = "<table><thead><tr>";
  for (const std::string& cell : head) html += "<th scope=col>" + printed(cell);
  html += "</thead><tbody>";
  for (const auto& row : rows) {
    html += "<tr>";
    for (std::size_t i = 0; i < row.size(); ++i) html += (i == 0 ? "<th scope=row>" : "<td>") + softened(row[i]);
  }
  return html + "</tbody></table>";
}

}  // namespace studies::sheet
