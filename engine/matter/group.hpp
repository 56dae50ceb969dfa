#pragma once
/// Groups of the parts of a law: the unit in which it is told what matters.
#include <vector>

#include "engine/draw/law.hpp"

namespace engine {

/// Parts of a law that are moved together: one part, all of an input, or a class such as all that vary from screw to
/// screw.
using Group = std::vector<std::size_t>;

/// Whether every part that a part of the group is tied to, by correlation or as a column of the same table of draws,
/// lies in it too. Only then are the values of the group independent of all others, and its share of the variance means
/// one thing.
bool closed(const Law& law, const Group& group);

/// The groups to be taken as one because the law ties parts of theirs: indices into `groups`, each set in rising order,
/// the sets by their first index. Parts that no group holds tie nothing.
std::vector<std::vector<std::size_t>> tied_together(const Law& law, const std::vector<Group>& groups);

}  // namespace engine
