#include "studies/run/csv.hpp"

#include <filesystem>
#include <fstream>

#include "engine/base/error.hpp"
#include "engine/store/part_file.hpp"
#include "studies/say/csv.hpp"

namespace studies {
namespace {

/// Whether a file is empty, cannot be read, or begins as ours do.
bool may_be_replaced(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::string first;
  if (!file || !std::getline(file, first)) return true;
  return first == csv_header() + "\r";
}

}  // namespace

std::string csv_path(const std::string& results) {
  return std::filesystem::path(results).replace_extension(".csv").string();
}

void check_csv_path(const std::string& path) {
  engine::check_writable(path);
  if (!may_be_replaced(path))
    throw engine::Refusal(engine::ExitCode::files, engine::Problem{path, 0, 0, "another file has this name",
                                                                   "it is not a summary of results and would be lost",
                                                                   "move it away, or give another folder with --out"});
}

void write_csv(const std::string& path, const Study& study, const std::string& answer_json) {
  engine::write_whole(path, csv_text(study, answer_json));
}

}  // namespace studies
