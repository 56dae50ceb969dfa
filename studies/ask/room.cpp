#include "studies/ask/room.hpp"

#include <fmt/format.h>

#include <fstream>

#include "engine/base/error.hpp"
#include "engine/base/format.hpp"
#include "models/screw/screw_model.hpp"

namespace studies {
namespace {

std::string gigabytes(std::uint64_t bytes) { return engine::three_figures(static_cast<double>(bytes) / 1e9) + " GB"; }

}  // namespace

std::uint64_t bytes_kept(const Study& study, std::uint64_t passes) {
  return passes * sizeof(double) * (models::input_count + models::output_count + study.limits.size());
}

std::optional<std::uint64_t> available_memory(const std::string& file) {
  std::ifstream lines(file);
  for (std::string name, rest; lines >> name; std::getline(lines, rest)) {
    std::uint64_t kilobytes = 0;
    if (name == "MemAvailable:" && lines >> kilobytes) return kilobytes * 1024;
  }
  return std::nullopt;
}

void require_room(const Study& study, std::uint64_t passes, std::optional<std::uint64_t> available) {
  if (!study.passes.keep || !available) return;
  const std::uint64_t room = *available / 10 * 9, needed = bytes_kept(study, passes);
  if (needed <= room) return;
  throw engine::Refusal(
      engine::ExitCode::files,
      engine::Problem{
          study.path, 0, 0,
          fmt::format("keeping {} passes takes {} of memory", engine::count_in_full(passes), gigabytes(needed)),
          fmt::format("{} are available", gigabytes(*available)),
          fmt::format("keep {} passes or fewer, or leave keep out: the summaries need none of it",
                      engine::count_in_full(room / bytes_kept(study, 1)))});
}

}  // namespace studies
