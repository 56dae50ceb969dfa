#pragma once
/// What can be asked only once it is known how many screws there are to choose from.
#include "studies/read/page.hpp"

namespace studies::read {

/// Refuses a single screw that cannot be built: too short a nut, a bar too thick for its material's row.
void check_one_screw(Page& page);
/// Refuses every [choose] key with more than one value.
void check_rate(Page& page);
/// Refuses a search without any limit.
void check_size(Page& page);

/// The one thread there is to choose; none where there are several or it cannot exist.
std::optional<models::Thread> one_thread(const Choices& choices);

}  // namespace studies::read
