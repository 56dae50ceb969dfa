/// Prints the fingerprint of every instruction set that the machine has: built at two levels, it must print the same.
#include <cstdio>

#include "engine/lanes/instructions.hpp"
#include "tests/lanes/fingerprint.hpp"

int main() {
  for (const engine::Instructions set : engine::available_instructions()) {
    engine::use_instructions(set);
    std::printf("%s %016llx\n", name(set).data(), static_cast<unsigned long long>(tests::fingerprint(1)));
  }
}
