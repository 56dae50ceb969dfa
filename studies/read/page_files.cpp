#include <fmt/format.h>

#include <filesystem>

#include "studies/read/page.hpp"

namespace studies::read {

std::string Page::path_of(const std::string& name) const {
  return (std::filesystem::path(study.path).parent_path() / name).lexically_normal().string();
}

const std::string& Page::file_text(const std::string& name) {
  const std::string path = path_of(name);
  if (const auto known = texts_.find(path); known != texts_.end()) return known->second;
  const std::string& text = texts_.emplace(path, files_(path)).first->second;
  study.draws_files.push_back({path, text});
  study.tables.text += fmt::format("\n# {}\n{}", name, text);
  return text;
}

}  // namespace studies::read
