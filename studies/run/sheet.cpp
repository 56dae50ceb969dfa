#include "studies/run/sheet.hpp"

namespace studies {

int sheet(const Options&, const std::atomic<bool>&) {
  throw engine::Refusal(engine::ExitCode::usage,
                        engine::Problem{"", 0, 0, "'sheet' is not built yet", "", "leave it out"});
}

}  // namespace studies
