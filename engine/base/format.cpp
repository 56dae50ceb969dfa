#include "engine/base/format.hpp"

#include <fmt/format.h>

#include <cmath>

namespace engine {
namespace {

/// Decimal digits of a value rounded to so many figures, idle zeros dropped: 0.0250 -> "25", power -2.
struct Decimal {
  std::string digits;
  int power = 0;  ///< of the first digit
};

Decimal decimal(double magnitude, int figures) {
  const std::string words = fmt::format("{:.{}e}", magnitude, figures - 1);
  const std::size_t mark = words.find('e');
  Decimal result;
  for (const char letter : words.substr(0, mark))
    if (letter != '.') result.digits += letter;
  result.power = std::stoi(words.substr(mark + 1));
  while (result.digits.size() > 1 && result.digits.back() == '0') result.digits.pop_back();
  return result;
}

std::string in_groups(const std::string& digits) {
  if (digits.size() <= 4) return digits;
  std::string words;
  for (std::size_t i = 0; i < digits.size(); ++i) {
    if (i > 0 && (digits.size() - i) % 3 == 0) words += ' ';
    words += digits[i];
  }
  return words;
}

std::string as_power(const Decimal& number) {
  const std::string rest = number.digits.substr(1);
  return number.digits.substr(0, 1) + (rest.empty() ? "" : "." + rest) + "e" + std::to_string(number.power);
}

/// Digits with the point where it belongs, no exponent.
std::string written_out(const Decimal& number, bool grouped) {
  if (number.power < 0) return "0." + std::string(static_cast<std::size_t>(-number.power - 1), '0') + number.digits;
  const auto before = static_cast<std::size_t>(number.power) + 1;
  std::string whole = number.digits.substr(0, before);
  whole.append(before - whole.size(), '0');
  const std::string rest = number.digits.size() > before ? "." + number.digits.substr(before) : "";
  return (grouped ? in_groups(whole) : whole) + rest;
}

std::string sign(double value) { return value < 0 ? "-" : ""; }

std::string without_figures(double value) { return std::isnan(value) ? "none" : sign(value) + "infinity"; }

std::string with_figures(double value, int figures, int largest_power, bool grouped) {
  if (!std::isfinite(value)) return without_figures(value);
  if (value == 0) return "0";
  const Decimal number = decimal(std::fabs(value), figures);
  const bool power = number.power < -6 || number.power >= largest_power;
  return sign(value) + (power ? as_power(number) : written_out(number, grouped));
}

}  // namespace

std::string three_figures(double value) { return with_figures(value, 3, 9, true); }

std::string plain(double value) {
  const bool whole = std::trunc(value) == value && std::fabs(value) < 1e15;
  return with_figures(value, whole ? 15 : 7, 15, false);
}

std::string count_in_full(std::uint64_t count) { return in_groups(std::to_string(count)); }

}  // namespace engine
