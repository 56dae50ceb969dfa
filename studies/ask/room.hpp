#pragma once
/// Whether what is to be kept fits into memory, asked before anything is computed.
#include <cstdint>
#include <optional>
#include <string>

#include "studies/ask/study.hpp"

namespace studies {

/// Bytes that keeping every input and output of so many passes takes.
std::uint64_t bytes_kept(const Study& study, std::uint64_t passes);

/// Bytes that programs may take without swapping; none where the system does not say.
/// @param file  in the form of Linux's /proc/meminfo
std::optional<std::uint64_t> available_memory(const std::string& file = "/proc/meminfo");

/// @throws Refusal (files) when the study keeps its passes and they take more than nine tenths of what is available
void require_room(const Study& study, std::uint64_t passes,
                  std::optional<std::uint64_t> available = available_memory());

}  // namespace studies
