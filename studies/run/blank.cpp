#include "studies/run/blank.hpp"

#include <algorithm>
#include <array>

#include "engine/base/document.hpp"
#include "studies/run/data.hpp"

namespace studies {

std::optional<std::string> blank_study(const std::string& name) {
  constexpr std::array<std::string_view, 6> names = {"vise", "press", "jack", "puller", "clamp", "gate"};
  if (std::find(names.begin(), names.end(), name) == names.end()) return std::nullopt;
  return engine::read_text(data_folder("blanks") + "/" + name + ".toml");
}

}  // namespace studies
