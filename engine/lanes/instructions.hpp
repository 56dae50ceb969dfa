#pragma once
/// Instruction sets: hot loops are compiled once for each and picked at run time. All give the same bits.
#include <string_view>
#include <vector>

namespace engine {

enum class Instructions { baseline, v3, v4 };  ///< what the target always has; x86-64 with AVX2; x86-64 with AVX-512

/// The set in use: the widest that this machine has, or the one that the environment variable SCREWTINY_INSTRUCTIONS
/// names (baseline, v3 or v4).
/// @throws Refusal (usage) where it names what the machine does not have
Instructions instructions();
/// Sets the set in use, for tests: results must not change.
/// @param set  one of available_instructions()
void use_instructions(Instructions set);
/// What this machine can run, narrowest first.
std::vector<Instructions> available_instructions();
std::string_view name(Instructions set);

/// Declares the tables of functions `loops`, of a type `Loops`, that a file *_lanes.cpp defines for every set.
#ifdef __x86_64__
#define SCREWTINY_LOOPS_OF_SETS(Loops, loops) \
  namespace baseline {                        \
  extern const Loops loops;                   \
  }                                           \
  namespace v3 {                              \
  extern const Loops loops;                   \
  }                                           \
  namespace v4 {                              \
  extern const Loops loops;                   \
  }
#else
#define SCREWTINY_LOOPS_OF_SETS(Loops, loops) \
  namespace baseline {                        \
  extern const Loops loops;                   \
  }                                           \
  namespace v3 = baseline;                    \
  namespace v4 = baseline;
#endif

/// The loops of the set in use, out of one table of functions a set.
template <class Loops>
const Loops& in_use(const Loops& baseline, const Loops& v3, const Loops& v4) {
  const Instructions set = instructions();
  return set == Instructions::v4 ? v4 : set == Instructions::v3 ? v3 : baseline;
}

}  // namespace engine
