#pragma once
/// Complete commented studies to start from.
#include <optional>
#include <string>

namespace studies {

/// The text of a blank: "vise", "press", "jack", "puller", "clamp" or "gate"; nothing for another name.
std::optional<std::string> blank_study(const std::string& name);

}  // namespace studies
