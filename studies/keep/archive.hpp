#pragma once
/// An answer as the program holds it, every bit of every number: what `sheet` and `compare` read back.
#include <cstdint>
#include <string>
#include <vector>

#include "studies/ask/answer.hpp"

namespace studies {

/// The answer in CBOR (RFC 8949), with the files the study was read with. Raw passes stay out, they have a group of
/// their own; of the candidates only the nearest stays in, where nothing passed.
std::vector<std::uint8_t> archive(const Answer& answer);

/// What was put in: the answer, whose `study` is left open, and the files.
struct Archived {
  Answer answer;
  std::vector<models::File> tables, draws;
};
/// @throws std::exception where the bytes are not those of this version's answers
Archived unarchived(const std::vector<std::uint8_t>& bytes);

}  // namespace studies
