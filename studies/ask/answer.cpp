#include "studies/ask/answer.hpp"

#include <algorithm>

#include "engine/base/error.hpp"

namespace studies {

bool Answer::holds() const {
  return pick.has_value() && std::all_of(limits.begin(), limits.end(), [](const LimitVerdict& v) { return v.holds; });
}

int Answer::exit_code() const {
  using engine::ExitCode;
  return static_cast<int>(!settled() ? ExitCode::unsettled : holds() ? ExitCode::answered : ExitCode::limit_missed);
}

}  // namespace studies
