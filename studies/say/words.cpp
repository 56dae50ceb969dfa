#include "studies/say/words.hpp"

#include <algorithm>
#include <array>
#include <cctype>

#include "engine/base/format.hpp"
#include "engine/base/utf8.hpp"

namespace studies::say {

std::string number_in_words(std::uint64_t count) {
  static constexpr std::array<std::string_view, 11> words = {"no",  "one",   "two",   "three", "four", "five",
                                                             "six", "seven", "eight", "nine",  "ten"};
  return count < words.size() ? std::string(words[count]) : engine::count_in_full(count);
}

std::string counted(std::uint64_t count, std::string_view noun) {
  return engine::count_in_full(count) + " " + std::string(noun) + (count == 1 ? "" : "s");
}

std::string joined(const std::vector<std::string>& items, std::string_view separator) {
  std::string words;
  for (const std::string& item : items) {
    if (!words.empty()) words += separator;
    words += item;
  }
  return words;
}

std::string list_of(const std::vector<std::string>& items) {
  if (items.size() < 2) return joined(items, "");
  const std::vector<std::string> all_but_last(items.begin(), items.end() - 1);
  return joined(all_but_last, ", ") + " and " + items.back();
}

std::string capital(std::string words) {
  if (!words.empty()) words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
  return words;
}

std::string without_stop(std::string words) {
  while (words.ends_with('.')) words.pop_back();
  return words;
}

std::string limit_words(models::Must must) { return std::string(models::row(must).words); }

std::string breaks_words(models::Must part) {
  using models::Must;
  if (part == Must::yield) return "the body yields";
  if (part == Must::thread_root) return "the thread root gives way";
  if (part == Must::nut_body) return "the nut body gives way";
  return part == Must::buckling ? "the screw buckles" : "the threads strip";
}

std::vector<std::string> limit_words(const std::vector<models::Must>& musts) {
  std::vector<std::string> words;
  for (const models::Must must : musts) words.push_back(limit_words(must));
  return words;
}

std::string input_words(const std::string& name) {
  for (std::size_t i = 0; i < models::input_count; ++i) {
    const models::NameRow& row = models::row(static_cast<models::Input>(i));
    if (row.name == name) return std::string(row.words);
  }
  if (const auto output = models::output_named(name)) return std::string(models::row(*output).words);
  return name;
}

std::string lubricated(const std::string& lubrication) {
  if (lubrication == "oil") return "oiled";
  if (lubrication == "grease") return "greased";
  return lubrication;
}

std::string face_in_short(const models::Face& face) {
  using Kind = models::Face::Kind;
  return face.kind == Kind::pad ? "pad" : face.kind == Kind::point ? "point" : "rolling face";
}

std::string study_name(std::string_view path) {
  const std::size_t folder = path.find_last_of('/');
  if (folder != std::string_view::npos) path.remove_prefix(folder + 1);
  const std::size_t ending = path.find_last_of('.');
  if (ending != std::string_view::npos && ending > 0) path = path.substr(0, ending);
  return std::string(path);
}

std::string cleaned(std::string_view text) {
  std::string clean;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = engine::character_length(text, at);
    const auto lead = static_cast<unsigned char>(text[at]);
    const bool second_control = length == 2 && lead == 0xC2 && static_cast<unsigned char>(text[at + 1]) < 0xA0;
    if (length == 0)
      clean += '?';
    else if (lead < 0x20 || lead == 0x7F || second_control)
      clean += ' ';
    else
      clean += text.substr(at, length);
    at += std::max<std::size_t>(length, 1);
  }
  return clean;
}

std::size_t columns(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char letter) { return (letter & 0xC0) != 0x80; }));
}

std::string shortened(const std::string& text, std::size_t most) {
  if (columns(text) <= most) return text;
  std::string kept;
  for (std::size_t at = 0, count = 0; at < text.size() && count + 1 < most; ++count) {
    const std::size_t length = std::max<std::size_t>(engine::character_length(text, at), 1);
    kept += text.substr(at, length);
    at += length;
  }
  return kept + "…";
}

}  // namespace studies::say
