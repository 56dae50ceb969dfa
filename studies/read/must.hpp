#pragma once
/// [must]: what must hold.
#include "studies/read/page.hpp"

namespace studies::read {

/// Fills `page.study.limits` in the order of models::Must, with those that the duty itself implies.
void read_must(Page& page);

}  // namespace studies::read
