#include "studies/read/short_study.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "engine/base/utf8.hpp"
#include "models/thread/trade_name.hpp"
#include "studies/read/keys.hpp"

namespace studies {
namespace {

using Line = ShortStudy::Line;

constexpr std::size_t key_columns = 16, value_columns = 28;

std::string section_of(std::string_view path) { return std::string(path.substr(0, path.rfind('.'))); }
std::string key_of(std::string_view path) { return std::string(path.substr(path.rfind('.') + 1)); }

bool is_digit(char letter) { return letter >= '0' && letter <= '9'; }

/// Whether a text is a number as TOML has it: 12, 0.15; none longer than the reader keeps to its last figure.
bool is_number(const std::string& text) {
  constexpr std::size_t longest = 15;
  const std::size_t point = std::min(text.find('.'), text.size());
  const std::string whole = text.substr(0, point), part = text.substr(std::min(point + 1, text.size()));
  const bool digits =
      std::all_of(whole.begin(), whole.end(), is_digit) && std::all_of(part.begin(), part.end(), is_digit);
  const bool leading_zero = whole.size() > 1 && whole.front() == '0';
  return digits && !whole.empty() && !leading_zero && part.empty() == (point == text.size()) && text.size() <= longest;
}

/// A text in quotes, so that TOML reads back the same bytes.
std::string quoted(const std::string& text) {
  std::string safe = "\"";
  for (const char letter : text) {
    const auto byte = static_cast<unsigned char>(letter);
    if (letter == '"' || letter == '\\')
      safe += std::string("\\") + letter;
    else if (byte < 0x20 || byte == 0x7F)
      safe += fmt::format("\\u{:04X}", byte);
    else
      safe += letter;
  }
  return safe + "\"";
}

/// A value as the study has it. A bare number where a quantity is due stays in quotes, and is refused for its unit.
std::string value_text(std::string_view path, const std::string& text) {
  const engine::Dimension due = read::find_key(path)->dimension;
  return due == engine::Dimension::none && is_number(text) ? text : quoted(text);
}

Line assignment(const std::string& option, const std::string& key, const std::string& value,
                const std::string& assumed) {
  std::string text = fmt::format("{:<{}}= {}", key, key_columns, value);
  if (!assumed.empty())
    text = fmt::format("{:<{}}  # assumed: {} ({})", text, key_columns + value_columns, assumed, option);
  return {option, !assumed.empty(), text};
}

/// Whether there is anything to assume of a key that was not typed.
bool worth_assuming(const ShortOption& option, const Typed& typed) {
  if (option.name == "--hands") return typed.count("--handle") > 0 || typed.count("--hand-force") > 0;
  if (option.name == "--face-on") return typed.count("--rolling") == 0;
  return !option.usual.empty();
}

/// A thrust face between the screw and one and a half of it: 1.25 d at its middle, as in Shigley's Example 8-1 (a
/// collar of 40 mm for a screw of 32 mm).
std::vector<Line> usual_ring(const std::string& thread) {
  constexpr double outer = 1.5, inner = 1, inch = 0.0254, millimetre = 1e-3;
  double diameter = millimetre;  // of a thread that cannot be read, and is refused for that
  bool metric = true;
  try {
    const models::Designation read = models::read_designation(thread);
    diameter = read.diameter;
    metric =
        read.form != models::Form::acme && read.form != models::Form::stub_acme && read.form != models::Form::unified;
  } catch (const engine::Refusal&) {
  }
  const auto length = [&](double times) {
    return quoted(models::decimals(times * diameter / (metric ? millimetre : inch)) + (metric ? " mm" : " in"));
  };
  return {assignment("--face-radius", "outer", length(outer), "1.5 d, and the torque hangs on it"),
          assignment("--face-radius", "inner", length(inner), "1 d")};
}

void check_bytes(const Typed& typed) {
  for (const auto& [option, text] : typed)
    for (std::size_t at = 0, length = 0; at < text.size(); at += length)
      if (length = engine::character_length(text, at); length == 0)
        throw engine::Refusal(
            engine::ExitCode::study,
            engine::Problem{"", 0, 0, fmt::format("{}: '{}' is not UTF-8", option, engine::excerpt(text)), "",
                            "type it again"});
}

std::string action_of(const Typed& typed) { return typed.count("--load") > 0 ? "lift" : "clamp"; }

/// What opens a section besides its name.
std::vector<Line> opening(const std::string& section, const Typed& typed) {
  std::vector<Line> lines = {{"", false, ""}, {"", false, "[" + section + "]"}};
  if (section == "duty") lines.push_back(assignment("", "action", quoted(action_of(typed)), ""));
  return lines;
}

/// The line of one option, or those that stand in its place.
std::vector<Line> lines_of(const ShortOption& option, const Typed& typed) {
  const std::string name(option.name), key = key_of(option.path);
  if (const auto at = typed.find(name); at != typed.end())
    return {assignment(name, key, value_text(option.path, at->second), "")};
  if (name == "--face-radius") return usual_ring(typed.count("--thread") > 0 ? typed.at("--thread") : "");
  if (name == "--travel")
    return {{name, true, "# assumed: no travel, so no column is reckoned and the mass is that in the nut (--travel)"}};
  if (!worth_assuming(option, typed)) return {};
  return {assignment(name, key, value_text(option.path, std::string(option.usual)), std::string(option.why))};
}

}  // namespace

std::string ShortStudy::text() const {
  std::string all;
  for (const Line& line : lines) all += line.text + "\n";
  return all;
}

ShortStudy short_study(const Typed& typed) {
  check_bytes(typed);
  const auto thread = typed.find("--thread");
  const std::string subject = thread == typed.end() ? "A screw" : thread->second;
  ShortStudy study{{assignment("--thread", "title", quoted(subject + ", reckoned"), "")}};
  std::string section;
  for (const ShortOption& option : short_options()) {
    std::vector<Line> lines;
    if (section_of(option.path) != section) lines = opening(section = section_of(option.path), typed);
    const std::vector<Line> own = lines_of(option, typed);
    lines.insert(lines.end(), own.begin(), own.end());
    study.lines.insert(study.lines.end(), lines.begin(), lines.end());
  }
  return study;
}

}  // namespace studies
