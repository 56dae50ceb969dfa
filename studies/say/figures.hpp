#pragma once
/// How finely a number may be said, and to which side it is rounded.
#include <string>

#include "studies/ask/answer.hpp"

namespace studies::say {

enum class Toward { nearest, down, up };

/// A value rounded to a multiple of 10^power.
double to_place(double value, int power, Toward toward);
/// A value rounded to three figures.
double to_three(double value, Toward toward);
/// A value rounded to three figures, holding or missing what is asked as it did: 21.96 beside 22 is 21.9, not 22.
/// @param most  what is asked is the most allowed, else the least
double beside(double value, double asked, bool most);
/// Three figures in words: "none" for a value that does not exist, "unlimited" for an infinite one.
std::string number(double value);
/// A number that was typed: all its figures, or three where a conversion made it endless.
std::string given_number(double value);

/// An estimate with its bounds, no finer than the bounds justify.
struct Said {
  std::string low, estimate, high;
};
/// @param value    bounds rounded outwards; the last figure is at least a fiftieth of their distance
/// @param allowed  the estimate stays on its side of this
Said said(const Bounded& value, double allowed);

}  // namespace studies::say
