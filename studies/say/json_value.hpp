#pragma once
/// Numbers in JSON: nothing infinite or absent is written without its reason.
#include <set>
#include <string>

#include <nlohmann/json.hpp>

#include "engine/base/units.hpp"
#include "studies/ask/answer.hpp"

namespace studies::say {

using Json = nlohmann::ordered_json;

/// Notes as they gather while an object is written: one reason for an output.
class Notes {
public:
  /// The number, or null and a note on `output`.
  Json number(double value, const std::string& output, const std::string& reason = "");
  void add(const std::string& output, const std::string& reason);
  const Json& list() const { return list_; }

private:
  Json list_ = Json::array();
  std::set<std::string> noted_;
};

/// "N", "m"; null for a bare number.
Json unit(engine::Dimension dimension);
/// {"value", "unit"}
Json quantity(Notes& notes, double value, engine::Dimension dimension, const std::string& output);
/// {"low", "estimate", "high"}
Json bounded(Notes& notes, const Bounded& value, const std::string& output, const std::string& reason = "");
/// The object on one line, also for readers that end lines at U+0085, U+2028 and U+2029; bytes that are not UTF-8 are
/// replaced.
std::string one_line(const Json& object);

}  // namespace studies::say
