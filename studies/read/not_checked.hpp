#pragma once
/// What no study of this program answers for, and what this one lacks the data for.
#include <string>
#include <vector>

#include "studies/ask/study.hpp"

namespace studies {

/// In a few words each, for "Not checked: frame, welds, …".
std::vector<std::string> not_checked(const Study& study);

}  // namespace studies
