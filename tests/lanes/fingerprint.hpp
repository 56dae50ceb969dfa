#pragma once
/// A number that all bits of a whole survey of the screw enter: law, model, moments, histograms, ranks and bounds.
#include <cstdint>

namespace tests {

/// @param threads  must not matter; nor must the instruction set in use, the compiler or its level
std::uint64_t fingerprint(unsigned threads);

}  // namespace tests
