#pragma once
/// Studies from their text, with the shipped tables.
#include <string>

#include "studies/read/reader.hpp"

namespace tests {

/// A study that is to be sized, or rated.
inline studies::Study study_of(const std::string& text, studies::Verb verb = studies::Verb::size) {
  static const models::Tables tables = models::read_tables(SCREWTINY_SOURCE "/models/tables", {});
  return studies::read_study_text(
      text, "study.toml", [](const std::vector<std::string>&) { return tables; }, verb);
}

}  // namespace tests
