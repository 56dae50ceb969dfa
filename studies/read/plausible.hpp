#pragma once
/// Values that can be reckoned with but are probably not what was meant: a caution each, with what may have been meant.
#include "studies/read/page.hpp"

namespace studies::read {

/// Adds the cautions to `page.study`, which has been read without a problem.
void mind_implausible(Page& page);

/// Drive against force: a torque or hand force that looks like a slip of units.
void mind_drive(Page& page);

}  // namespace studies::read
