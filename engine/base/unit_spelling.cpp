#include "engine/base/unit_spelling.hpp"

#include <utility>

namespace engine {
namespace {

constexpr std::pair<std::string_view, std::string_view> signs[] = {
    {"·", "."},    {"⋅", "."},    {"∙", "."},    {"•", "."},      {"×", "*"},      {"²", "2"},      {"³", "3"},
    {"⁻", "-"},    {"¹", "1"},    {"⁄", "/"},    {"∕", "/"},      {"µ", "u"},      {"μ", "u"},      {"°", "deg"},
    {"″", "\""},   {"“", "\""},   {"”", "\""},   {"′", "'"},      {"‘", "'"},      {"’", "'"},      {"−", "-"},
    {"–", "-"},    {"‐", "-"},    {"‑", "-"},    {"\u00A0", " "}, {"\u202F", " "}, {"\u2009", " "}, {"\t", " "},
    {"½", " 1/2"}, {"¼", " 1/4"}, {"¾", " 3/4"}, {"⅛", " 1/8"},   {"⅜", " 3/8"},   {"⅝", " 5/8"},   {"⅞", " 7/8"},
};

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || c == '%'; }
bool is_mark(char c) { return c == '"' || c == '\''; }

/// Reads a unit from left to right; each function takes what it names and moves on.
class Scanner {
public:
  explicit Scanner(std::string_view unit) : unit_(unit) {}

  UnitSpelling read() {
    bool below = false;
    if (peek() == '1' && peek(1) == '/') ++at_;
    if (take('/')) below = true;
    bool bracket = below && take_opening();
    while (result_.fault == SpellingFault::none) {
      blanks();
      factor(below);
      if (result_.fault != SpellingFault::none) break;
      if (bracket && take_closing()) bracket = false;
      const char next = separator();
      if (next == '\0') break;
      if (next == '/' && bracket) fail(SpellingFault::malformed);
      if (next == '.' && below && !bracket) fail(SpellingFault::product_below);
      if (next == '/') below = true, bracket = take_opening();
    }
    if (bracket && result_.fault == SpellingFault::none) fail(SpellingFault::malformed);
    return result_;
  }

private:
  char peek(std::size_t ahead = 0) const { return at_ + ahead < unit_.size() ? unit_[at_ + ahead] : '\0'; }
  bool take(char c) {
    if (peek() != c) return false;
    ++at_;
    return true;
  }
  void blanks() {
    while (peek() == ' ') ++at_;
  }
  bool take_opening() {
    blanks();
    return take('(');
  }
  bool take_closing() {
    blanks();
    return take(')');
  }
  void fail(SpellingFault fault) { result_.fault = fault; }

  std::string word() {
    const std::size_t start = at_;
    if (is_mark(peek()))
      while (is_mark(peek())) ++at_;
    else
      while (is_letter(peek())) ++at_;
    return std::string(unit_.substr(start, at_ - start));
  }

  void factor(bool below) {
    UnitFactor one{word(), 1};
    if (one.word.empty()) return fail(is_digit(peek()) ? SpellingFault::second_number : SpellingFault::malformed);
    const bool caret = take('^');
    const bool minus = peek() == '-' && is_digit(peek(1)) && take('-');
    if (is_digit(peek())) {
      one.power = unit_[at_++] - '0';
      if (one.power == 0 || is_digit(peek())) return fail(SpellingFault::second_number);
    } else if (caret || minus) {
      return fail(SpellingFault::malformed);
    }
    if (minus != below) one.power = -one.power;
    result_.factors.push_back(one);
  }

  /// '/', '.' for a product, or '\0' at the end.
  char separator() {
    const std::size_t start = at_;
    blanks();
    if (at_ == unit_.size()) return '\0';
    if (take('/') || take_per()) return '/';
    if (take('.') || take('*') || take('-')) return '.';
    if (at_ == start) fail(SpellingFault::malformed);
    return '.';
  }
  bool take_per() {
    if (unit_.substr(at_, 4) != "per ") return false;
    at_ += 4;
    return true;
  }

  std::string_view unit_;
  std::size_t at_ = 0;
  UnitSpelling result_;
};

/// Joins neighbours that are one word together: "long", "ton", "force".
std::vector<UnitFactor> joined(const std::vector<UnitFactor>& factors) {
  std::vector<UnitFactor> result;
  for (std::size_t i = 0; i < factors.size();) {
    std::size_t taken = 1;
    for (std::size_t count = 3; count > 1 && taken == 1; --count) {
      if (i + count > factors.size()) continue;
      std::string word = factors[i].word;
      const int side = factors[i].power < 0 ? -1 : 1;
      bool alike = factors[i + count - 1].power * side > 0;
      for (std::size_t k = 1; k < count; ++k) {
        word += "." + factors[i + k].word;
        alike = alike && factors[i + k - 1].power == side;
      }
      if (!alike || find_unit_word(word, false) == nullptr) continue;
      result.push_back({word, factors[i + count - 1].power});
      taken = count;
    }
    if (taken == 1) result.push_back(factors[i]);
    i += taken;
  }
  return result;
}

}  // namespace

PlainText plain_text(std::string_view typed) {
  PlainText plain;
  for (std::size_t at = 0; at < typed.size();) {
    std::string_view sign = typed.substr(at, 1), out = sign;
    for (const auto& [fancy, simple] : signs)
      if (typed.substr(at, fancy.size()) == fancy) sign = fancy, out = simple;
    plain.text += out;
    plain.origin.resize(plain.text.size(), at);
    at += sign.size();
  }
  return plain;
}

UnitSpelling take_apart(std::string_view unit) {
  UnitSpelling spelling = Scanner(unit).read();
  spelling.factors = joined(spelling.factors);
  return spelling;
}

std::string library_expression(const UnitSpelling& spelling, bool as_mass, std::string& unknown) {
  std::string expression;
  for (const UnitFactor& factor : spelling.factors) {
    const UnitWord* word = find_unit_word(factor.word, as_mass);
    if (word == nullptr) {
      unknown = factor.word;
      return "";
    }
    if (!expression.empty()) expression += ".";
    expression += "(" + std::string(word->meaning) + ")";
    if (factor.power != 1) expression += "^" + std::to_string(factor.power);
  }
  return expression;
}

}  // namespace engine
