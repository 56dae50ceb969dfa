#include "engine/base/utf8.hpp"

namespace engine {
namespace {

unsigned byte(std::string_view text, std::size_t at) {
  return at < text.size() ? static_cast<unsigned char>(text[at]) : 0;
}

/// Bytes announced by a leading byte; 0 where none can begin so.
std::size_t announced(unsigned lead) {
  if (lead < 0x80) return 1;
  if (lead >= 0xC2 && lead <= 0xDF) return 2;
  if (lead >= 0xE0 && lead <= 0xEF) return 3;
  if (lead >= 0xF0 && lead <= 0xF4) return 4;
  return 0;
}

}  // namespace

std::size_t character_length(std::string_view text, std::size_t at) {
  const unsigned lead = byte(text, at);
  const std::size_t length = announced(lead);
  if (length == 0 || at + length > text.size()) return 0;
  for (std::size_t i = 1; i < length; ++i)
    if ((byte(text, at + i) & 0xC0) != 0x80) return 0;
  const unsigned second = byte(text, at + 1);
  const bool overlong = (lead == 0xE0 && second < 0xA0) || (lead == 0xF0 && second < 0x90);
  const bool no_character = (lead == 0xED && second >= 0xA0) || (lead == 0xF4 && second >= 0x90);
  return overlong || no_character ? 0 : length;
}

std::string excerpt(std::string_view text, std::size_t longest) {
  std::string words;
  std::size_t characters = 0;
  for (std::size_t at = 0; at < text.size(); ++characters) {
    if (characters == longest) return words + "…";
    const std::size_t length = character_length(text, at);
    const unsigned lead = byte(text, at);
    if (length == 0)
      words += '?';
    else if (lead < 0x20 || lead == 0x7F || (lead == 0xC2 && byte(text, at + 1) < 0xA0))
      words += ' ';
    else
      words += text.substr(at, length);
    at += length == 0 ? 1 : length;
  }
  return words;
}

}  // namespace engine
