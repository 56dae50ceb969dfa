#include "studies/run/data.hpp"

#include <filesystem>

namespace studies {

std::string data_folder(const std::string& kind) {
  namespace fs = std::filesystem;
  std::error_code none;
  const fs::path program = fs::read_symlink("/proc/self/exe", none);
  const fs::path installed = program.parent_path() / SCREWTINY_DATA_FROM_BINARY / kind;
  if (!none && fs::is_directory(installed, none)) return installed.lexically_normal().string();
  const std::string room = kind == "tables" ? "/models/" : "/studies/";
  return SCREWTINY_SOURCE + room + kind;
}

}  // namespace studies
