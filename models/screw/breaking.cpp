#include "models/screw/breaking.hpp"

#include <array>
#include <limits>
#include <utility>

namespace models {
namespace {

constexpr std::array<std::pair<Must, double Parts::*>, 6> parts = {{{Must::yield, &Parts::yield},
                                                                    {Must::thread_root, &Parts::screw_root},
                                                                    {Must::thread_root, &Parts::nut_root},
                                                                    {Must::nut_body, &Parts::nut_body},
                                                                    {Must::buckling, &Parts::buckling},
                                                                    {Must::stripping, &Parts::stripping}}};

}  // namespace

First::First(Must part) {
  constexpr double out = std::numeric_limits<double>::infinity();
  for (const auto& [must, of] : parts) {
    Parts& without = must == part ? others_ : marked_;  // a name of its own: GCC 12 writes to a copy without
    without.*of = out;
  }
  if (of_nut(part)) others_.nut_root = out;
}

bool breaks(Must must) {
  for (const auto& [part, of] : parts)
    if (part == must) return true;
  return false;
}

bool of_nut(Must part) { return part == Must::nut_body || part == Must::stripping; }

}  // namespace models
