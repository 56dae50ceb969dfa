#include "studies/ask/answer.hpp"

#include <algorithm>

namespace studies {

bool Answer::holds() const {
  return pick.has_value() && std::all_of(limits.begin(), limits.end(), [](const LimitVerdict& v) { return v.holds; });
}

}  // namespace studies
