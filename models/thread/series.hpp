#pragma once
/// The standard sizes a shop can buy.
#include <cstddef>
#include <vector>

#include "models/thread/designation.hpp"
#include "models/thread/form.hpp"

namespace models {

/// One standard size; inch sizes are exact (diameter and pitch in m from the inch fraction and the threads per inch).
struct Size {
  double diameter = 0;  ///< [m]
  double pitch = 0;     ///< [m]
};

/// The series of a form in order of diameter, then pitch; empty for square and the buttress forms (free only).
/// @source ISO 2904 (trapezoidal), ASME B1.5 (Acme and stub Acme), ISO 261 M3 to M100 (coarse and fine),
///         ASME B1.1 UNC and UNF from 1/4 in; the lists are from memory where series.cpp says so
const std::vector<Size>& series(Form form);

/// The size of the series with this diameter and pitch [m], to one part in 10⁹; null where it is not on the series.
const Size* size_on_series(Form form, double diameter, double pitch);

/// The size of the coarse series of a 60° form with this diameter [m]; null where there is none, and for other forms.
const Size* coarse_size(Form form, double diameter);

/// The `count` sizes of a series nearest to a diameter and pitch [m], nearest first (a wrong diameter counts more than
/// a wrong pitch); fewer where the series is shorter.
std::vector<Size> nearest_sizes(Form form, double diameter, double pitch, std::size_t count);

}  // namespace models
