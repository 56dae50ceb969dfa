/// Writes the manual pages and completions into a folder; a step of the build.
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>

#include "studies/manual/files.hpp"

int main(int argc, char** argv) try {
  if (argc != 3) throw std::runtime_error("usage: manual_files FOLDER DATE");
  for (const auto& [name, text] : studies::manual::manual_files(argv[2])) {
    const std::filesystem::path path = std::filesystem::path(argv[1]) / name;
    std::filesystem::create_directories(path.parent_path());
    std::ofstream file(path, std::ios::binary);
    if (!(file << text << std::flush)) throw std::runtime_error("cannot write " + path.string());
  }
} catch (const std::exception& error) {
  std::cerr << error.what() << '\n';
  return 1;
}
