#include "engine/base/number_text.hpp"

#include <charconv>
#include <cmath>
#include <system_error>

namespace engine {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

char at(const std::string& text, std::size_t place) { return place < text.size() ? text[place] : '\0'; }

std::size_t skip_digits(const std::string& text, std::size_t from) {
  while (is_digit(at(text, from))) ++from;
  return from;
}

std::size_t skip_blanks(const std::string& text, std::size_t from) {
  while (at(text, from) == ' ') ++from;
  return from;
}

NumberText failed(NumberFault fault, const std::string& mended = "") { return {0, 0, fault, mended}; }

double whole(const std::string& text, std::size_t from, std::size_t to) {
  double value = 0;
  std::from_chars(text.data() + from, text.data() + to, value);
  return value;
}

/// A fraction of two whole numbers that begins at `from`; `end` stays 0 where there is none.
NumberText fraction(const std::string& text, std::size_t from) {
  const std::size_t slash = skip_digits(text, from);
  const std::size_t end = skip_digits(text, slash + 1);
  if (slash == from || at(text, slash) != '/' || end == slash + 1) return {};
  const double below = whole(text, slash + 1, end);
  if (below == 0) return failed(NumberFault::no_denominator);
  return {whole(text, from, slash) / below, end, NumberFault::none, ""};
}

/// "1 000 N", "1_000", "1'000": the digits joined, when every group after the first has three.
std::string joined_thousands(const std::string& text, std::size_t from) {
  std::size_t place = skip_digits(text, from);
  std::string digits = text.substr(0, place);
  if (place - from > 3) return "";
  for (const char mark = at(text, place); at(text, place) == mark && is_digit(at(text, place + 1));) {
    const std::size_t end = skip_digits(text, place + 1);
    if (end - place != 4) return "";
    digits += text.substr(place + 1, 3);
    place = end;
  }
  if (at(text, place) == '.') digits += text.substr(place, skip_digits(text, place + 1) - place);
  return digits;
}

/// "1,5" as 1.5; "1,500.5" and "1,500,000" without their commas; "1,500" could be either.
std::string without_comma(const std::string& text, std::size_t from) {
  const std::size_t comma = skip_digits(text, from);
  const std::size_t end = skip_digits(text, comma + 1);
  if (end - comma == 4) return joined_thousands(text, from);
  return text.substr(0, comma) + "." + text.substr(comma + 1, end - comma - 1);
}

/// What is wrong with what follows a number, if anything.
NumberText check_after(const std::string& text, std::size_t start, NumberText number) {
  const char next = at(text, number.end);
  const bool whole_number = skip_digits(text, start) == number.end;
  if (next == ',' && is_digit(at(text, number.end + 1)))
    return failed(NumberFault::comma, whole_number ? without_comma(text, start) : "");
  if ((next == '_' || next == '\'') && is_digit(at(text, number.end + 1)))
    return failed(NumberFault::spread_out, whole_number ? joined_thousands(text, start) : "");
  if (next == '.' || next == ',' || next == '_') return failed(NumberFault::malformed);
  const std::size_t word = skip_blanks(text, number.end);
  const char first = at(text, word), second = at(text, word + 1);
  if (is_digit(first) && second != '/') {
    const std::string thousands = whole_number && word == number.end + 1 ? joined_thousands(text, start) : "";
    return thousands.empty() ? failed(NumberFault::second_number) : failed(NumberFault::spread_out, thousands);
  }
  const bool per = first == '/' || (first == '1' && second == '/');
  const std::size_t below = skip_blanks(text, word + (first == '/' ? 1 : 2));
  if (per && is_digit(at(text, below))) return failed(NumberFault::malformed);
  if (is_digit(first) && !per) return failed(NumberFault::second_number);
  const bool signed_number = (first == '-' || first == '+' || first == '.') && (is_digit(second) || second == '.');
  return signed_number ? failed(NumberFault::second_number) : number;
}

NumberText magnitude(const std::string& text, std::size_t start) {
  const NumberText alone = fraction(text, start);
  if (alone.end > 0 || alone.fault != NumberFault::none) return alone;
  NumberText number;
  const auto [end, error] = std::from_chars(text.data() + start, text.data() + text.size(), number.value);
  if (error == std::errc::result_out_of_range) return failed(NumberFault::out_of_range);
  if (error != std::errc{}) return failed(NumberFault::missing);
  number.end = static_cast<std::size_t>(end - text.data());
  if (skip_digits(text, start) != number.end) return number;
  const bool hyphen = at(text, number.end) == '-';
  const std::size_t next = hyphen ? number.end + 1 : skip_blanks(text, number.end);
  if (next == number.end) return number;
  const NumberText part = fraction(text, next);
  if (part.fault != NumberFault::none) return part;
  if (part.end > 0) number = {number.value + part.value, part.end, NumberFault::none, ""};
  return number;
}

}  // namespace

NumberText read_number(const std::string& text) {
  const bool negative = at(text, 0) == '-';
  const std::size_t start = negative || at(text, 0) == '+' ? 1 : 0;
  const bool begins = is_digit(at(text, start)) || (at(text, start) == '.' && is_digit(at(text, start + 1)));
  if (!begins) return failed(NumberFault::missing);
  NumberText number = magnitude(text, start);
  if (number.fault == NumberFault::none && !std::isfinite(number.value)) return failed(NumberFault::out_of_range);
  if (number.fault != NumberFault::none) return number;
  if (negative) number.value = -number.value;
  return check_after(text, start, number);
}

}  // namespace engine
