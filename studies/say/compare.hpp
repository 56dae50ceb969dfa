#pragma once
/// Two results beside each other in words and as JSON.
#include <string>

#include "studies/ask/answer.hpp"
#include "studies/ask/comparison.hpp"

namespace studies {

/// Two results with what became of comparing them. Each has a pick.
struct Compared {
  const Answer& a;
  const Answer& b;
  std::string a_path, b_path;  ///< of the results files, as typed
  const Comparison& comparison;
};

/// What the comparison comes to in a sentence: "b reaches 22 kN in 99.1 of 100 pulls where a does in 96.9: of 100,
/// lubrication oil instead of dry saves 1.9."; whether every limit still holds.
std::string compare_sentence(const Compared& it);

/// The sentence, the differences, outputs, odds and what each change did, in the units of the first study.
std::string compare_text(const Compared& it, bool colour);

/// One object on one line, every key always there; SI values, shortfalls of 100. What has no value is null, with a
/// reason in `notes`.
std::string compare_json(const Compared& it);

}  // namespace studies
