#include "engine/lanes/instructions.hpp"

#include <atomic>
#include <cstdlib>
#include <string>

#include "engine/base/error.hpp"

namespace engine {
namespace {

/// What the flags of engine/lanes/lanes.cmake let a compiler use, no more.
bool has(Instructions set) {
#ifdef __x86_64__
  const bool avx2 = __builtin_cpu_supports("avx2");
  const bool avx512 = __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512cd") &&
                      __builtin_cpu_supports("avx512bw") && __builtin_cpu_supports("avx512dq") &&
                      __builtin_cpu_supports("avx512vl");
  return set == Instructions::baseline || (avx2 && (set == Instructions::v3 || avx512));
#else
  return set == Instructions::baseline;
#endif
}

Instructions first_choice() {
  const std::vector<Instructions> available = available_instructions();
  const char* asked = std::getenv("SCREWTINY_INSTRUCTIONS");
  if (!asked) return available.back();
  std::string names;
  for (const Instructions set : available) {
    if (asked == name(set)) return set;
    names += (names.empty() ? "" : ", ") + std::string(name(set));
  }
  throw Refusal(ExitCode::usage,
                Problem{"", 0, 0, std::string("SCREWTINY_INSTRUCTIONS = '") + asked + "' cannot be had",
                        "This machine has " + names, "name one of them, or unset it"});
}

std::atomic<Instructions>& chosen() {
  static std::atomic<Instructions> set = first_choice();
  return set;
}

}  // namespace

Instructions instructions() { return chosen().load(std::memory_order_relaxed); }

void use_instructions(Instructions set) { chosen() = set; }

std::vector<Instructions> available_instructions() {
  std::vector<Instructions> all;
  for (const Instructions set : {Instructions::baseline, Instructions::v3, Instructions::v4})
    if (has(set)) all.push_back(set);
  return all;
}

std::string_view name(Instructions set) {
  switch (set) {
    case Instructions::baseline:
      return "baseline";
    case Instructions::v3:
      return "v3";
    case Instructions::v4:
      return "v4";
  }
  return "";
}

}  // namespace engine
