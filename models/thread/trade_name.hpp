#pragma once
/// The words of designations, for the writer and for the reader's messages.
#include <string>

#include "models/thread/series.hpp"

namespace models {

/// A number to at most four decimals, without idle zeros: 40, 1.5, 4.2333.
std::string decimals(double value);

/// What the trade calls a size of a series: "Tr 40x14 P7", "1-1/2-4 Acme, 2 starts", "M24x3", "3/4-16 UNF".
/// @param size  on the series of the form
std::string trade_name(Form form, const Size& size, int starts = 1);

}  // namespace models
