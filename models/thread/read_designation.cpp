#include "models/thread/designation.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "engine/base/error.hpp"
#include "engine/base/nearest.hpp"
#include "engine/base/utf8.hpp"
#include "models/thread/series.hpp"
#include "models/thread/trade_name.hpp"

namespace models {
namespace {

constexpr double inch = 0.0254;
constexpr double most_starts = 100;

/// A word of an inch designation; `coarse` tells UNC from UNF.
struct InchWord {
  const char* word;
  Form form;
  std::optional<bool> coarse;
};

/// Longer words before those they begin with.
const std::array<InchWord, 6> inch_words{{{"stub acme", Form::stub_acme, {}},
                                          {"stub-acme", Form::stub_acme, {}},
                                          {"acme stub", Form::stub_acme, {}},
                                          {"acme", Form::acme, {}},
                                          {"unc", Form::unified, true},
                                          {"unf", Form::unified, false}}};

[[noreturn]] void refuse(std::string problem, std::string reason, std::string fix) {
  throw engine::Refusal(engine::ExitCode::study, {"", 0, 0, std::move(problem), std::move(reason), std::move(fix)});
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return c >= 'a' && c <= 'z'; }

std::string trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(' '), last = text.find_last_not_of(' ');
  return first == std::string_view::npos ? "" : std::string(text.substr(first, last - first + 1));
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
}

/// Small letters, one kind of multiplication sign, dash and blank, no inch marks.
std::string plain_text(std::string_view typed) {
  std::string text(typed);
  replace_all(text, "×", "x");
  replace_all(text, "–", "-");
  replace_all(text, "\u00a0", " ");
  replace_all(text, "\"", "");
  for (char& c : text) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    if (c == '\t' || c == '\n' || c == '\r') c = ' ';
  }
  while (text.find("  ") != std::string::npos) replace_all(text, "  ", " ");
  return trimmed(text);
}

/// Reads a text from left to right; blanks between its parts do not count.
class Scanner {
public:
  explicit Scanner(std::string_view text) : rest_(text) {}

  bool take(std::string_view word) {
    skip_blanks();
    if (rest_.substr(0, word.size()) != word) return false;
    rest_.remove_prefix(word.size());
    return true;
  }

  /// A number above zero, without sign and exponent; leaves the text alone where there is none.
  std::optional<double> number() {
    skip_blanks();
    double value = 0;
    if (rest_.empty() || !(is_digit(rest_[0]) || rest_[0] == '.')) return std::nullopt;
    const auto [end, error] =
        std::from_chars(rest_.data(), rest_.data() + rest_.size(), value, std::chars_format::fixed);
    if (error != std::errc{} || !(value > 0)) return std::nullopt;
    rest_.remove_prefix(static_cast<std::size_t>(end - rest_.data()));
    return value;
  }

  std::string_view rest() {
    skip_blanks();
    return rest_;
  }

private:
  void skip_blanks() {
    while (!rest_.empty() && rest_[0] == ' ') rest_.remove_prefix(1);
  }

  std::string_view rest_;
};

/// A designation as typed, for messages.
std::string quoted(std::string_view typed) { return "'" + engine::excerpt(typed) + "'"; }

const std::string examples =
    R"("Tr 40x7", "Tr 40x14 P7", "1-1/2-4 Acme", "1-1/2-4 Stub Acme", "M24x3", "1-8 UNC" or "square 25x5")";

/// The known word that the letters of a text come nearest to; empty where they are one, or near none.
std::string meant(const std::string& text) {
  std::size_t from = 0;
  while (from < text.size() && !is_letter(text[from])) ++from;
  const std::string word = text.substr(from, from == 0 ? text.find(' ') : std::string::npos);
  std::vector<std::string> known{"tr"};
  for (const InchWord& inch_word : inch_words) known.emplace_back(inch_word.word);
  for (const Form form : all_forms()) known.push_back(name(form));
  const std::string near = engine::nearest(word, known);
  return near == word ? "" : near;
}

/// @param unread  where reading stopped
[[noreturn]] void refuse_unread(std::string_view typed, const std::string& text, std::string_view unread) {
  const std::string near = meant(text);
  const bool is_class = unread.size() >= 3 && unread[0] == '-' && is_digit(unread[1]) && unread[2] == 'g';
  const std::string reason =
      unread.empty() ? "It breaks off" : "It cannot be read from '" + engine::excerpt(unread) + "' on";
  refuse(quoted(typed) + " is not a thread designation", reason,
         is_class ? "leave the class out and type it beside the thread, class = \"" + std::string(1, unread[1]) + "G\""
         : near.empty() ? "write it like " + examples
                        : "did you mean '" + near + "'? Write it like " + examples);
}

const char* series_name(Form form) {
  switch (form) {
    case Form::trapezoidal:
      return "ISO 2904";
    case Form::acme:
      return "ASME B1.5";
    case Form::stub_acme:
      return "ASME B1.8";
    case Form::iso_metric:
      return "ISO 261";
    default:
      return "ASME B1.1 (UNC, UNF)";
  }
}

