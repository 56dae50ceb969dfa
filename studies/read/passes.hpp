#pragma once
/// [passes]: how the odds are found.
#include "studies/read/page.hpp"

namespace studies::read {

void read_passes(Page& page);

}  // namespace studies::read
