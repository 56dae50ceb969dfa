#pragma once
/// Numbers as a person reads them.
#include <cstdint>
#include <string>

namespace engine {

/// At most three significant figures, no idle zeros, no negative zero: 0.000274, 3.12, 10, 1 810 000 (groups of three
/// above 9 999 set apart by a space); from a thousand million on and below a millionth as a power: 2.86e-7.
/// Not-a-number reads "none", the infinities "infinity" and "-infinity".
std::string three_figures(double value);
/// A value that was typed or is standard, without idle zeros and without rounding below seven figures: 40, 1.5, 3.175.
/// Never grouped, so that it can be typed again.
std::string plain(double value);
/// A count in full, in groups of three above 9 999: 1 048 576.
std::string count_in_full(std::uint64_t count);

}  // namespace engine
