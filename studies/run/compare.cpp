#include "studies/run/compare.hpp"

namespace studies {

int compare(const Options&, const std::atomic<bool>&) {
  throw engine::Refusal(engine::ExitCode::usage,
                        engine::Problem{"", 0, 0, "'compare' is not built yet", "", "leave it out"});
}

}  // namespace studies