std::string nearest_names(Form form, double diameter, double pitch) {
  const std::vector<Size> near = nearest_sizes(form, diameter, pitch, 2);
  return trade_name(form, near[0]) + " and " + trade_name(form, near[1]);
}

/// The coarsest pitch made at a diameter of which `lead` is 2 to 8 times: who types a lead alone may mean starts.
std::string starts_meant(Form form, double diameter, double lead) {
  std::string hint;
  for (const Size& size : series(form)) {
    const double starts = std::round(lead / size.pitch);
    if (std::abs(size.diameter - diameter) <= 1e-9 * diameter && starts >= 2 && starts <= 8 &&
        std::abs(lead - starts * size.pitch) <= 1e-6 * lead)
      hint = fmt::format(", {} for {} starts", trade_name(form, size, static_cast<int>(starts)), starts);
  }
  return hint;
}

/// The free form as a study types it, in the units of the form.
std::string free_form(Form form, double diameter, double pitch) {
  const bool inches = form == Form::acme || form == Form::stub_acme || form == Form::unified;
  const std::string d = inches ? decimals(diameter / inch) + " in" : decimals(diameter * 1e3) + " mm";
  const std::string p = inches ? decimals(inch / pitch) + " tpi" : decimals(pitch * 1e3) + " mm";
  return fmt::format(R"(thread = {{ form = "{}", diameter = "{}", pitch = "{}" }})", name(form), d, p);
}

[[noreturn]] void refuse_off_series(std::string_view typed, Form form, double diameter, double pitch) {
  refuse(quoted(typed) + " is not on the series of " + series_name(form),
         "The nearest sizes are " + nearest_names(form, diameter, pitch),
         "use one of these" + starts_meant(form, diameter, pitch) +
             ", or a size of your own: " + free_form(form, diameter, pitch));
}

/// Takes the exact size of the series.
/// @throws Refusal where it is not on it
void snap_to_series(Designation& read, std::string_view typed) {
  const Size* size = size_on_series(read.form, read.diameter, read.pitch);
  if (!size) refuse_off_series(typed, read.form, read.diameter, read.pitch);
  read.diameter = size->diameter;
  read.pitch = size->pitch;
}

/// Diameter, lead and pitch as typed [mm].
struct Dimensions {
  double diameter = 0;
  std::optional<double> lead, pitch;
};

/// Reads "40x7", "40x14 P7", "24"; nothing where it stops short of the end.
std::optional<Dimensions> dimensions(Scanner& scanner) {
  const std::optional<double> diameter = scanner.number();
  if (!diameter) return std::nullopt;
  Dimensions read{*diameter, {}, {}};
  if (scanner.take("x")) {
    scanner.take("ph");
    if (!(read.lead = scanner.number())) return std::nullopt;
    if (scanner.take("p") && !(read.pitch = scanner.number())) return std::nullopt;
  }
  return scanner.rest().empty() ? std::optional(read) : std::nullopt;
}

int starts_of(std::string_view typed, double lead, double pitch) {
  const double starts = std::round(lead / pitch);
  if (!(starts >= 1) || starts > most_starts || std::abs(lead - starts * pitch) > 1e-6 * lead)
    refuse(fmt::format("{} has a lead of {} mm on a pitch of {} mm", quoted(typed), decimals(lead), decimals(pitch)),
           fmt::format("The lead is a whole number of pitches (at most {}), one for each start", most_starts),
           fmt::format("use a lead of {} mm for one start, {} mm for two", decimals(pitch), decimals(2 * pitch)));
  return static_cast<int>(starts);
}

Designation metric(std::string_view typed, Form form, const Dimensions& said) {
  Designation read;
  read.form = form;
  read.diameter = said.diameter / 1000;
  read.pitch = said.pitch.value_or(*said.lead) / 1000;
  read.starts_said = said.pitch.has_value();
  if (said.pitch) read.starts = starts_of(typed, *said.lead, *said.pitch);
  return read;
}

Designation coarse_metric(std::string_view typed, double millimetres) {
  const double diameter = millimetres / 1000;
  const Size* size = coarse_size(Form::iso_metric, diameter);
  if (!size)
    refuse(quoted(typed) + " is not on the coarse series of ISO 261",
           "The nearest sizes are " + nearest_names(Form::iso_metric, diameter, diameter / 8),
           "use one of these, or type a pitch, as in M24x3");
  return {Form::iso_metric, size->diameter, size->pitch, 1, false};
}

/// "Tr 40x7" and "M24x3", after their letters; on their series.
Designation read_metric(std::string_view typed, const std::string& text, Form form, Scanner scanner) {
  const std::optional<Dimensions> said = dimensions(scanner);
  if (!said || (!said->lead && form != Form::iso_metric)) refuse_unread(typed, text, scanner.rest());
  if (!said->lead) return coarse_metric(typed, said->diameter);
  Designation read = metric(typed, form, *said);
  snap_to_series(read, typed);
  return read;
}

