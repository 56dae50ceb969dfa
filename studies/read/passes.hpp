#pragma once
/// [aim] and [passes]: what is best, and how the odds are found.
#include "studies/read/page.hpp"

namespace studies::read {

void read_aim(Page& page);
void read_passes(Page& page);

}  // namespace studies::read
