#pragma once
/// [aim]: what is best among the screws that hold, and what they may come to at most.
#include "studies/read/page.hpp"

namespace studies::read {

/// Needs duty, choices and limits read.
void read_aim(Page& page);

}  // namespace studies::read
