#pragma once
/// [duty]: what the screw must do.
#include "studies/read/page.hpp"

namespace studies::read {

/// Fills `page.study.duty`; everything wrong goes to the page.
void read_duty(Page& page);

/// The drive, the handle and the overload pull of [duty].
void read_drive(Page& page, const View& duty);

}  // namespace studies::read
