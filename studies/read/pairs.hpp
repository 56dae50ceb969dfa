#pragma once
/// What the tables must hold for the pairs that may be chosen: friction of thread and face, safe pressures.
#include <string>
#include <vector>

#include "studies/read/page.hpp"

namespace studies::read {

/// Friction of the threads that may be chosen, from the table: the median where every choice has the same row.
std::optional<double> table_thread_friction(const Study& study);
/// The same of the faces.
std::optional<double> table_face_friction(const Study& study);

/// Refuses choices whose friction is due from a table that does not hold it; echoes the rows used.
void check_friction(Page& page);
/// Refuses a bearing or face_bearing limit against a table that has no such pressure.
void check_pressure(Page& page);

}  // namespace studies::read
