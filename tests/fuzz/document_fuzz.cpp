// Any bytes are a document or a Refusal that says where, what and the fix.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "engine/base/document.hpp"
#include "engine/base/error.hpp"

namespace {

void check(const engine::Node& node) {
  if (node.kind_in_words().empty()) std::abort();
  for (const engine::Node& item : node.items) check(item);
  for (const auto& [key, value] : node.entries) {
    if (key.place.line < 1 || node.find(key.name) == nullptr) std::abort();
    check(value);
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  try {
    check(engine::parse_document(std::string(reinterpret_cast<const char*>(data), size), "study.toml"));
  } catch (const engine::Refusal& refusal) {
    for (const engine::Problem& problem : refusal.problems())
      if (problem.problem.empty() || problem.fix.empty() || problem.line < 0) std::abort();
  }
  return 0;
}
