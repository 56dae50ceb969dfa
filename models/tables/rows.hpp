#pragma once
/// The rows of one tables file: every key known, every unit right, every value plausible.
#include <string>

#include "engine/base/document.hpp"
#include "models/tables/table.hpp"

namespace models {

/// Reads the rows of one file; `text` stays empty.
/// @param root  the file as a tree
/// @param file  its name for messages
/// @throws Refusal (study) with all that is wrong in the file, in the order it stands there
Tables rows_of(const engine::Node& root, const std::string& file);

/// True where two rows of different files speak of the same thing, so that the later replaces the earlier.
bool same_thing(const Material& a, const Material& b);
bool same_thing(const ThreadFriction& a, const ThreadFriction& b);
bool same_thing(const FaceFriction& a, const FaceFriction& b);
bool same_thing(const BearingPressure& a, const BearingPressure& b);

}  // namespace models