/// "square 25x5", after the name of its form; on no series, but exactly a size of one where it is that size.
Designation read_free(std::string_view typed, const std::string& text, Form form, Scanner scanner) {
  const std::optional<Dimensions> said = dimensions(scanner);
  if (!said || !said->lead) refuse_unread(typed, text, scanner.rest());
  Designation read = metric(typed, form, *said);
  if (const Size* size = size_on_series(form, read.diameter, read.pitch)) {
    read.diameter = size->diameter;
    read.pitch = size->pitch;
  }
  return read;
}

/// Reads "1 1/2", "3/4", "1.5" to the end.
std::optional<double> mixed_number(std::string_view text) {
  Scanner scanner(text);
  std::optional<double> whole = scanner.number(), above = whole;
  if (!whole) return std::nullopt;
  if (scanner.rest().empty()) return whole;
  if (scanner.take("/"))
    whole = 0;
  else if (!(above = scanner.number()) || !scanner.take("/"))
    return std::nullopt;
  const std::optional<double> below = scanner.number();
  if (!below || !scanner.rest().empty()) return std::nullopt;
  return *whole + *above / *below;
}

/// Inches and threads to the inch.
struct InchNumbers {
  double diameter, threads;
};

/// Takes "1-1/2-4" apart: the last number, or "4-1/2" after at least one more, is the threads to the inch.
std::optional<InchNumbers> inch_numbers(std::string_view text) {
  std::vector<std::string> parts;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t to = std::min(text.find('-', from), text.size());
    parts.push_back(trimmed(text.substr(from, to - from)));
    from = to + 1;
  }
  if (!parts.empty() && parts.back().empty()) parts.pop_back();
  if (parts.size() < 2 || parts.size() > 4) return std::nullopt;
  std::string threads = parts.back();
  parts.pop_back();
  if (threads.find('/') != std::string::npos && threads.find(' ') == std::string::npos) {
    threads = parts.back() + " " + threads;
    parts.pop_back();
  }
  if (parts.empty()) return std::nullopt;
  const std::optional<double> d = mixed_number(parts.size() > 1 ? parts[0] + " " + parts[1] : parts[0]);
  const std::optional<double> n = parts.size() > 2 ? std::nullopt : mixed_number(threads);
  return d && n ? std::optional(InchNumbers{*d, *n}) : std::nullopt;
}

/// ", 2 starts" at the end; nothing where something else stands there.
std::optional<int> starts_said(Scanner& scanner) {
  if (scanner.rest().empty()) return 0;
  scanner.take(",");
  const std::optional<double> starts = scanner.number();
  if (!starts || *starts != std::floor(*starts) || *starts > most_starts) return std::nullopt;
  scanner.take("-");
  if (!scanner.take("starts") && !scanner.take("start")) return std::nullopt;
  return scanner.rest().empty() ? std::optional(static_cast<int>(*starts)) : std::nullopt;
}

/// UNC on a fine size or UNF on a coarse one.
void check_coarse(std::string_view typed, const Designation& read, bool coarse) {
  const std::string right = trade_name(read.form, {read.diameter, read.pitch});
  if (right.ends_with("UNC") == coarse) return;
  refuse(quoted(typed) + " is not on the " + (coarse ? "coarse" : "fine") + " series of ASME B1.1",
         "It is a size of the " + std::string(coarse ? "fine" : "coarse") + " series", "write " + right);
}

/// "1-1/2-4 Acme", "1-8 UNC".
Designation read_inch(std::string_view typed, const std::string& text) {
  const std::size_t letters = std::min(text.find_first_not_of("0123456789./- "), text.size());
  Scanner scanner(std::string_view(text).substr(letters));
  const InchWord* word = nullptr;
  for (const InchWord& known : inch_words)
    if (!word && scanner.take(known.word)) word = &known;
  if (!word) refuse_unread(typed, text, scanner.rest());
  const std::optional<InchNumbers> said = inch_numbers(std::string_view(text).substr(0, letters));
  if (!said)
    refuse(quoted(typed) + " does not give a diameter and threads per inch",
           "The last number is the threads per inch, the one before it the diameter in inches",
           "write it like \"1-1/2-4 Acme\" or \"3/4-16 UNF\"");
  const std::optional<int> starts = starts_said(scanner);
  if (!starts) refuse_unread(typed, text, scanner.rest());
  Designation read{word->form, said->diameter * inch, inch / said->threads, std::max(1, *starts), *starts > 0};
  snap_to_series(read, typed);
  if (word->coarse) check_coarse(typed, read, *word->coarse);
  return read;
}

}  // namespace

Designation read_designation(std::string_view typed) {
  const std::string text = plain_text(typed);
  Scanner scanner(text);
  for (const Form form : all_forms())
    if (scanner.take(name(form))) return read_free(typed, text, form, scanner);
  if (scanner.take("tr")) return read_metric(typed, text, Form::trapezoidal, scanner);
  if (text.size() > 1 && text[0] == 'm' && !is_letter(text[1])) {
    scanner.take("m");
    return read_metric(typed, text, Form::iso_metric, scanner);
  }
  if (!text.empty() && (is_digit(text[0]) || text[0] == '.')) return read_inch(typed, text);
  refuse_unread(typed, text, text);
}

}  // namespace models
