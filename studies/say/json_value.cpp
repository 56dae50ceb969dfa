#include "studies/say/json_value.hpp"

#include <cmath>
#include <string_view>
#include <utility>

namespace studies::say {

Json Notes::number(double value, const std::string& output, const std::string& reason) {
  if (std::isfinite(value)) return value;
  add(output, !reason.empty() ? reason : std::isnan(value) ? "it has no value here" : "it is without limit");
  return nullptr;
}

void Notes::add(const std::string& output, const std::string& reason) {
  if (noted_.insert(output + "\n" + reason).second) list_.push_back(Json{{"output", output}, {"reason", reason}});
}

Json unit(engine::Dimension dimension) {
  const std::string words = engine::si_unit(dimension);
  return words.empty() ? Json(nullptr) : Json(words);
}

Json quantity(Notes& notes, double value, engine::Dimension dimension, const std::string& output) {
  return Json{{"value", notes.number(value, output)}, {"unit", unit(dimension)}};
}

Json bounded(Notes& notes, const Bounded& value, const std::string& output, const std::string& reason) {
  return Json{{"low", notes.number(value.low, output, reason)},
              {"estimate", notes.number(value.estimate, output, reason)},
              {"high", notes.number(value.high, output, reason)}};
}

std::string one_line(const Json& object) {
  std::string text = object.dump(-1, ' ', false, Json::error_handler_t::replace);
  constexpr std::pair<const char*, const char*> line_ends[] = {
      {"\xC2\x85", "\\u0085"}, {"\xE2\x80\xA8", "\\u2028"}, {"\xE2\x80\xA9", "\\u2029"}};
  for (const auto& [mark, escape] : line_ends)
    for (std::size_t at = text.find(mark); at != std::string::npos; at = text.find(mark, at))
      text.replace(at, std::string_view(mark).size(), escape);
  return text;
}

}  // namespace studies::say
